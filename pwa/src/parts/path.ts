// The short way on foot through some points: from each to the nearest that is left,
// then every stretch that crosses another is turned round until none does (2-opt:
// Croes, "A method for solving traveling-salesman problems", Operations Research 6,
// 1958). A way out, not a tour: its end is free, and so is its beginning when
// nobody says where the walker comes from.

export type Point = readonly [x: number, y: number];

/** Metres; less is not worth a turn, and no rounding makes the turning go on for ever. */
const GAIN_M = 0.01;

/** The order in which to visit the points, as their places in the list, beginning near `from`. */
export function shortWay(points: readonly Point[], from: Point | null): readonly number[] {
  const way = nearestFirst(points, from ?? westernmost(points));
  while (untangle(points, way, from));
  return way;
}

function nearestFirst(points: readonly Point[], from: Point | null): number[] {
  const left = [...points.keys()];
  const way: number[] = [];
  for (let here = from; left.length > 0; here = points[way.at(-1)!]!) {
    let best = 0;
    for (let i = 1; i < left.length; i++) if (apart(here, points[left[i]!]!) < apart(here, points[left[best]!]!)) best = i;
    way.push(...left.splice(best, 1));
  }
  return way;
}

/** Turns round every stretch that makes the way shorter; whether any did. */
function untangle(points: readonly Point[], way: number[], from: Point | null): boolean {
  const at = (place: number): Point | null => points[way[place] ?? -1] ?? null;
  let any = false;
  for (let i = 0; i < way.length - 1; i++) {
    const before = i > 0 ? at(i - 1) : from;
    for (let j = i + 1; j < way.length; j++) {
      const [first, last, after] = [at(i), at(j), at(j + 1)];
      if (apart(before, first) + apart(last, after) - apart(before, last) - apart(first, after) < GAIN_M) continue;
      turn(way, i, j);
      any = true;
    }
  }
  return any;
}

function turn(way: number[], i: number, j: number): void {
  for (; i < j; i++, j--) [way[i], way[j]] = [way[j]!, way[i]!];
}

function westernmost(points: readonly Point[]): Point | null {
  return points.reduce<Point | null>((west, point) => (west && west[0] <= point[0] ? west : point), null);
}

/** Metres, by the root: Math.hypot guards against numbers that no garden has, at ten times the cost. Nowhere is no distance off: a free end. */
function apart(a: Point | null, b: Point | null): number {
  return a && b ? Math.sqrt((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) : 0;
}
