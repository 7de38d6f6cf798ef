// Labels to print: their sizes, how many stand on a sheet, and the code that opens a planting.

import { encode } from "uqr";
import { m } from "../paraglide/messages.js";
import { paths } from "../routes/paths";

/** Millimetres, as printed at 100 %. */
export type LabelSize = Readonly<{ name: "stake" | "tag" | "sign"; wide: number; high: number; code: number; word: () => string }>;
export type Paper = Readonly<{ name: "a4" | "letter"; wide: number; high: number; word: () => string }>;

/**
 * Choices of ours. `code` is the side of the code with its quiet zone: an address of
 * a server in a garden takes 37 to 45 modules and 8 of quiet, so that each module
 * is about 0.5 mm, six dots of a 300 dpi printer; under it stand the letters for when no
 * camera reads it.
 */
export const labelSizes: readonly LabelSize[] = [
  { name: "stake", wide: 90, high: 28, code: 24, word: m.labels_stake }, // beside the crown, its lower end pushed into a holder
  { name: "tag", wide: 60, high: 44, code: 29, word: m.labels_tag }, // tied to a branch; laminated, with room for a hole
  { name: "sign", wide: 90, high: 62, code: 42, word: m.labels_sign }, // read from the path, standing
];

/** ISO 216 and ANSI sizes. */
export const papers: readonly Paper[] = [
  { name: "a4", wide: 210, high: 297, word: m.labels_a4 },
  { name: "letter", wide: 215.9, high: 279.4, word: m.labels_letter },
];

/** Kept free on every side: desk printers leave 3 to 6.4 mm unprinted (from memory of their manuals); the rest is for the scissors. */
export const MARGIN_MM = 10;

/** Of light modules around a code, four on each side (ISO/IEC 18004). */
const QUIET = 4;

/** Where each label of one sheet stands, from its upper left corner, in millimetres. */
export function places(paper: Paper, size: LabelSize): readonly (readonly [left: number, top: number])[] {
  const [across, down] = [fits(paper.wide, size.wide), fits(paper.high, size.high)];
  return Array.from({ length: across * down }, (_, at) => [MARGIN_MM + (at % across) * size.wide, MARGIN_MM + Math.floor(at / across) * size.high]);
}

function fits(paper: number, label: number): number {
  return Math.max(1, Math.floor((paper - 2 * MARGIN_MM) / label));
}

/** The labels, sheet by sheet. */
export function sheets<T>(labels: readonly T[], each: number): readonly (readonly T[])[] {
  return Array.from({ length: Math.ceil(labels.length / each) }, (_, at) => labels.slice(at * each, (at + 1) * each));
}

export function addressOf(origin: string, planting: string): string {
  return origin + paths.planting(planting);
}

/** The dark modules of an address as one path of unit squares, and the side with its quiet zone. */
export function codeOf(address: string): Readonly<{ path: string; side: number }> {
  // Level M mends 15 %: a splash of mud or a scratch. Higher levels make the modules smaller, which costs more than it mends.
  const { data, size } = encode(address, { ecc: "M", boostEcc: false, border: QUIET });
  const dark = data.flatMap((row, y) => row.flatMap((on, x) => (on ? [`M${x} ${y}h1v1h-1z`] : [])));
  return { path: dark.join(""), side: size };
}
