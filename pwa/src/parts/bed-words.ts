// What is said of a bed in a line: its size, its soil.

import { m } from "../paraglide/messages.js";
import type { Book } from "../state/contract";
import type { Bed, Point } from "../words/records";
import { unitsOf } from "./about-planting";
import { distance } from "./measure";
import { soilWord } from "./soils";

/** "9.4 m × 2.6 m · loam"; "" where nothing is known. */
export function bedFacts(book: Pick<Book, "garden">, bed: Bed): string {
  const units = unitsOf(book);
  const size = bed.outline?.length ? sizeOf(bed.outline).map((metres) => distance(metres, units)) : null;
  const facts = [size ? m.bed_size({ long: size[0]!, wide: size[1]! }) : "", soilWord(bed.soil)].filter(Boolean);
  return facts.length === 2 ? m.dot({ one: facts[0]!, other: facts[1]! }) : (facts[0] ?? "");
}

/** How water leaves it: the record's value, and what a hole filled with water does. */
export const drainages: readonly (readonly [value: string, word: () => string])[] = [
  ["quick", m.drainage_quick], ["good", m.drainage_good], ["slow", m.drainage_slow], ["wet", m.drainage_wet],
];

/** Length and width of the box around an outline, metres, the longer first. */
export function sizeOf(outline: readonly Point[]): readonly [long: number, wide: number] {
  const [xs, ys] = [outline.map(([x]) => x), outline.map(([, y]) => y)];
  const [x, y] = [Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)];
  return x >= y ? [x, y] : [y, x];
}
