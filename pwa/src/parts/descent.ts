// Where a planting came from and what came of it, one step a line, oldest first.

import { m } from "../paraglide/messages.js";
import type { Book } from "../state/contract";
import type { Planting } from "../words/records";

type Shelf = Pick<Book, "planting" | "cameOf" | "bed">;

export type Step = Readonly<{ planting: Planting; words: string; here: boolean }>;

const MOST_BEFORE = 50; // no plant is moved as often; two plantings said to come of each other end there

/** What it was before, one behind the other, oldest first. */
export function before(book: Pick<Book, "planting">, planting: Planting): readonly Planting[] {
  const line: Planting[] = [];
  let earlier = book.planting(planting.from?.planting);
  while (earlier && line.length < MOST_BEFORE && earlier.id !== planting.id) {
    line.unshift(earlier);
    earlier = book.planting(earlier.from?.planting);
  }
  return line;
}

/** Its line: how each came to stand where it stands, itself among them, and what came of it. */
export function lineOf(book: Shelf, planting: Planting): readonly Step[] {
  const line = [...before(book, planting), planting, ...book.cameOf(planting.id)];
  return line.length === 1 ? [] : line.map((one) => ({ planting: one, words: howWords(book, one), here: one.id === planting.id }));
}

function howWords(book: Pick<Book, "bed">, { from, bed: id, count = 1 }: Planting): string {
  const bed = book.bed(id)?.name ?? m.no_bed();
  const words: Readonly<Record<string, () => string>> = {
    moved: () => m.descent_moved({ bed }), lifted: () => m.descent_moved({ bed }), divided: () => m.descent_divided({ count, bed }),
    cutting: () => m.descent_cutting({ bed }), seed: () => m.descent_seed({ bed }),
  };
  return (words[from?.how ?? ""] ?? (() => m.descent_first({ bed })))();
}

/** The same plant in its earlier places: back to where it was planted, divided off, sown or struck. */
export function samePlant(book: Pick<Book, "planting">, planting: Planting): readonly Planting[] {
  const newestFirst = [...before(book, planting), planting].reverse();
  const began = newestFirst.findIndex(({ from }) => from?.how !== "moved" && from?.how !== "lifted");
  return newestFirst.slice(0, began < 0 ? undefined : began + 1).reverse();
}
