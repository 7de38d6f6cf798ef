import type { Moment, Place } from "../../store/held";
import { instantHere } from "../../words/days";
import type { Facts } from "./facts";

/** A picture younger than this was taken just now, at the place where the phone is, milliseconds. */
const justNowMs = 10 * 60_000;

/**
 * When and where a picture was taken. One from the camera was taken now and here,
 * and the phone's place, which comes with an accuracy, is better than the
 * picture's own; one from the gallery speaks for itself, or by the age of its file.
 */
export function momentOf(facts: Facts, here: Place | null, fileMs: number, nowMs: number): Moment {
  const taken = facts.taken ?? instantHere(fileMs);
  const fresh = Math.abs(nowMs - Date.parse(taken)) <= justNowMs;
  return fresh ? { taken: instantHere(nowMs), place: here ?? facts.place } : { taken, place: facts.place };
}
