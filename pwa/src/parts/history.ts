// What earlier looks at a planting say that a form begins from.

import { flowerOpen } from "../words/flower";
import type { ISODay } from "../words/ids";
import type { Kind, Observation } from "../words/records";
import { dayOf, daysBetween } from "./dates";
import type { LengthField } from "./length-words";

/** The last length before the look `except`, of observations newest first. */
export function lengthBefore(newestFirst: readonly Observation[], field: LengthField, except: string | undefined): Readonly<{ cm: number; day: ISODay }> | null {
  const measured = newestFirst.find((look) => look.id !== except && look[field] !== undefined && look.seen !== undefined);
  return measured ? { cm: measured[field]!, day: dayOf(measured.seen!) } : null;
}

/** The last count before the look `except`, or null. */
export function countBefore(newestFirst: readonly Observation[], field: "countAlive" | "countInFlower", except: string | undefined): number | null {
  return newestFirst.find((look) => look.id !== except && look[field] !== undefined)?.[field] ?? null;
}

/** A look at flower says so for this long, days: a short flush lasts two weeks, and twice that is worth asking about. */
const FLOWER_DAYS = 28;

/** Whether a look, or one shortly before it, saw flower open. */
export function inFlower(look: Observation | null, newestFirst: readonly Observation[], today: ISODay): boolean {
  const open = (one: Observation | null | undefined): boolean => flowerOpen(one?.stage);
  if (look?.stage !== undefined || look?.notInFlower) return open(look);
  const last = newestFirst.find(({ stage, notInFlower }) => stage !== undefined || notInFlower);
  return open(last) && daysBetween(dayOf(last!.seen!), today) <= FLOWER_DAYS;
}

/** Whether the last that was said of its being up before the look `except`, this year, is that it is not. */
export function seenNotUp(newestFirst: readonly Observation[], today: ISODay, except: string | undefined): boolean {
  const last = newestFirst.find(({ id, up, stage, heightCm }) => id !== except && (up !== undefined || stage !== undefined || (heightCm ?? 0) > 0));
  return last?.up === "not-up" && last.seen?.slice(0, 4) === today.slice(0, 4);
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
  const last = lengthBefore(measured, "heightCm", undefined);
  if (!last) return null;
  return WOODY.has(kind?.habit ?? "") || daysBetween(last.day, day) <= STANDS_DAYS ? last.cm : null;
}
