// What a round looks like: bed by bed what is worth a look, and the rest; and
// where one that was left is picked up.

import type { Bed } from "../words/records";
import type { RoundKept } from "../state/contract";
import { byBed, nextStop, type Stop } from "./walk";

/** `asked`: worth a look, or it was when the round began. `rest`: more to note for who wants to. */
export type BedOnRound = Readonly<{ bed: Bed | null; asked: readonly Stop[]; rest: readonly Stop[] }>;

export function bedsOnRound(stops: readonly Stop[], asked: ReadonlySet<string>): readonly BedOnRound[] {
  return byBed(stops).map(({ bed, stops: inBed }) => ({
    bed,
    asked: inBed.filter(({ planting }) => asked.has(planting.id)),
    rest: inBed.filter(({ planting }) => !asked.has(planting.id)),
  }));
}

/** Where to go on: at the stop where the round was left, unless it is done; else at the next that is wanted, from the beginning again at the end. */
export function goOnAt(stops: readonly Stop[], round: RoundKept, wanted: (stop: Stop) => boolean): Stop | null {
  const left = stops.find(({ planting }) => planting.id === round.at);
  return left && wanted(left) ? left : (nextStop(stops, round.at, wanted) ?? stops.find(wanted) ?? null);
}
