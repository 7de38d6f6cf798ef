// A refused change as a form: what was refused in words, its value as text, and back again.

import { m } from "../paraglide/messages.js";
import type { Refused } from "../state/contract";
import type { TroubleCode } from "../words/trouble";
import { fieldWord } from "./entry-words";
import { numberTyped } from "./number-typed";
import { troubleWords } from "./sending-words";

type Fields = Readonly<Record<string, unknown>>;

export type PlainField = Readonly<{ field: string; word: string; text: string }>;

/** The server's sentence about one field: "heightCm 9000 is not allowed: it must be a number from 0 to 5000". */
const SENTENCE = /^(\w+)\S* .* is not allowed: it must be (.+)$/su;

/** Written by the phone itself: nobody can put them right by typing. */
const OWN = new Set(["planting", "bed", "kind", "seen", "by", "tiedBy", "tiedSure", "lat", "lon", "accuracyM", "day", "done"]);

/** The field that was refused and what it may be; null where the whole change was. */
export function refusedField({ why, fields }: Pick<Refused, "why" | "fields">): Readonly<{ field: string; bound: string }> | null {
  const [, field, bound] = SENTENCE.exec(why) ?? [];
  return field !== undefined && bound !== undefined && field in fields ? { field, bound } : null;
}

/** Refusals of a whole request that one change was found to be the cause of. */
const OF_REQUEST: readonly string[] = ["too-large", "not-understood"] satisfies readonly TroubleCode[];

/** Why it was refused, in the person's words where the field or the trouble is known, else as the server says it. */
export function whyWords(refused: Pick<Refused, "why" | "fields"> & Partial<Pick<Refused, "code">>): string {
  const found = refusedField(refused);
  const { code = "", why } = refused;
  if (!found && OF_REQUEST.includes(code)) return troubleWords({ code: code as TroubleCode, ...(why && { detail: why }) });
  if (!found) return why;
  return m.refused_why({ field: labelOf(found.field), value: String(refused.fields[found.field]), bound: found.bound });
}

/** What a person can mend by typing: the refused field alone where it is known; lists and shapes go again as they are. */
export function plainFields(refused: Pick<Refused, "why" | "fields">): readonly PlainField[] {
  const found = refusedField(refused)?.field;
  return Object.entries(refused.fields).flatMap(([field, value]) => {
    const offered = found === undefined ? !OWN.has(field) : field === found;
    return offered && (typeof value === "string" || typeof value === "number") ? [{ field, word: labelOf(field), text: String(value) }] : [];
  });
}

/** The fields with what was typed: numbers stay numbers, and an emptied field is cleared. */
export function mended(fields: Fields, typed: FormData): Fields {
  return Object.fromEntries(Object.entries(fields).map(([field, value]) => [field, mendedValue(value, typed.get(field))]));
}

function mendedValue(before: unknown, typed: FormDataEntryValue | null): unknown {
  if (typeof typed !== "string") return before;
  if (typed.trim() === "") return null;
  return (typeof before === "number" ? numberTyped(typed) : null) ?? typed;
}

function labelOf(field: string): string {
  const words: Readonly<Record<string, () => string>> = {
    stage: m.field_stage, heightCm: m.field_height, spreadCm: m.field_spread, vigour: m.vigour, count: m.how_count, planted: m.add_planted, potL: m.add_pot,
    countInFlower: m.field_in_flower, timeZone: m.garden_zone, altitudeM: m.field_altitude,
  };
  return words[field]?.() ?? fieldWord(field);
}
