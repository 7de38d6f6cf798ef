import { describe, expect, it } from "vitest";
import { shortWay, type Point } from "./path";

/** Numbers between 0 and 1 that are the same in every run (Park and Miller, "Random number generators", 1988). */
function numbers(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 16807) % 2147483647) / 2147483647;
}

/** How long a way is, from where the walker comes from to its last point. */
function lengthOf(points: readonly Point[], way: readonly number[], from: Point | null): number {
  return way.reduce((sum, at, i) => {
    const [before, here] = [i > 0 ? points[way[i - 1]!]! : from, points[at]!];
    return sum + (before ? Math.hypot(here[0] - before[0], here[1] - before[1]) : 0);
  }, 0);
}

function bedOf(count: number, seed: number): Point[] {
  const next = numbers(seed);
  return Array.from({ length: count }, () => [next() * 8, next() * 2]);
}

function* orders(left: readonly number[]): Generator<readonly number[]> {
  if (left.length === 0) yield [];
  for (const first of left) for (const rest of orders(left.filter((one) => one !== first))) yield [first, ...rest];
}

/** The shortest of all orders. */
function shortest(points: readonly Point[], from: Point | null): number {
  return Math.min(...[...orders([...points.keys()])].map((way) => lengthOf(points, way, from)));
}

const beds = Array.from({ length: 40 }, (_, i) => bedOf(7, i + 1));

describe.each([["from where the last bed ended", [-1, 0] as Point], ["from anywhere", null]])("a way %s", (_, from) => {
  const ratios = beds.map((bed) => lengthOf(bed, shortWay(bed, from), from) / shortest(bed, from));

  it("visits every point once", () => {
    for (const bed of beds) expect([...shortWay(bed, from)].sort()).toEqual([...bed.keys()]);
  });
  it("is the shortest or a little longer, in small beds", () => {
    expect(Math.max(...ratios)).toBeLessThan(1.35);
    expect(ratios.reduce((sum, ratio) => sum + ratio, 0) / ratios.length).toBeLessThan(1.05);
  });
  it("is the shortest in most of them", () => expect(ratios.filter((ratio) => ratio < 1 + 1e-9).length).toBeGreaterThan(beds.length / 2));
  it("can be turned round nowhere to be shorter, in a large bed", () => {
    const bed = bedOf(60, 5);
    const way = shortWay(bed, from);
    const whole = lengthOf(bed, way, from);
    for (let i = 0; i < way.length; i++) {
      for (let j = i + 1; j < way.length; j++) {
        const turned = [...way.slice(0, i), ...way.slice(i, j + 1).reverse(), ...way.slice(j + 1)];
        expect(lengthOf(bed, turned, from)).toBeGreaterThan(whole - 0.011);
      }
    }
  });
});

it("is no way at all through nothing, and ends with several plants in one spot", () => {
  expect(shortWay([], null)).toEqual([]);
  expect(shortWay([[1, 1], [1, 1], [1, 1]], [0, 0])).toHaveLength(3);
});
it("begins in the west where nobody says from where", () => expect(shortWay([[5, 0], [1, 0], [3, 0]], null)).toEqual([1, 2, 0]));
