// The first quarter of an hour in a new garden: four steps, each told from the
// records alone, so that it goes on wherever it was left, on any phone.

import { m } from "../paraglide/messages.js";
import { paths } from "../routes/paths";
import type { Book, Haulm } from "../state/contract";

export type FirstStep = Readonly<{
  done: boolean;
  title: string;
  words: string;
  /** What its button says, and where it leads. */
  act: string;
  path: string;
}>;

/** As many as show what a round is; a choice of ours. */
const FEW = 3;
/** A garden of this many plantings was begun long ago, on another phone or before there were steps; a choice of ours. */
const BEGUN = 10;

type Read = Pick<Book, "garden" | "beds" | "plantings" | "lastLook">;

export function firstSteps(book: Read): readonly FirstStep[] {
  const planted = book.plantings.length;
  const looked = book.plantings.filter(({ id }) => book.lastLook(id) !== null).length;
  const sofar = (count: number) => ({ some: Math.min(count, FEW), all: FEW });
  return [
    { done: book.garden?.lat !== undefined, title: m.first_garden(), words: m.first_garden_words(), act: m.first_garden_do(), path: paths.garden },
    { done: book.beds.some(({ outline }) => outline), title: m.first_bed(), words: m.first_bed_words(), act: m.first_bed_do(), path: `${paths.garden}#beds` },
    { done: planted >= FEW, title: m.first_plantings(), words: m.first_plantings_words(sofar(planted)), act: m.first_plantings_do(), path: paths.plants },
    { done: looked >= FEW, title: m.first_round(), words: m.first_round_words(sofar(looked)), act: m.first_round_do(), path: paths.round },
  ];
}

/** The steps, while there is anything to lead to: for a garden's keeper, once the garden is on this phone; else null. */
export function stepsLeft({ book, sending, session }: Pick<Haulm, "sending" | "session"> & Readonly<{ book: Read & Pick<Book, "complete"> }>): readonly FirstStep[] | null {
  if (session.role !== "keeper" || !book.complete || sending.cursor === "" || book.plantings.length >= BEGUN) return null;
  const steps = firstSteps(book);
  return steps.every(({ done }) => done) ? null : steps;
}
