// What earlier looks at a planting say that a form begins from.

import type { ISODay } from "../words/ids";
import type { Kind, Observation } from "../words/records";
import { dayOf, daysBetween } from "./dates";

/** The last height before the look `except`, of observations newest first. */
export function heightBefore(newestFirst: readonly Observation[], except: string | undefined): Readonly<{ cm: number; day: ISODay }> | null {
  const measured = newestFirst.find(({ id, heightCm, seen }) => id !== except && heightCm !== undefined && seen !== undefined);
  return measured ? { cm: measured.heightCm!, day: dayOf(measured.seen!) } : null;
}

/** Whether any look of this year but `except` saw the plant above the ground. */
export function upThisYear(newestFirst: readonly Observation[], today: ISODay, except: string | undefined): boolean {
  const year = today.slice(0, 4);
  return newestFirst.some(({ id, seen, up, stage, heightCm }) =>
    id !== except && seen?.startsWith(year) === true && (up === "up" || up === "in-leaf" || stage !== undefined || (heightCm ?? 0) > 0));
}

const WOODY = new Set(["shrub", "climber", "tree"]);
const STANDS_DAYS = 60; // for so long a measure of what dies down is still near the truth (a choice of ours)

/** The last height measured up to a day, in cm, as far as it may still stand then; else null. */
export function heightThen(newestFirst: readonly Observation[], kind: Pick<Kind, "habit"> | null, day: ISODay): number | null {
  const measured = newestFirst.filter(({ seen }) => seen !== undefined && dayOf(seen) <= day);
  const last = heightBefore(measured, undefined);
  if (!last) return null;
  return WOODY.has(kind?.habit ?? "") || daysBetween(last.day, day) <= STANDS_DAYS ? last.cm : null;
}
