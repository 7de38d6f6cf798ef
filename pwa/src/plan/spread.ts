// How much ground a planting covers, by its age and by what was measured: for
// the drawing alone. What is told of crowding is the almanac's to say.

import type { Kind, Observation, Planting } from "../words/records";
import type { ISODay } from "../words/ids";
import { middleOf, type Placed } from "./sheet";

/** A planting is 95 % of its size at its kind's yearsToSize, as the almanac's growth has it: −log 0.05. */
const FULL_GROWTH = Math.log(20);

/** The catalogue's middle years to size, for a kind of which nobody said them (as the almanac). */
const YEARS_TO_SIZE = { tree: 15, shrub: 6, other: 3 } as const;

const DAYS_IN_YEAR = 365.2425; // mean of the Gregorian calendar
const MEASURED_LASTS_DAYS = 365; // a growing season, as the almanac has it
const MS_IN_DAY = 86_400_000;
const UNKNOWN_CM = 40; // of a kind that nobody knows: a perennial of middling size, so that it is drawn at all
const LEAST_SHARE = 0.15; // something just planted is seen all the same

/** A climber takes its foot's room on the ground; the rest goes up (a choice of ours, about a watering basin). */
const FOOT_M = 0.25;

function climbs(kind: Kind | null): boolean {
  return kind?.habit === "climber" || kind?.spreadHabit === "climbing";
}

/** The radius of a disc as large as those of all its plants side by side, metres. */
function radiusM(spreadCm: number, count: number | undefined): number {
  return (spreadCm / 200) * Math.sqrt(Math.max(1, count ?? 1));
}

/** The middle of its kind's range, in centimetres. */
function eventualCm(kind: Kind | null): number {
  const [lo, hi] = kind?.spreadCm ?? [0, 0];
  return (lo + hi) / 2 || UNKNOWN_CM;
}

/** The share of its size that a planting has by its age; all of it where nobody knows since when. */
export function grownBy(planting: Planting, kind: Kind | null, today: ISODay): number {
  if (!planting.planted) return 1;
  const years = Math.max(0, Date.parse(today) - Date.parse(middleDay(planting.planted))) / MS_IN_DAY / DAYS_IN_YEAR;
  return Math.max(LEAST_SHARE, 1 - Math.exp((-FULL_GROWTH * years) / yearsToSize(kind)));
}

function yearsToSize(kind: Kind | null): number {
  const { tree, shrub, other } = YEARS_TO_SIZE;
  return kind?.yearsToSize || (kind?.habit === "tree" ? tree : kind?.habit === "shrub" ? shrub : other);
}

/** The middle of a date of which the day or the month is not known. */
function middleDay(date: string): ISODay {
  if (date.length === "YYYY".length) return `${date}-07-01`;
  return date.length === "YYYY-MM".length ? `${date}-15` : date;
}

/** The last spread measured of a single plant in a year; null where there is none. */
function measuredM(planting: Planting, looks: readonly Observation[], today: ISODay): number | null {
  if ((planting.count ?? 1) > 1) return null;
  const oldest = new Date(Date.parse(today) - MEASURED_LASTS_DAYS * MS_IN_DAY).toISOString();
  const look = looks.find(({ seen, spreadCm }) => spreadCm !== undefined && (seen ?? "") >= oldest);
  return look ? look.spreadCm! / 200 : null;
}

/** A planting as it lies on the plan, or null where nobody has said where. */
export function placedOf(planting: Planting, kind: Kind | null, looks: readonly Observation[], today: ISODay): Placed | null {
  const middle = middleOf(planting);
  if (!middle) return null;
  if (climbs(kind)) return { planting, kind, middle, area: null, nowM: FOOT_M, fullM: FOOT_M };
  const full = radiusM(eventualCm(kind), planting.count);
  const nowM = measuredM(planting, looks, today) ?? full * grownBy(planting, kind, today);
  return { planting, kind, middle, area: planting.at ? null : (planting.area ?? null), nowM, fullM: Math.max(nowM, full) };
}
