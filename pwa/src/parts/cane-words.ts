import { m } from "../paraglide/messages.js";
import type { CanePoint } from "./cane";

/** "the cane's foot": what a point marks. */
export function canePointWord(point: CanePoint): string {
  const words = { caneFoot: m.cane_foot, caneTop: m.cane_top, plantFoot: m.plant_foot, plantTop: m.plant_top };
  return words[point]();
}
