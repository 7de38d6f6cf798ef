// Which two pictures of a plant show best how it has changed.

import type { Photo } from "../state/contract";
import { dayOf, dayOfYear, daysBetween } from "./dates";

const SAME_TIME_DAYS = 21; // three weeks either way a border looks much the same (a choice of ours)
const YEAR_DAYS = 365.25;

/** Days of the year between two days, whatever the year; 182 at most. */
function seasonsApart(one: string, other: string): number {
  const apart = Math.abs(dayOfYear(dayOf(one)) - dayOfYear(dayOf(other)));
  return Math.min(apart, YEAR_DAYS - apart);
}

/**
 * The two, of pictures oldest first: those furthest apart in years at the same
 * time of the year; the newest, where several are as far; the first and the last
 * where no two are of the same time. Null where all are of one day.
 */
export function pairOf(oldestFirst: readonly Photo[]): readonly [Photo, Photo] | null {
  const [first, last] = [oldestFirst[0], oldestFirst.at(-1)];
  if (!first || !last || dayOf(first.seen) === dayOf(last.seen)) return null;
  let best: readonly [Photo, Photo] = [first, last];
  let most = 0;
  for (const one of oldestFirst)
    for (const other of oldestFirst) {
      const years = Math.round(daysBetween(dayOf(one.seen), dayOf(other.seen)) / YEAR_DAYS);
      if (years < 1 || years < most || seasonsApart(one.seen, other.seen) > SAME_TIME_DAYS) continue;
      [best, most] = [[one, other], years];
    }
  return best;
}

/** The pair with another picture in it: before the left one it takes its place, after the right one that one's, between them that of the nearer. */
export function pairWith([left, right]: readonly [Photo, Photo], photo: Photo): readonly [Photo, Photo] {
  const [a, b, at] = [left.seen, right.seen, photo.seen].map((seen) => Date.parse(seen)) as [number, number, number];
  return Math.abs(at - a) < Math.abs(at - b) ? [photo, right] : [left, photo];
}
