// The order of a round: beds as they are walked, and within a bed the short way
// from where the last one ended.

import type { Bed, Planting } from "../words/records";
import { shortWay, type Point } from "./path";

export type Stop = Readonly<{ planting: Planting; bed: Bed | null; place: number; inBed: number }>;

/** All stops of plantings given bed by bed, in walking order, each with its place in its bed, 1 being the first. */
export function stopsOf(plantings: readonly Planting[], bed: (id: string | undefined) => Bed | null): readonly Stop[] {
  return walked(plantings).flatMap((inBed) =>
    inBed.map((planting, i) => ({ planting, bed: bed(planting.bed), place: i + 1, inBed: inBed.length })));
}

const ways = new WeakMap<readonly Planting[], readonly (readonly Planting[])[]>();

/** The same plantings in the order in which they are walked, bed by bed; found once for a list. */
function walked(plantings: readonly Planting[]): readonly (readonly Planting[])[] {
  const known = ways.get(plantings);
  if (known) return known;
  let here: Point | null = null;
  const way = inBeds(plantings).map((inBed) => {
    const placed = inBed.filter((planting) => spotOf(planting));
    const spots = placed.map((planting) => spotOf(planting)!);
    const order = shortWay(spots, here);
    here = spots[order.at(-1) ?? -1] ?? here;
    // Those that stand nowhere on the plan come last, as they were given.
    return [...order.map((at) => placed[at]!), ...inBed.filter((planting) => !spotOf(planting))];
  });
  ways.set(plantings, way);
  return way;
}

function inBeds(plantings: readonly Planting[]): readonly (readonly Planting[])[] {
  const beds = new Map<string, Planting[]>();
  for (const planting of plantings) {
    if (planting.stored) continue; // lifted, it stands nowhere until it is planted again
    const bed = beds.get(planting.bed ?? "");
    if (bed) bed.push(planting);
    else beds.set(planting.bed ?? "", [planting]);
  }
  return [...beds.values()];
}

/** Where one stands before a planting: at its point, or the middle of its area's corners. */
function spotOf({ at, area }: Planting): Point | null {
  if (at) return at;
  if (!area || area.length === 0) return null;
  const middle = (axis: 0 | 1): number => area.reduce((sum, corner) => sum + corner[axis], 0) / area.length;
  return [middle(0), middle(1)];
}

/** The stop after a planting that `wanted` lets through, or null at the end. A planting that is not on the walk begins it. */
export function nextStop(stops: readonly Stop[], planting: string, wanted: (stop: Stop) => boolean): Stop | null {
  const at = stops.findIndex((stop) => stop.planting.id === planting);
  return stops.slice(at + 1).find(wanted) ?? null;
}

/** Stops under their beds, in walking order. */
export function byBed(stops: readonly Stop[]): readonly Readonly<{ bed: Bed | null; stops: readonly Stop[] }>[] {
  const groups = new Map<string, Stop[]>();
  for (const stop of stops) {
    const id = stop.planting.bed ?? "";
    groups.set(id, [...(groups.get(id) ?? []), stop]);
  }
  return [...groups.values()].map((group) => ({ bed: group[0]!.bed, stops: group }));
}
