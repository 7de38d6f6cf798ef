// What a person types about a planting, as the record wants it.

import { m } from "../paraglide/messages.js";
import type { Patch } from "../state/contract";
import type { ISODay, PartialDay } from "../words/ids";
import type { Planting } from "../words/records";
import { entry, pot, type Units } from "./measure";
import { numberTyped } from "./number-typed";

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

/** The same for a whole date alone. */
export function fullDate(text: string, today: ISODay): ISODay | null {
  return text.trim().length === today.length ? (partialDate(text, today) as string | null as ISODay | null) : null;
}

/** What the record takes: a meadow of bulbs, the tub of a tree. */
export const MOST_PLANTS = 100_000;
export const BIGGEST_POT_L = 2000;

/** A number above zero and not above `most`, or null. */
export function positive(value: FormDataEntryValue | null, most = Number.POSITIVE_INFINITY): number | null {
  const number = typeof value === "string" ? numberTyped(value) : null;
  return number !== null && number > 0 && number <= most ? number : null;
}

/** A count of plants, 0 included; null for anything else. */
export function whole(text: string): number | null {
  return /^\d{1,6}$/u.test(text.trim()) && Number(text) <= MOST_PLANTS ? Number(text) : null;
}

const MADE_BY_A_PHONE = /^[0-9a-f]{8}-[0-9a-f]{4}-7/u; // UUIDv7 (RFC 9562): their order is that of their making

type Entered = Pick<Planting, "id" | "bed" | "planted">;

/** The bed of the planting that was entered last, where the next one mostly goes, or of the one planted last where none was entered on a phone; "" for none. */
export function lastBed(plantings: readonly Entered[]): string {
  const made = plantings.filter(({ id }) => MADE_BY_A_PHONE.test(id));
  const order = made.length > 0 ? ({ id }: Entered) => id : ({ planted }: Entered) => planted ?? "";
  return (made.length > 0 ? made : plantings).reduce<Entered | null>((last, one) => (last && order(last) > order(one) ? last : one), null)?.bed ?? "";
}

/** How a planting ended, with its word. */
export const endings: readonly (readonly [how: string, word: () => string])[] = [
  ["died", m.ended_died], ["removed", m.ended_removed], ["moved", m.ended_moved], ["divided", m.ended_divided],
  ["lifted", m.ended_lifted], ["given-away", m.ended_given_away], ["done", m.ended_done],
];

const words = (typed: string): string[] => typed.split(",").map((word) => word.trim()).filter(Boolean);

/** The number typed, below zero too; null where it is none, undefined where nothing was typed. */
function numberIn(data: FormData, field: string): number | null | undefined {
  const typed = String(data.get(field) ?? "").trim();
  return typed === "" ? undefined : numberTyped(typed);
}

/** How it came, as a form says it: what was left empty is left out. `bad`: why something cannot be read. */
export function cameTyped(data: FormData, units: Units): Readonly<{ set: Patch<"planting">; bad: string }> {
  const [form, supplier, amendments] = ["form", "supplier", "amendments"].map((field) => String(data.get(field) ?? "").trim()) as [string, string, string];
  const [held, height, depth, price] = ["pot", "height", "depth", "price"].map((field) => numberIn(data, field)) as [number | null | undefined, number | null | undefined, number | null | undefined, number | null | undefined];
  const set: Patch<"planting"> = {
    ...(form && { form }), ...(form === "pot" && held && { potL: pot.toL(held, units) }), ...(height && { heightCm: entry.toCm(height, units) }),
    ...(typeof depth === "number" && { depthCm: entry.toCm(depth, units) }), ...(amendments && { amendments: words(amendments) }),
    ...(supplier && { supplier }), ...(typeof price === "number" && { price }),
  };
  return { set, bad: [held, height, depth, price].includes(null) || (price ?? 0) < 0 ? m.mend_bad_number() : "" };
}
