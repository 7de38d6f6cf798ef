// A refused change as a form: its plain values as text, and back again.

import { m } from "../paraglide/messages.js";
import { fieldWord } from "./entry-words";

type Fields = Readonly<Record<string, unknown>>;

/** The fields that a person can mend by typing; lists and shapes go again as they are. */
export function plainFields(fields: Fields): readonly Readonly<{ field: string; word: string; text: string }>[] {
  return Object.entries(fields).flatMap(([field, value]) =>
    typeof value === "string" || typeof value === "number" ? [{ field, word: labelOf(field), text: String(value) }] : []);
}

/** The fields with what was typed: numbers stay numbers, and an emptied field is cleared. */
export function mended(fields: Fields, typed: FormData): Fields {
  return Object.fromEntries(Object.entries(fields).map(([field, value]) => [field, mendedValue(value, typed.get(field))]));
}

function mendedValue(before: unknown, typed: FormDataEntryValue | null): unknown {
  if (typeof typed !== "string") return before;
  if (typed.trim() === "") return null;
  const number = Number(typed.replace(",", "."));
  return typeof before === "number" && Number.isFinite(number) ? number : typed;
}

function labelOf(field: string): string {
  const words: Readonly<Record<string, () => string>> = { stage: m.field_stage, heightCm: m.field_height, vigour: m.vigour, seen: m.field_seen };
  return words[field]?.() ?? fieldWord(field);
}
