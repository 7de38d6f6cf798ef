// What a person types about a planting, as the record wants it.

import { m } from "../paraglide/messages.js";
import type { ISODay, PartialDay } from "../words/ids";

/** How a plant comes, with its word. */
export const plantingForms: readonly (readonly [form: string, word: () => string])[] = [
  ["pot", m.came_pot], ["bare-root", m.came_bare_root], ["bulb", m.came_bulb], ["plug", m.came_plug],
  ["seed", m.came_seed], ["division", m.came_division], ["cutting", m.came_cutting],
];

/**
 * "2012", "2012-04" or "2012-04-11", where that is a day that has been; null for
 * anything else, so that nothing wrong is written.
 */
export function partialDate(text: string, today: ISODay): PartialDay | null {
  const parts = /^(\d{4})(?:-(\d{2})(?:-(\d{2}))?)?$/u.exec(text.trim());
  if (!parts) return null;
  const [, year, month = "01", day = "01"] = parts;
  const date = new Date(`${year}-${month}-${day}T00:00:00Z`);
  const real = !Number.isNaN(date.getTime()) && date.toISOString().slice(0, 10) === `${year}-${month}-${day}`;
  return real && text.trim() <= today ? text.trim() : null;
}

/** A number above zero, or null. */
export function positive(value: FormDataEntryValue | null): number | null {
  const number = typeof value === "string" && value.trim() ? Number(value.replace(",", ".")) : Number.NaN;
  return Number.isFinite(number) && number > 0 ? number : null;
}
