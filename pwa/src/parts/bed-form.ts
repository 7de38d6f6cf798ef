// What a keeper types about a bed, as the record wants it: a length in metres or
// feet, a rectangle beside the other beds, a place in the round.

import type { Draft } from "../state/contract";
import { type Ground, groundOf, widened } from "../plan/sheet";
import type { Bed, Point, Structure } from "../words/records";
import { sizeOf } from "./bed-words";
import { numberTyped } from "./number-typed";
import type { Units } from "./measure";

/** A pot at the least; the longest borders of large gardens at the most. A bound for slips of the finger. */
const LEAST_M = 0.1;
const MOST_M = 400;

const METRES_PER_FOOT = 0.3048; // exact, international foot (1959)
const INCHES_PER_FOOT = 12;

/** "9.4", "9,4 m", "31 ft", "31 ft 6 in", "31' 6\"", as the garden's units have it where none is written; in metres, or null for what is none and for what no bed is. */
export function sideTyped(text: string, units: Units): number | null {
  const metres = feetTyped(text) ?? plainTyped(text, units);
  return metres !== null && metres >= LEAST_M && metres <= MOST_M ? Math.round(metres * 100) / 100 : null;
}

function plainTyped(text: string, units: Units): number | null {
  const unit = /\s*(cm|m)$/iu.exec(text.trim())?.[1]?.toLowerCase();
  const value = numberTyped(text.trim().replace(/\s*(cm|m)$/iu, ""));
  if (value === null) return null;
  if (unit) return unit === "cm" ? value / 100 : value;
  return units === "imperial" ? value * METRES_PER_FOOT : value;
}

function feetTyped(text: string): number | null {
  const [, feet, inches] = /^([\d.,]+)\s*(?:ft|feet|foot|['′’])\s*(?:([\d.,]+)\s*(?:in|inches|["″”])?)?$/iu.exec(text.trim()) ?? [];
  const whole = numberTyped(feet ?? "");
  return whole === null ? null : (whole + (numberTyped(inches ?? "") ?? 0) / INCHES_PER_FOOT) * METRES_PER_FOOT;
}

/** A side as it is typed: "9.4", or feet with a decimal. */
export function sideText(metres: number, units: Units): string {
  return String(Number((units === "imperial" ? metres / METRES_PER_FOOT : metres).toFixed(units === "imperial" ? 1 : 2)));
}

/** The rectangle with a corner and sides. */
export function rectangle([x, y]: Point, long: number, wide: number): Point[] {
  const [right, top] = [to2(x + long), to2(y + wide)];
  return [[to2(x), to2(y)], [right, to2(y)], [right, top], [to2(x), top]];
}

const to2 = (value: number): number => Math.round(value * 100) / 100; // a centimetre

/** Whether an outline is a rectangle along the plan's axes, which alone has a length and a width to type. */
export function isRectangle(outline: readonly Point[]): boolean {
  const { west, south, east, north } = groundOf(outline);
  return outline.length === 4 && outline.every(([x, y]) => (x === west || x === east) && (y === south || y === north));
}

const PATH_M = 1; // between a new bed and what is there: a path's width

/**
 * Where a new rectangle goes: beside what is drawn, without overlapping, where the
 * whole stays as near to a square as can be. Its true place is drawn later.
 */
export function besideOthers(long: number, wide: number, drawn: readonly Ground[]): Point[] {
  if (drawn.length === 0) return rectangle([0, 0], long, wide);
  const corners = drawn.flatMap(({ west, south, east, north }): Point[] => [[east + PATH_M, south], [west, north + PATH_M], [west, south - PATH_M - wide], [west - PATH_M - long, south]]);
  const free = corners.map((corner) => rectangle(corner, long, wide)).filter((outline) => drawn.every((other) => !overlap(groundOf(outline), other)));
  const whole = (outline: readonly Point[]): number => Math.max(...sizeOf([...outline, ...drawn.flatMap(({ west, south, east, north }): Point[] => [[west, south], [east, north]])]));
  return free.reduce((best, one) => (whole(one) < whole(best) ? one : best));
}

/** Closer than half a path counts, so that two beds keep their edges. */
function overlap(a: Ground, b: Ground): boolean {
  const wide = widened(a, PATH_M / 2);
  return wide.west < b.east && b.west < wide.east && wide.south < b.north && b.south < wide.north;
}

/** The grounds of everything with an outline, but of one bed. */
export function groundsBut(bed: string, beds: readonly Bed[], structures: readonly Structure[]): readonly Ground[] {
  return [...beds.filter(({ id }) => id !== bed), ...structures].flatMap(({ outline }) => (outline && outline.length > 2 ? [groundOf(outline)] : []));
}

/**
 * A bed's outline with other sides: the longer stays along the axis that it lies
 * on, and the corner stays where plants of it have their places or there is room.
 */
export function resized(outline: readonly Point[], long: number, wide: number, others: readonly Ground[], planted: boolean): Point[] {
  const { west, south, east, north } = groundOf(outline);
  const [longer, shorter] = [Math.max(long, wide), Math.min(long, wide)];
  const [x, y] = east - west >= north - south ? [longer, shorter] : [shorter, longer];
  const stays = rectangle([west, south], x, y);
  const free = others.every((other) => !overlap(widened(groundOf(stays), -PATH_M / 2), other));
  return planted || free ? stays : besideOthers(x, y, others);
}

/** What to write so that the bed at `from` stands at `to` in the round: its own order where there is room between its neighbours, else everyone's anew. */
export function reordered(beds: readonly Bed[], from: number, to: number): readonly Draft[] {
  const round = beds.filter((_, at) => at !== from);
  round.splice(to, 0, beds[from]!);
  const [before, after] = [round[to - 1]?.order ?? (to === 0 ? (round[1]?.order ?? 1) - 2 : undefined), round[to + 1]?.order ?? (round[to - 1]?.order ?? 0) + 2];
  const settled = round.every(({ order }) => order !== undefined);
  if (settled && before !== undefined && before < after) return [{ ref: beds[from]!.ref, set: { order: (before + after) / 2 } }];
  return round.flatMap(({ ref, order }, at) => (order === at + 1 ? [] : [{ ref, set: { order: at + 1 } }]));
}

/** Soil is 3 to 10: from raised bog to alkali flats (common practice); beyond it something was mistyped. */
const LEAST_PH = 3;
const MOST_PH = 10;

export function phTyped(text: string): number | null {
  const value = numberTyped(text);
  return value !== null && value >= LEAST_PH && value <= MOST_PH ? value : null;
}
