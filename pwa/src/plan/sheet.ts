/**
 * The plan as a drawing: what of a garden is placed, where it lies on the paper,
 * and how large. Metres in, pixels out; nothing here draws. Start with `Sheet`.
 */
import type { Bed, Kind, Planting, Point, Structure } from "../words/records";

export type Box = Readonly<{ left: number; top: number; right: number; bottom: number }>;

/** A stretch of the plan in metres, y towards the top. */
export type Ground = Readonly<{ west: number; south: number; east: number; north: number }>;

/** Something with an outline. */
type Outlined = Readonly<{ outline?: readonly Point[] }>;

const CORNERS = 3; // fewer make no outline

export function hasOutline<T extends Outlined>(one: T): one is T & { outline: readonly Point[] } {
  return (one.outline?.length ?? 0) >= CORNERS;
}

/** Puts metres of the plan on a paper of pixels: its whole ground at a scale. */
export class Sheet {
  readonly ground: Ground;
  /** Pixels to the metre. */
  readonly scale: number;

  constructor(ground: Ground, scale: number) {
    this.ground = ground;
    this.scale = scale;
  }

  get width(): number {
    return (this.ground.east - this.ground.west) * this.scale;
  }

  get height(): number {
    return (this.ground.north - this.ground.south) * this.scale;
  }

  at([x, y]: Point): readonly [x: number, y: number] {
    return [(x - this.ground.west) * this.scale, (this.ground.north - y) * this.scale];
  }

  /** The metres under a spot of the paper. */
  under(x: number, y: number): Point {
    return [this.ground.west + x / this.scale, this.ground.north - y / this.scale];
  }

  /** A closed line through points of the plan. */
  line(outline: readonly Point[]): string {
    return `M${outline.map((point) => this.at(point).map(tenth).join(" ")).join("L")}Z`;
  }

  box({ west, south, east, north }: Ground): Box {
    const [left, top] = this.at([west, north]);
    const [right, bottom] = this.at([east, south]);
    return { left, top, right, bottom };
  }
}

/** A tenth of a pixel is as fine as any screen draws. */
export function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}

export function groundOf(points: readonly Point[]): Ground {
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  return { west: Math.min(...xs), south: Math.min(...ys), east: Math.max(...xs), north: Math.max(...ys) };
}

export function widened({ west, south, east, north }: Ground, by: number): Ground {
  return { west: west - by, south: south - by, east: east + by, north: north + by };
}

export function within([x, y]: Point, { west, south, east, north }: Ground): boolean {
  return x >= west && x <= east && y >= south && y <= north;
}

/** Whether a point lies in an outline: it crosses the outline's sides an odd number of times on its way out (the even-odd rule). */
export function inside([x, y]: Point, outline: readonly Point[]): boolean {
  let odd = false;
  outline.forEach(([ax, ay], i) => {
    const [bx, by] = outline[(i + 1) % outline.length]!;
    if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) odd = !odd;
  });
  return odd;
}

/** Beyond the beds so much more is drawn, metres: a path's width and what stands beside it (a choice of ours). */
const AROUND_M = 2;

/** The ground that the drawing shows: beds and plantings with what lies close around; of structures alone, all. Null where nothing is placed. */
export function drawnGround(beds: readonly Bed[], structures: readonly Structure[], placed: readonly Placed[]): Ground | null {
  const leaves = placed.flatMap(({ middle: [x, y], nowM }): Point[] => [[x - nowM, y - nowM], [x + nowM, y + nowM]]);
  const tilled = [...beds.flatMap(({ outline = [] }) => outline), ...leaves];
  const shown = tilled.length > 0 ? tilled : structures.flatMap(({ outline = [] }) => outline);
  return shown.length > 0 ? widened(groundOf(shown), AROUND_M) : null;
}

/** A planting with a place: its middle, and the radius of the ground that it covers now and when grown, metres. */
export type Placed = Readonly<{ planting: Planting; kind: Kind | null; middle: Point; area: readonly Point[] | null; nowM: number; fullM: number }>;

/** Where a planting stands, or null where nobody has said. */
export function middleOf({ at, area }: Planting): Point | null {
  if (at) return at;
  if (!area || area.length < CORNERS) return null;
  const { west, south, east, north } = groundOf(area);
  return [(west + east) / 2, (south + north) / 2];
}
