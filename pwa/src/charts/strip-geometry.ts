// Where the pieces of a bloom strip lie, apart from any drawing. Days of the
// year in, fractions 0 to 1 of the strip's axis out.

import type { DaySpan, Strip } from "../almanac/answers";

export type Piece = Readonly<{ from: number; to: number }>;

export type StripGeometry = Readonly<{
  /** When it should be in flower: median opening to median close. */
  expected: Piece | null;
  /** When it should open: tenth to ninetieth percentile. */
  opens: Piece | null;
  certain: Piece | null;
  possible: readonly Piece[];
  looks: readonly number[];
  now: number | null;
}>;

/** Places a strip on the days `axis`; `now` is today's day of the strip's year, or null. */
export function placeStrip(strip: Strip, axis: DaySpan, now: number | null): StripGeometry {
  const at = (day: number): number => (day - axis[0]) / (axis[1] - axis[0]);
  const piece = (span: DaySpan | null): Piece | null => (span ? clipped(at(span[0]), at(span[1])) : null);
  return {
    expected: piece(strip.expected),
    opens: piece(strip.openBand),
    certain: piece(strip.certain),
    possible: aroundCertain(piece(strip.possible), piece(strip.certain)),
    looks: strip.looks.map(at).filter(inside),
    now: now !== null && inside(at(now)) ? at(now) : null,
  };
}

/** The whole year, or more of it where flower or its window runs over New Year. */
export function yearAxis(strips: readonly Strip[]): DaySpan {
  const days = strips.flatMap(({ expected, possible, certain }) => [expected, possible, certain].flatMap((span) => span ?? []));
  return [Math.min(1, ...days), Math.max(366, ...days)];
}

const MARGIN_DAYS = 30;

/** Just the weeks that a small strip is about: the window, what was seen of it and today. */
export function closeAxis(strip: Strip, now: number | null): DaySpan {
  const near = [strip.openBand, strip.expected, strip.certain, strip.possible].flatMap((span) => span ?? []);
  const days = near.length ? near : [now ?? 183];
  const from = Math.min(...days) - MARGIN_DAYS;
  const to = Math.max(...days) + MARGIN_DAYS / 2;
  return now === null ? [from, to] : [Math.min(from, now - MARGIN_DAYS), Math.max(to, now + MARGIN_DAYS / 3)];
}

function clipped(from: number, to: number): Piece | null {
  if (to < 0 || from > 1 || to < from) return null;
  return { from: Math.max(0, from), to: Math.min(1, to) };
}

/** Possible flower is drawn only where flower is not certain. */
function aroundCertain(possible: Piece | null, certain: Piece | null): readonly Piece[] {
  if (!possible) return [];
  if (!certain) return [possible];
  const sides = [{ from: possible.from, to: certain.from }, { from: certain.to, to: possible.to }];
  return sides.filter(({ from, to }) => to > from);
}

function inside(fraction: number): boolean {
  return fraction >= 0 && fraction <= 1;
}
