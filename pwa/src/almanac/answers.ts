/** The shapes that the almanac answers in, as the verbs `assess`, `worth` and `picture` write them. */
import type { ISODay } from "../words/ids";

/** The season of the plants expected to flower in one stretch: days with their standard deviation; positive is late. */
export type SeasonPart = Readonly<{ from: ISODay; to: ISODay; days: number; sd: number; plants: number }>;

export type Season = Readonly<{
  days: number;
  sd: number;
  /** From how many plants. */
  from: number;
  /** The part of the year that days, sd and from are of. */
  now: SeasonPart;
  parts: readonly SeasonPart[];
}>;

export type Verdict =
  | "early" | "on-time" | "due" | "late" | "later-than-the-book" | "far-early" | "no-flower-seen"
  | "needs-a-look" | "establishing" | "suspended" | "dormant" | "no-expectation"
  | "not-up" | "small-for-age" | "stalled" | "reached" | "outgrown"
  | "crowded" | "taller-in-front" | "shaded" | "scorched" | "dry" | "frost-below-minimum" | "troubled" | "done" | "colony";

/** One fact behind a finding: a code that picks the sentence, and the values that it names. Lengths in centimetres. */
export type Evidence = Readonly<{
  say: string;
  day?: ISODay;
  from?: ISODay;
  to?: ISODay;
  days?: number;
  sd?: number;
  cm?: number;
  loCm?: number;
  hiCm?: number;
  likelyCm?: number;
  /** Of growth, the usual being 1. */
  rate?: number;
  stage?: number;
  plants?: number;
  count?: number;
  of?: number;
  /** Since planting, the first being 1. */
  season?: number;
  measures?: number;
  year?: number;
  yearLo?: number;
  yearHi?: number;
  /** Of its room, its show or the water that its roots reach, 0 to 1. */
  share?: number;
  /** Of direct sun a day, those that its kind wants, and of them those before and after noon. */
  hours?: number;
  loHours?: number;
  hiHours?: number;
  before?: number;
  after?: number;
  /** For each plant, and for all of the planting. */
  litres?: number;
  all?: number;
  /** °C, and the coldest that it stands. */
  c?: number;
  limitC?: number;
  /** Of the fact, 0 to 1. */
  probability?: number;
  /** The planting that does it. */
  other?: string;
  /** The sign, the work, or the name of the other planting's kind. */
  what?: string;
}>;

export type Finding = Readonly<{
  planting: string;
  /** From 0; null where it is not about flower. */
  flush: number | null;
  year: number;
  verdict: Verdict;
  /** Days late, negative early; an open end is null. */
  days: readonly [lo: number | null, hi: number | null] | null;
  /** How many of them the season accounts for. */
  seasonDays: number | null;
  /** Of being this far off by luck. */
  probability: number | null;
  worthALook: boolean;
  evidence: readonly Evidence[];
  /** Codes of what to check first, in order. */
  check: readonly string[];
  /** A person put it aside, and why. */
  dismissed: Readonly<{ why: string; day: ISODay | null }> | null;
}>;

export type ReckonedTask = Readonly<{
  planting: string;
  care: string;
  due: Readonly<{ from: ISODay; to: ISODay }>;
  reason: string;
}>;

export type Skipped = Readonly<{ record: string; why: string }>;

export type Assessment = Readonly<{
  on: ISODay;
  season: Season | null;
  skipped: readonly Skipped[];
  /** What is worth a look first, then in round order. */
  findings: readonly Finding[];
  tasks: readonly ReckonedTask[];
}>;

/** What a look would settle: whether it opened unseen, whether it is late, and so on. */
export type WorthCode =
  | "may-have-opened" | "settles-late" | "late-still" | "may-be-over" | "not-seen-up" | "height-old" | "finding" | "asleep";

export type WorthReason = Readonly<{
  code: WorthCode;
  /** Bits: how much less unsure a look leaves one of this, on average. */
  gain: number;
  /** From 0; where it is about flower. */
  flush?: number;
  /** Of the last look that told of it, or until when it is asleep; absent for none. */
  day?: ISODay;
  /** Of what the code says, 0 to 1. */
  probability?: number;
  /** Of the finding to look into. */
  verdict?: Verdict;
}>;

export type PlantingWorth = Readonly<{
  planting: string;
  /** Bits, the sum over the reasons; 0 where a look settles nothing. */
  gain: number;
  /** Largest gain first. */
  reasons: readonly WorthReason[];
}>;

/** Every planting that stands, by gain and then in round order. */
export type Worth = Readonly<{ on: ISODay; plantings: readonly PlantingWorth[] }>;

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

