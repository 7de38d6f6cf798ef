// Measuring by a cane in a photograph: the four points, in pixels of the picture.

import type { CaneQuestion } from "../almanac/cane";
import type { Point } from "../words/records";

export const canePoints = ["caneFoot", "caneTop", "plantFoot", "plantTop"] as const;
export type CanePoint = (typeof canePoints)[number];

/** Those that were placed. */
export type Placed = Readonly<Partial<Record<CanePoint, Point>>>;

/** A picture's own size, and how wide it is drawn: what one pixel of the screen is of it. */
export type Sheet = Readonly<{ width: number; height: number; drawnWidth: number }>;

/** How far a point is off that was tapped and then nudged under the glass, in pixels of the screen (a choice of ours: a line's width). */
const OFF_PX = 2;

/** One nudge, in pixels of the screen. */
const NUDGE_PX = 1;

/** Where a tap is in the picture. */
export function pointAt(tap: Readonly<{ clientX: number; clientY: number }>, box: DOMRect, { width, height }: Sheet): Point {
  const share = (at: number, from: number, size: number) => Math.min(1, Math.max(0, (at - from) / size));
  return [share(tap.clientX, box.left, box.width) * width, share(tap.clientY, box.top, box.height) * height];
}

/** Moves a point by a step; one that was not placed yet begins in the middle. */
export function nudged(point: Point | undefined, [right, down]: Point, sheet: Sheet): Point {
  const step = NUDGE_PX * scaleOf(sheet);
  const [x, y] = point ?? [sheet.width / 2, sheet.height / 2];
  const within = (at: number, most: number) => Math.min(most, Math.max(0, at));
  return [within(x + right * step, sheet.width), within(y + down * step, sheet.height)];
}

/** The point that is placed next after one, or the same where all are. */
export function nextPoint(after: CanePoint, placed: Placed): CanePoint {
  const at = canePoints.indexOf(after);
  const order = [...canePoints.slice(at + 1), ...canePoints.slice(0, at)];
  return order.find((point) => !placed[point]) ?? after;
}

/** What to ask the almanac, once all is there. */
export function caneQuestion(placed: Placed, caneCm: number | null, sheet: Sheet): CaneQuestion | null {
  const { caneFoot, caneTop, plantFoot, plantTop } = placed;
  if (!caneFoot || !caneTop || !plantFoot || !plantTop || caneCm === null) return null;
  return { caneCm, caneFoot, caneTop, plantFoot, plantTop, pixelError: OFF_PX * scaleOf(sheet) };
}

function scaleOf({ width, drawnWidth }: Sheet): number {
  return width / drawnWidth;
}

/** What the almanac takes for a cane, cm. */
const [SHORTEST_CM, LONGEST_CM] = [10, 1000];

export function isCane(cm: number): boolean {
  return Number.isFinite(cm) && cm >= SHORTEST_CM && cm <= LONGEST_CM;
}

const KEY = "haulm.caneCm";

/** The length of this phone's owner's cane, as last said. */
export function rememberedCane(): number | null {
  const cm = Number(localStorage.getItem(KEY) ?? Number.NaN);
  return isCane(cm) ? cm : null;
}

export function rememberCane(cm: number): void {
  localStorage.setItem(KEY, String(cm));
}
