// An own kind from what the label says, as a form and as the record; only its name is needed.

import { m } from "../paraglide/messages.js";
import type { Patch } from "../state/contract";
import type { KindFields } from "../words/records";
import { monthName } from "./dates";
import { lightWords } from "./expected-words";
import { hardinessText, hardinessTyped, sizeText, sizeTyped } from "./label-values";
import type { Units } from "./measure";
import { plainName } from "./plant-name";
import type { Wrong } from "./wrong";

export type Options = readonly (readonly [value: string, word: string])[];

/** A typed value: what it is called, how the record's value is written, and how what was typed is read. */
export type TypedField = Readonly<{
  field: "common" | "heightCm" | "spreadCm" | "minWinterC";
  words: (units: Units) => string;
  hint: (units: Units) => string;
  text: (kind: KindFields, units: Units) => string;
  /** Null for what cannot be read; "" clears. */
  read: (text: string, units: Units) => Patch<"kind"> | null;
  bad: () => string;
}>;

export const typedFields: readonly TypedField[] = [
  {
    field: "common", words: () => m.kind_common(), hint: () => m.kind_common_hint(), text: ({ common }) => (common ?? []).join(", "),
    read: (text) => ({ common: text.split(",").map((word) => word.trim()).filter(Boolean) }), bad: () => "",
  },
  size("heightCm", () => m.kind_height()),
  size("spreadCm", () => m.kind_spread()),
  {
    field: "minWinterC", words: () => m.kind_hardy(), hint: (units) => (units === "imperial" ? m.kind_hardy_hint_f() : m.kind_hardy_hint_c()), text: ({ minWinterC }, units) => hardinessText(minWinterC, units),
    read: (text, units) => cleared("minWinterC", text, hardinessTyped(text, units)), bad: () => m.kind_bad_hardy(),
  },
];

function size(field: "heightCm" | "spreadCm", words: () => string): TypedField {
  return {
    field, words, hint: (units) => (units === "imperial" ? m.kind_size_hint_in() : m.kind_size_hint_cm()), text: (kind, units) => sizeText(kind[field], units),
    read: (text, units) => cleared(field, text, sizeTyped(text, units)), bad: () => m.kind_bad_size(),
  };
}

function cleared(field: string, text: string, value: unknown): Patch<"kind"> | null {
  return text !== "" && value === null ? null : { [field]: value };
}

/** Hours of direct sun a day that the labels' words mean, from the fewest to the most (full sun from 6, shade under 3: common practice). */
const light: Readonly<Record<string, readonly [number, number]>> = { sun: [6, 12], "sun-part": [3, 12], part: [3, 6], "part-shade": [0, 6], shade: [0, 3], any: [0, 12] };

export const lightOptions = (): Options => [
  ["sun", m.light_full()], ["sun-part", m.light_sun_part()], ["part", m.light_part()], ["part-shade", m.light_part_shade()], ["shade", m.light_shade()], ["any", m.light_any()],
];

export const lightSet = (code: string): Patch<"kind"> => ({ sunHours: light[code] ?? null });

/** The label's word for the light that a kind has; its hours where none of them means just that; "" where it is not known. */
export const lightOf = ({ sunHours }: KindFields): string => Object.keys(light).find((code) => String(light[code]) === String(sunHours)) ?? String(sunHours ?? "");

/** What a kind's light can be changed to, and what it is. */
export function lightChoices(kind: KindFields): Options {
  const own: Options = kind.sunHours && !light[lightOf(kind)] ? [[lightOf(kind), m.kind_light_now({ light: lightWords(kind.sunHours) })]] : [];
  return [["", m.kind_unknown()], ...own, ...lightOptions()];
}

export const habitOptions = (): Options => [
  ["perennial", m.habit_perennial()], ["shrub", m.habit_shrub()], ["climber", m.habit_climber()], ["bulb", m.habit_bulb()], ["grass", m.habit_grass()],
  ["fern", m.habit_fern()], ["annual", m.habit_annual()], ["biennial", m.habit_biennial()], ["tree", m.habit_tree()],
];

const MONTHS = 12;
export const monthOptions = (): Options => Array.from({ length: MONTHS }, (_, i) => String(i + 1).padStart(2, "0")).map((month) => [month, monthName(month)]);

/** The first flush from the beginning of one month to the end of another, with those that follow it; nothing while one is missing. */
export function bloomSet(from: string, to: string, { bloom }: KindFields = {}): Patch<"kind"> {
  if (!from || !to) return { bloom: null };
  return { bloom: [{ from: `${from}-01`, to: `${to}-${lastOf(to)}`, needs: "" as const }, ...(bloom ?? []).slice(1)] };
}

/** The last day of a month of any year. */
const lastOf = (month: string): number => new Date(Date.UTC(2001, Number(month), 0)).getUTCDate();

/** A name by the rules for cultivated plants: × for x, proper quotes, and the genus with its capital. */
export function kindName(typed: string): string {
  return plainName(typed.trim().replace(/^\p{Ll}/u, (letter) => letter.toUpperCase()));
}

const text = (data: FormData, field: string): string => String(data.get(field) ?? "").trim();

/** What a form says of a kind, left out where it says nothing. */
export function kindTyped(data: FormData, units: Units): Readonly<{ set: Patch<"kind">; wrong: Wrong }> {
  const read = typedFields.map(({ field, read, bad }) => {
    const typed = text(data, field);
    const set = typed ? read(typed, units) : {};
    return { set: set ?? {}, wrong: set ? {} : { [field]: bad() } };
  });
  const [habit, sun, from, to] = ["habit", "light", "from", "to"].map((field) => text(data, field)) as [string, string, string, string];
  const set = Object.assign({}, ...read.map((one) => one.set), habit && { habit }, sun && lightSet(sun), from && to && bloomSet(from, to)) as Patch<"kind">;
  const missing = Boolean(from) === Boolean(to) ? {} : { [from ? "to" : "from"]: m.kind_bad_months() };
  return { set: { name: kindName(text(data, "name")), ...set }, wrong: Object.assign({}, ...read.map((one) => one.wrong), missing) as Wrong };
}
