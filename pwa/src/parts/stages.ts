// The five plain words for how far a flower is, and the growth stage that each
// one stands for on the BBCH scale: principal stage 5 inflorescence emergence,
// 6 flowering (61 a tenth open, 65 half open, 67 fading, 69 over), 7 and 8 fruit.
// Meier, U. (ed.), Growth stages of mono- and dicotyledonous plants, BBCH
// Monograph, 2nd edition, 2001.

import { m } from "../paraglide/messages.js";
import type { MarkName } from "../marks/drawings";

export type Stage = "bud" | "first" | "full" | "over" | "seed";

type Row = Readonly<{ stage: Stage; bbch: number; below: number; mark: MarkName }>;

/** In the order that a flower goes through them; `below` is the first BBCH stage that is no longer it. */
export const stages: readonly Row[] = [
  { stage: "bud", bbch: 55, below: 60, mark: "bud" },
  { stage: "first", bbch: 61, below: 63, mark: "first" },
  { stage: "full", bbch: 65, below: 67, mark: "full" },
  { stage: "over", bbch: 67, below: 70, mark: "over" },
  { stage: "seed", bbch: 79, below: 100, mark: "seed" },
];

const FIRST_BUD = 50;

/** The word of a BBCH stage, or null for one before any bud shows. */
export function stageOf(bbch: number | undefined): Stage | null {
  if (bbch === undefined || bbch < FIRST_BUD) return null;
  return stages.find(({ below }) => bbch < below)?.stage ?? null;
}

/** A stage as something seen: "in bud". */
export function stageSeen(stage: Stage): string {
  const words: Record<Stage, () => string> = {
    bud: m.entry_bud, first: m.entry_first, full: m.entry_full, over: m.entry_over, seed: m.entry_seed,
  };
  return words[stage]();
}

/** A stage as a choice: "bud". */
export function stageWord(stage: Stage): string {
  const words: Record<Stage, () => string> = {
    bud: m.stage_bud, first: m.stage_first, full: m.stage_full, over: m.stage_over, seed: m.stage_seed,
  };
  return words[stage]();
}
