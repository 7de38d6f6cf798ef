import { suffixOf } from "../words/clock";
import type { ISOInstant } from "../words/ids";
import type { Observation } from "../words/records";
import type { Shelf } from "./shelf.svelte";

/** How long a visit to one planting lasts, milliseconds: entries within it are one observation. */
export const visitMs = 30 * 60_000;

/** This phone's observation of a planting that an entry at `seen` still belongs to, or null. */
export function openVisit(shelf: Shelf, planting: string, seen: ISOInstant, suffix: string): Observation | null {
  const now = Date.parse(seen);
  const isOpen = (observation: Observation) => {
    const age = now - Date.parse(observation.seen ?? "");
    const stamp = shelf.shown(observation.ref)?.at["seen"] ?? "";
    return age >= 0 && age <= visitMs && suffixOf(stamp) === suffix;
  };
  return shelf.observations(planting).find(isOpen) ?? null;
}
