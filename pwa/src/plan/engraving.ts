// How each habit is engraved: the pen's line around a planting, by its habit, at
// a radius in pixels. The hand's small unevenness comes from the planting's id, so
// that a plant looks the same each time.

import type { Kind } from "../words/records";
import { tenth } from "./sheet";

export type Engraved = Readonly<{
  /** The closed line around it. */
  edge: string;
  /** Strokes within: branches, blades, the spiral of a climber. */
  strokes: string;
  /** Where each plant of it stands, as dots. */
  dots: readonly (readonly [x: number, y: number])[];
}>;

type Habit = NonNullable<Kind["habit"]>;

/** Length of one lobe of the edge, pixels, and how far it stands out, as a share of that; leaves of a tree are larger than a tuft's. */
const lobes: Readonly<Record<Habit, Readonly<{ long: number; out: number; points: boolean }>>> = {
  tree: { long: 13, out: 0.34, points: false }, shrub: { long: 9, out: 0.36, points: false }, climber: { long: 5, out: 0.3, points: false },
  perennial: { long: 6.5, out: 0.3, points: false }, annual: { long: 6.5, out: 0.2, points: false }, biennial: { long: 6.5, out: 0.2, points: false },
  bulb: { long: 6, out: 0, points: false }, grass: { long: 5, out: 0.8, points: true }, fern: { long: 7, out: 0.45, points: true },
};

const LEAST_LOBES = 6;
const MOST_DOTS = 60; // more are a texture and no count; the name tells the number
const UNEVEN = 0.1; // of the radius, either way
/** The golden angle: one dot after the other at this turn spreads them evenly over a disc (Vogel 1979, Mathematical Biosciences 44). */
const GOLDEN = Math.PI * (3 - Math.sqrt(5));

export function engrave(habit: Habit | undefined, id: string, radius: number, count: number): Engraved {
  const { long, out, points } = lobes[habit ?? "perennial"];
  const hand = handOf(id);
  const number = Math.max(LEAST_LOBES, Math.round((2 * Math.PI * radius) / long));
  const corners = Array.from({ length: number }, (_, i) => around(radius * (1 + UNEVEN * (hand() - 0.5)), (i / number) * 2 * Math.PI));
  const edge = points ? pointed(corners, radius, (out * long) / 2, number) : lobed(corners, out, radius);
  return { edge, strokes: strokesOf(habit, radius, hand), dots: dotsOf(radius, count, habit) };
}

/** A sequence of numbers from 0 to 1 that a text decides (multiply-with-carry on a hash of it; any would do). */
function handOf(id: string): () => number {
  let state = [...id].reduce((sum, letter) => (Math.imul(sum, 31) + letter.charCodeAt(0)) >>> 0, 7);
  return () => (state = (Math.imul(state, 1664525) + 1013904223) >>> 0) / 2 ** 32; // Numerical Recipes' generator
}

function around(radius: number, angle: number): readonly [number, number] {
  return [radius * Math.cos(angle), radius * Math.sin(angle)];
}

const pair = ([x, y]: readonly [number, number]): string => `${tenth(x)} ${tenth(y)}`;

/** Lobes bulge from corner to corner; none at all is a round line. */
function lobed(corners: readonly (readonly [number, number])[], out: number, radius: number): string {
  const side = (2 * Math.PI * radius) / corners.length;
  const bulge = out === 0 ? radius : side * (0.5 + (0.5 - out) * 0.8);
  const arcs = corners.map((_, i) => `A${tenth(bulge)} ${tenth(bulge)} 0 0 1 ${pair(corners[(i + 1) % corners.length]!)}`);
  return `M${pair(corners[0]!)}${arcs.join("")}Z`;
}

/** Points of blades and fronds stand out between the corners. */
function pointed(corners: readonly (readonly [number, number])[], radius: number, out: number, number: number): string {
  const turns = corners.map((corner, i) => `${pair(scaled(corner, 1 - out / Math.max(radius, 1)))}L${pair(around(radius + out, ((i + 0.5) / number) * 2 * Math.PI))}`);
  return `M${turns.join("L")}Z`;
}

function scaled([x, y]: readonly [number, number], by: number): readonly [number, number] {
  return [x * Math.max(by, 0.3), y * Math.max(by, 0.3)];
}

const BRANCHES = { tree: 9, shrub: 6, fern: 7, grass: 9 } as const;

/** Branches from the stem outward, blades of a tuft, or the turn of a climber. */
function strokesOf(habit: Habit | undefined, radius: number, hand: () => number): string {
  if (habit === "climber") return `M0 0a${tenth(radius * 0.3)} ${tenth(radius * 0.3)} 0 0 1 ${tenth(radius * 0.5)} 0a${tenth(radius * 0.6)} ${tenth(radius * 0.6)} 0 0 1 ${tenth(-radius * 1.1)} 0`;
  const number = BRANCHES[habit as keyof typeof BRANCHES] ?? 0;
  const first = hand();
  return Array.from({ length: number }, (_, i) => branch(radius, ((i + first) / number) * 2 * Math.PI, 0.45 + 0.3 * hand())).join("");
}

function branch(radius: number, angle: number, reach: number): string {
  return `M${pair(around(radius * 0.12, angle))}L${pair(around(radius * reach, angle))}`;
}

/** The plants of a group, spread over its ground; one plant has its stem drawn already. */
function dotsOf(radius: number, count: number, habit: Habit | undefined): readonly (readonly [number, number])[] {
  const number = Math.min(MOST_DOTS, count);
  if (number < 2 && habit !== "bulb") return habit === "tree" || habit === "shrub" || habit === "climber" ? [] : [[0, 0]];
  return Array.from({ length: number }, (_, i) => around(radius * 0.82 * Math.sqrt((i + 0.5) / number), i * GOLDEN));
}
