// What of the plan a finger or a key takes.

import type { Bed, Point } from "../words/records";
import { groundOf, inside, type Placed, type Sheet } from "./sheet";

export type Choice = Readonly<{ what: "planting" | "bed"; id: string }>;

/** Something on the paper that can be chosen: its middle and its radius in pixels, and a bed's outline. */
export type Spot = Choice & Readonly<{ x: number; y: number; radius: number; outline: readonly Point[] | null }>;

export function sameChoice(one: Choice, other: Choice | null): boolean {
  return one.what === other?.what && one.id === other.id;
}

/** Beds by the upper left corner, where their names stand; plantings by their middle. */
export function spotsOf(beds: readonly (Bed & { outline: readonly Point[] })[], placed: readonly Placed[], sheet: Sheet): readonly Spot[] {
  const bedSpots = beds.map(({ id, outline }): Spot => {
    const { left, top } = sheet.box(groundOf(outline));
    return { what: "bed", id, x: left, y: top, radius: 0, outline: outline.map((point) => sheet.at(point)) };
  });
  const plants = placed.map(({ planting: { id }, middle, nowM }): Spot => {
    const [x, y] = sheet.at(middle);
    return { what: "planting", id, x, y, radius: nowM * sheet.scale, outline: null };
  });
  return [...bedSpots, ...plants];
}

/** Half of the least target for a thumb. */
const FINGER_PX = 28;

/** The planting nearest to a tap that a finger there could mean, else the bed under it; null on bare paper. */
export function nearest(spots: readonly Spot[], x: number, y: number): Choice | null {
  const reach = ({ x: sx, y: sy, radius }: Spot): number => Math.hypot(sx - x, sy - y) - Math.min(radius, FINGER_PX) / 2;
  const near = spots.filter((spot) => spot.what === "planting" && Math.hypot(spot.x - x, spot.y - y) <= Math.max(FINGER_PX, spot.radius));
  const hit = least(near, reach) ?? spots.find((spot) => spot.outline && inside([x, y], spot.outline));
  return hit ? { what: hit.what, id: hit.id } : null;
}

type Way = readonly [x: number, y: number];

const ways: Readonly<Record<string, Way>> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

/** What lies next in the direction of an arrow key, or first or last by Home and End; null for other keys and at the edge. */
export function thatWay(spots: readonly Spot[], from: Choice, key: string): Choice | null {
  if (key === "Home") return spots[0] ?? null;
  if (key === "End") return spots.at(-1) ?? null;
  const [way, start] = [ways[key], spots.find((spot) => sameChoice(spot, from))];
  if (!way || !start) return null;
  const ahead = ({ x, y }: Spot): number => (x - start.x) * way[0] + (y - start.y) * way[1];
  const aside = ({ x, y }: Spot): number => Math.abs((x - start.x) * way[1]) + Math.abs((y - start.y) * way[0]);
  // Within 60° of the way, what is straight ahead before what lies aside (a choice of ours).
  const there = spots.filter((spot) => ahead(spot) > 0.5 && aside(spot) <= ahead(spot) * 1.73);
  return least(there, (spot) => ahead(spot) + 2 * aside(spot));
}

function least<T>(all: readonly T[], of: (one: T) => number): T | null {
  return all.reduce<T | null>((best, one) => (best === null || of(one) < of(best) ? one : best), null);
}
