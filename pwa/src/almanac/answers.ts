/** The shapes that the almanac answers in, as the verbs `assess`, `picture` and `tie` write them. */
import type { ISODay } from "../words/ids";

/** Days with their standard deviation; positive is late. */
export type SeasonPart = Readonly<{ from: ISODay; to: ISODay; days: number; sd: number }>;

export type Season = Readonly<{
  days: number;
  sd: number;
  /** From how many plants. */
  from: number;
  parts: readonly SeasonPart[];
}>;

export type Verdict =
  | "early" | "on-time" | "due" | "late" | "later-than-the-book" | "far-early" | "no-flower-seen"
  | "needs-a-look" | "establishing" | "suspended" | "dormant" | "no-expectation"
  | "not-up" | "small-for-age" | "stalled" | "reached" | "outgrown";

/** One piece of evidence: a code that picks the sentence, and its values. */
export type Evidence = Readonly<{ say: string }> & Readonly<Record<string, unknown>>;

export type Finding = Readonly<{
  planting: string;
  flush: number | null;
  verdict: Verdict;
  /** Days late (negative early); an open end is null. */
  days: readonly [lo: number | null, hi: number | null] | null;
  /** How many of them the season accounts for. */
  seasonDays: number | null;
  /** Of being this far off by luck. */
  probability: number | null;
  evidence: readonly Evidence[];
  /** Codes of what to check first, in order. */
  check: readonly string[];
}>;

export type ReckonedTask = Readonly<Record<string, unknown>>;

export type Assessment = Readonly<{
  season: Season | null;
  skipped: readonly unknown[];
  findings: readonly Finding[];
  tasks: readonly ReckonedTask[];
}>;

/** Days of the year; a fraction counts, below 1 and above 366 are the neighbouring years. */
export type DaySpan = readonly [number, number];

export type Strip = Readonly<{
  year: number;
  flush: number;
  /** Median opening and close. */
  expected: DaySpan | null;
  /** Tenth to ninetieth percentile of the opening. */
  openBand: DaySpan | null;
  certain: DaySpan | null;
  possible: DaySpan | null;
  looks: readonly number[];
  colours: readonly string[];
  verdict: Verdict;
}>;

export type HeightChart = Readonly<{
  unit: "cm";
  band: readonly Readonly<{ day: ISODay; lo: number; mid: number; hi: number }>[];
  measured: readonly Readonly<{ day: ISODay; cm: number }>[];
}>;

export type Picture = Readonly<{ strips: readonly Strip[]; height: HeightChart | null }>;

