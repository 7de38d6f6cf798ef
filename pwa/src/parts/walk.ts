// The order of a round: beds as they are walked, plantings bed by bed.

import type { Bed, Planting } from "../words/records";

export type Stop = Readonly<{ planting: Planting; bed: Bed | null; place: number; inBed: number }>;

/** All stops in walking order, each with its place in its bed, 1 being the first. */
export function stopsOf(plantings: readonly Planting[], bed: (id: string | undefined) => Bed | null): readonly Stop[] {
  const sizes = new Map<string, number>();
  for (const { bed: id = "" } of plantings) sizes.set(id, (sizes.get(id) ?? 0) + 1);
  const seen = new Map<string, number>();
  return plantings.map((planting) => {
    const id = planting.bed ?? "";
    const place = (seen.get(id) ?? 0) + 1;
    seen.set(id, place);
    return { planting, bed: bed(planting.bed), place, inBed: sizes.get(id)! };
  });
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
