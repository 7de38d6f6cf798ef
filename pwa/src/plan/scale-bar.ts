// The scale bar: a round length in the garden's units.

import { distance, type Units } from "../parts/measure";

const METRES_PER_FOOT = 0.3048; // exact, international foot (1959)

const rounds: Readonly<Record<Units, readonly number[]>> = {
  metric: [0.5, 1, 2, 5, 10, 20, 50, 100, 200],
  imperial: [1, 2, 5, 10, 20, 50, 100, 200, 500].map((feet) => feet * METRES_PER_FOOT),
};

export type ScaleBar = Readonly<{ pixels: number; words: string }>;

/** The longest round length that is at most so many pixels at a scale. */
export function scaleBar(scale: number, units: Units, most: number): ScaleBar {
  const lengths = rounds[units];
  const metres = lengths.filter((length) => length * scale <= most).at(-1) ?? lengths[0]!;
  return { pixels: metres * scale, words: distance(metres, units) };
}
