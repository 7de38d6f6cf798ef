/** The verb `height-from-photo`, as almanac/materials reads and writes it. */
import type { Point } from "../words/records";

/** Points are in pixels of one picture. */
export type CaneQuestion = Readonly<{
  caneCm: number;
  caneTop: Point;
  caneFoot: Point;
  plantTop: Point;
  plantFoot: Point;
  /** How far each point may be off, in pixels. */
  pixelError: number;
}>;

export type CaneAnswer = Readonly<{ heightCm: number; errorCm: number; assumed: readonly string[] }>;
