// Short descriptions of a planting: its name, where it is, since when and from what.

import { m } from "../paraglide/messages.js";
import type { Book } from "../state/contract";
import type { ISODay } from "../words/ids";
import type { Planting } from "../words/records";
import { dayOf, partialDay } from "./dates";
import type { About } from "./finding-words";
import { number, pot, type Units } from "./measure";

export type AboutBook = Pick<Book, "kind" | "bed" | "garden" | "today" | "lastLook">;

/** The botanical name, or the label it came with, or that nobody knows. */
export function nameOf(book: Pick<Book, "kind">, planting: Planting): string {
  return book.kind(planting.kind)?.name ?? planting.label ?? m.unknown_kind();
}

/** "Wet bed · five plants". */
export function whereOf(book: Pick<Book, "bed">, planting: Planting): string {
  const bed = book.bed(planting.bed)?.name ?? m.no_bed();
  return planting.count && planting.count > 1 ? m.dot({ one: bed, other: m.plants_counted({ count: planting.count }) }) : bed;
}

/** "planted 11 October 2012 from a 5 litre pot"; of what came from another planting here, what was done that day. */
export function sinceOf(planting: Planting, units: Units, locale?: string): string {
  const from = formWords(planting, units);
  if (!planting.planted) return from ? m.planted_unknown_from({ from }) : m.planted_unknown();
  return from && !cameBy(planting) ? m.planted_from({ day: partialDay(planting.planted, locale), from }) : sinceDay(planting, locale);
}

/** "planted 11 October 2012", "moved here 10 July 2015"; "" where nobody knows. */
export function sinceDay(planting: Pick<Planting, "planted" | "from">, locale?: string): string {
  return planting.planted ? (cameBy(planting) ?? m.planted_on)({ day: partialDay(planting.planted, locale) }) : "";
}

/** What was done here on the day that it began, of a plant that stood here before; undefined for all others. */
function cameBy({ from }: Pick<Planting, "from">): ((inputs: { day: string }) => string) | undefined {
  const done: Readonly<Record<string, (inputs: { day: string }) => string>> = { moved: m.moved_on, divided: m.divided_on };
  return from && done[from.how];
}

function formWords({ form, potL }: Planting, units: Units): string {
  const words: Readonly<Record<string, () => string>> = {
    "bare-root": m.form_bare_root, bulb: m.form_bulb, plug: m.form_plug, seed: m.form_seed, division: m.form_division, cutting: m.form_cutting,
  };
  if (form === "pot") return potL ? potWords(potL, units) : m.form_pot();
  return form ? (words[form]?.() ?? "") : "";
}

function potWords(litres: number, units: Units): string {
  const held = number(pot.fromL(litres, units), 1);
  return units === "imperial" ? m.form_pot_gal({ gallons: held }) : m.form_pot_l({ litres: held });
}

/** Planted from July on, a plant's first growing season is the next year's (a choice of ours, half of the year either way). */
const FIRST_SEASON_FROM_MONTH = 7;

/** Which growing season the planting is in, 1 being its first; null when nobody knows since when. */
export function seasonOf(planting: Planting, today: ISODay): number | null {
  if (!planting.planted) return null;
  const month = Number(planting.planted.slice(5, 7) || 1);
  const first = Number(planting.planted.slice(0, 4)) + (month >= FIRST_SEASON_FROM_MONTH ? 1 : 0);
  return Math.max(1, Number(today.slice(0, 4)) - first + 1);
}

export function unitsOf(book: Pick<Book, "garden">): Units {
  return book.garden?.units ?? "metric";
}

/** What the words of a finding need to know of its planting. */
export function aboutPlanting(book: AboutBook, planting: Planting): About {
  const looked = book.lastLook(planting.id);
  return { today: book.today, units: unitsOf(book), lastLook: looked ? dayOf(looked) : null, season: seasonOf(planting, book.today) };
}
