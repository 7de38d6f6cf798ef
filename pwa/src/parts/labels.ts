// Labels to print: their sizes, how many stand on a sheet, and the code that opens a planting.

import { encode } from "uqr";
import { m } from "../paraglide/messages.js";
import { paths } from "../routes/paths";
import type { ISODay } from "../words/ids";
import type { Planting } from "../words/records";
import { number } from "./measure";

/** Millimetres, as printed at 100 %. */
export type LabelSize = Readonly<{ name: "stake" | "tag" | "sign"; wide: number; high: number; code: number; type: number; word: (measures: { size: string }) => string }>;
export type Paper = Readonly<{ name: "a4" | "letter"; wide: number; high: number; word: () => string }>;

/**
 * Choices of ours. `code` is the side of the code with its quiet zone: an address of
 * a server in a garden takes 37 to 45 modules and 8 of quiet, so that each module
 * is about 0.5 mm, six dots of a 300 dpi printer; under it stand the letters for when no
 * camera reads it.
 */
export const labelSizes: readonly LabelSize[] = [
  { name: "stake", wide: 90, high: 28, code: 24, type: 3.7, word: m.labels_stake }, // beside the crown, its lower end pushed into a holder
  { name: "tag", wide: 60, high: 44, code: 29, type: 3.7, word: m.labels_tag }, // tied to a branch; laminated, with room for a hole
  { name: "sign", wide: 90, high: 62, code: 42, type: 5.2, word: m.labels_sign }, // read from the path, standing
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

/** "90 × 28 mm"; in inches on a paper that is measured in them. */
export function measuresOf({ wide, high }: LabelSize, paper: Paper): string {
  if (paper.name === "a4") return m.labels_mm({ wide: number(wide), high: number(high) });
  return m.labels_in({ wide: number(wide / MM_PER_INCH, 1), high: number(high / MM_PER_INCH, 1) });
}

const MM_PER_INCH = 25.4; // exact, international inch (1959)

/** Whether an address opens on this machine alone: a label with it is read by no phone. */
export function isHere(hostname: string): boolean {
  return /^(localhost|.*\.localhost|127(\.\d+){3}|\[::1\]|0\.0\.0\.0)$/u.test(hostname);
}

/** What a label says beside its code, in the order of what is left out last. */
export type Said = Readonly<{ name: string; others: readonly string[] }>;

/** Its type in millimetres, and how many of the other lines there is room for. `breaks`: a word is wider than the label and is broken. */
export type Fitted = Readonly<{ type: number; others: number; breaks: boolean }>;

const GAP_MM = 1.5; // to the code and to the cut
const LEAST_MM = 2.3; // 6.5 points, the smallest that is read at arm's length (common practice of printers)
const STEP_MM = 0.2;
const SMALLER = 0.78; // the other lines, beside the name
const LINE = 1.2; // height of a line by its type

/** The largest type at which all of it stands on the label, lines broken between words; the lesser lines give way before the name is smaller than can be read. */
export function fit({ name, others }: Said, size: LabelSize, widthOf: (text: string, type: number) => number): Fitted {
  const [wide, high] = [size.wide - size.code - 2 * GAP_MM, size.high - 2 * GAP_MM];
  const linesOf = (text: string, type: number): number => wrapped(text, type, wide, widthOf);
  for (let kept = others.length; kept >= 0; kept--) {
    for (let type = size.type; type >= LEAST_MM; type -= STEP_MM) {
      const small = type * SMALLER;
      const rows = linesOf(name, type) * type + others.slice(0, kept).reduce((sum, other) => sum + linesOf(other, small) * small, 0);
      if (rows * LINE <= high) return { type, others: kept, breaks: false };
    }
  }
  return { type: LEAST_MM, others: 0, breaks: true };
}

/** In how many lines a text stands; never where one of its words is wider than the line. */
function wrapped(text: string, type: number, wide: number, widthOf: (text: string, type: number) => number): number {
  let [lines, line] = [1, ""];
  for (const word of text.split(" ")) {
    if (widthOf(word, type) > wide) return Number.POSITIVE_INFINITY;
    const longer = line ? `${line} ${word}` : word;
    if (widthOf(longer, type) <= wide) line = longer;
    else [lines, line] = [lines + 1, word];
  }
  return lines;
}

/** Which plantings are to have labels: all, those without one, those of this year, or a bed's by its id. */
export type Which = "all" | "unlabelled" | "year" | (string & Readonly<Record<never, never>>);

export function chosen(plantings: readonly Planting[], which: Which, today: ISODay): readonly Planting[] {
  if (which === "all") return plantings;
  if (which === "unlabelled") return plantings.filter(({ labelled }) => !labelled);
  if (which === "year") return plantings.filter(({ planted }) => planted?.startsWith(today.slice(0, "YYYY".length)));
  return plantings.filter(({ bed }) => bed === which);
}

/** The dark modules of an address as one path of unit squares, and the side with its quiet zone. */
export function codeOf(address: string): Readonly<{ path: string; side: number }> {
  // Level M mends 15 %: a splash of mud or a scratch. Higher levels make the modules smaller, which costs more than it mends.
  const { data, size } = encode(address, { ecc: "M", boostEcc: false, border: QUIET });
  const dark = data.flatMap((row, y) => row.flatMap((on, x) => (on ? [`M${x} ${y}h1v1h-1z`] : [])));
  return { path: dark.join(""), side: size };
}
