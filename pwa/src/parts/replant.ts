// Moving, dividing, lifting, planting again and ending, each as the records that
// are written together, so that one undo takes all of it back. The first record
// is the planting that is to be shown then.

import type { Book, Draft } from "../state/contract";
import type { ISODay } from "../words/ids";
import { idOf, type Planting } from "../words/records";
import { orderLast } from "./garden-form";

type Shelf = Pick<Book, "beds" | "newRef">;

/** Where something goes: a bed that there is ("" for none), or a new one by its name. */
export type Spot = Readonly<{ bed: string; newBed: string }>;
export type Group = Readonly<{ count: number; spot: Spot }>;

/** The beds of some spots, and what is to be written of those that are new; one name makes one bed. */
export function bedsOf(book: Shelf, spots: readonly Spot[]): Readonly<{ beds: readonly (string | null)[]; drafts: readonly Draft[] }> {
  const made = new Map<string, Draft>();
  const beds = spots.map(({ bed, newBed }) => {
    const name = newBed.trim();
    if (!name) return bed || null;
    const draft = made.get(name) ?? { ref: book.newRef("bed"), set: { name, order: orderLast(book.beds) + made.size } };
    made.set(name, draft);
    return idOf(draft.ref);
  });
  return { beds, drafts: [...made.values()] };
}

/** How many there are, one where nobody said. */
export const countOf = ({ count }: Planting): number => count ?? 1;

/** What stays of a planting when some of it goes: fewer, or nothing, and then it ended so. */
function left(planting: Planting, stay: number, day: ISODay, how: string): Draft {
  return { ref: planting.ref, set: stay > 0 ? { count: stay } : { ended: day, endedHow: how } };
}

/** What is the same plant wherever it stands. */
function same({ kind, label, identity, grafted }: Planting): Record<string, unknown> {
  return { ...(kind !== undefined && { kind }), ...(label !== undefined && { label }), ...(identity && { identity }), ...(grafted !== undefined && { grafted }) };
}

function worked(book: Shelf, planting: string, day: ISODay, what: string): Draft {
  return { ref: book.newRef("work"), set: { planting, day, what } };
}

export type Move = Readonly<{ day: ISODay; count: number; spot: Spot; heightCm: number | null }>;

/** To another spot: the planting ends, or is fewer, and a new one goes on from there. */
export function moved(book: Shelf, planting: Planting, { day, count, spot, heightCm }: Move): readonly Draft[] {
  const { beds, drafts } = bedsOf(book, [spot]);
  const to = book.newRef("planting");
  const set = { ...same(planting), bed: beds[0] ?? null, count, planted: day, heightCm, from: { planting: planting.id, how: "moved" } };
  return [{ ref: to, set }, left(planting, countOf(planting) - count, day, "moved"), ...drafts];
}

export type Division = Readonly<{ day: ISODay; stay: number; groups: readonly Group[] }>;

/** Pieces taken off: each group of them is a planting of its own, and what stays grows on as what it was. */
export function divided(book: Shelf, planting: Planting, { day, stay, groups }: Division): readonly Draft[] {
  const { beds, drafts } = bedsOf(book, groups.map(({ spot }) => spot));
  const pieces = groups.map(({ count }, i): Draft => ({
    ref: book.newRef("planting"),
    set: { ...same(planting), bed: beds[i] ?? null, count, planted: day, form: "division", from: { planting: planting.id, how: "divided" } },
  }));
  return [left(planting, stay, day, "divided"), worked(book, planting.id, day, "divide"), ...pieces, ...drafts];
}

/** Out of the ground into store, as bulbs and tubers are. */
export function lifted(book: Shelf, planting: Planting, day: ISODay): readonly Draft[] {
  return [{ ref: planting.ref, set: { stored: true } }, worked(book, planting.id, day, "lift")];
}

/** From store into the ground again; where it stood on the plan is not known any more. */
export function plantedAgain(book: Shelf, planting: Planting, { day, spot }: Readonly<{ day: ISODay; spot: Spot }>): readonly Draft[] {
  const { beds, drafts } = bedsOf(book, [spot]);
  const bed = beds[0] ?? null;
  const elsewhere = bed === (planting.bed ?? null) ? {} : { bed, at: null, area: null };
  return [{ ref: planting.ref, set: { stored: null, ...elsewhere } }, worked(book, planting.id, day, "plant"), ...drafts];
}

export type End = Readonly<{ day: ISODay; how: string; why: string }>;

/** It died or is gone; out of the store too. */
export function ended(planting: Planting, { day, how, why }: End): readonly Draft[] {
  return [{ ref: planting.ref, set: { ended: day, endedHow: how, endedWhy: why.trim() || null, ...(planting.stored && { stored: null }) } }];
}
