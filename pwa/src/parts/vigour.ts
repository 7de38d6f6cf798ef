import { m } from "../paraglide/messages.js";

/** 1 failing to 5 strong. */
export const vigours = [1, 2, 3, 4, 5] as const;

/** The word of a vigour, or "" for none. */
export function vigourWord(vigour: number | undefined): string {
  const words = [m.vigour_1, m.vigour_2, m.vigour_3, m.vigour_4, m.vigour_5];
  return words[(vigour ?? 0) - 1]?.() ?? "";
}
