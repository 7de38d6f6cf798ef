// What a person types about a planting, as the record wants it.

import { m } from "../paraglide/messages.js";
import type { Patch } from "../state/contract";
import type { ISODay, PartialDay } from "../words/ids";
import type { Planting } from "../words/records";
import { monthName } from "./dates";
import { entry, number, pot, TALLEST_CM, type Units } from "./measure";
import { numberTyped } from "./number-typed";
import type { Wrong } from "./wrong";

/** How a plant comes, with its word. */
export const plantingForms: readonly (readonly [form: string, word: () => string])[] = [
  ["pot", m.came_pot], ["bare-root", m.came_bare_root], ["bulb", m.came_bulb], ["plug", m.came_plug],
  ["seed", m.came_seed], ["division", m.came_division], ["cutting", m.came_cutting],
];

/**
 * "2012", "2012-04", "April 2012" or "2012-04-11", where that is a day that has
 * been; null for anything else, so that nothing wrong is written.
 */
export function partialDate(text: string, today: ISODay, locale?: string): PartialDay | null {
  const typed = monthTyped(text, locale) ?? text.trim();
  const parts = /^(\d{4})(?:-(\d{2})(?:-(\d{2}))?)?$/u.exec(typed);
  if (!parts) return null;
  const [, year, month = "01", day = "01"] = parts;
  const date = new Date(`${year}-${month}-${day}T00:00:00Z`);
  const real = !Number.isNaN(date.getTime()) && date.toISOString().slice(0, 10) === `${year}-${month}-${day}`;
  return real && typed <= today ? typed : null;
}

const MONTHS = 12;
const SHORTEST = 3; // letters of a shortened month

/** A month by its name, or as much of it as tells it from the others, and its year, either first: "May 2022", "2021 sept." as "2021-09". */
function monthTyped(text: string, locale?: string): PartialDay | null {
  const parts = bare(text).match(/\p{L}+|\d+/gu) ?? [];
  const [year, name] = [parts.find((part) => /^\d{4}$/u.test(part)), parts.find((part) => /^\p{L}/u.test(part))];
  if (parts.length !== 2 || !year || !name || name.length < SHORTEST) return null;
  const months = Array.from({ length: MONTHS }, (_, i) => String(i + 1).padStart(2, "0"));
  const [month, another] = months.filter((one) => bare(monthName(one, locale)).startsWith(name));
  return month && !another ? `${year}-${month}` : null;
}

/** Without accents and capitals, which a thumb leaves out. */
const bare = (text: string): string => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();

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

const HIGHEST_PRICE = 1_000_000; // as the record takes it

/** A price, whatever its coin and wherever that is written; null where it is none. */
export function priceTyped(text: string): number | null {
  const value = numberTyped(text.replace(/[\s\p{Sc}]/gu, ""));
  return value !== null && value >= 0 && value <= HIGHEST_PRICE ? value : null;
}

export const badPrice = (): string => m.bad_price({ example: number(12.5, 2) });

/** What the record takes, below zero for what stands proud of the ground. */
const PROUDEST_CM = -50, DEEPEST_CM = 200;

/** A depth in centimetres, as the garden's units have it; null where it is none. */
export function depthTyped(text: string, units: Units): number | null {
  const value = numberTyped(text);
  const cm = value === null ? null : entry.toCm(value, units);
  return cm !== null && cm >= PROUDEST_CM && cm <= DEEPEST_CM ? cm : null;
}

export function badDepth(units: Units): string {
  const [least, most] = [PROUDEST_CM, DEEPEST_CM].map((cm) => {
    const near = entry.fromCm(cm, units);
    return number(depthTyped(String(near), units) === null ? near - Math.sign(near) : near).replace("-", "−");
  }) as [string, string];
  return m.bad_depth({ least, most, unit: entry.unitWord(units) });
}

/** How it came, as a form says it: what was left empty is left out. */
export function cameTyped(data: FormData, units: Units): Readonly<{ set: Patch<"planting">; wrong: Wrong }> {
  const wrong: Record<string, string> = {};
  const typed = (field: string): string => String(data.get(field) ?? "").trim();
  const read = (field: string, how: (text: string) => number | null, bad: string): number | null => {
    const value = typed(field) ? how(typed(field)) : null;
    if (typed(field) && value === null) wrong[field] = bad;
    return value;
  };
  const [form, supplier, amendments] = [typed("form"), typed("supplier"), typed("amendments")];
  const held = read("pot", (text) => positive(text, pot.fromL(BIGGEST_POT_L, units)), m.mend_bad_number());
  const height = read("height", (text) => positive(text, entry.fromCm(TALLEST_CM, units)), m.mend_bad_number());
  const depthCm = read("depth", (text) => depthTyped(text, units), badDepth(units));
  const price = read("price", priceTyped, badPrice());
  const set: Patch<"planting"> = {
    ...(form && { form }), ...(form === "pot" && held !== null && { potL: pot.toL(held, units) }), ...(height !== null && { heightCm: entry.toCm(height, units) }),
    ...(depthCm !== null && { depthCm }), ...(amendments && { amendments: words(amendments) }), ...(supplier && { supplier }), ...(price !== null && { price }),
  };
  return { set, wrong };
}
