// What the reckoning found, in the words that a person reads. The almanac gives
// codes and numbers; every sentence is here and in messages/. Codes that this
// version has no sentence for are left out, never shown raw.

import type { Evidence, Finding } from "../almanac/answers";
import type { MarkName } from "../marks/drawings";
import { m } from "../paraglide/messages.js";
import type { ISODay } from "../words/ids";
import { shortDay } from "./dates";
import { careDone } from "./care-words";
import { entry, length, lengthRange, number, type Units } from "./measure";
import { stageOf, stageWord } from "./stages";

/** What the wording needs to know beside the finding. */
export type About = Readonly<{
  today: ISODay;
  units: Units;
  /** The day of the last look at the planting, or null. */
  lastLook: ISODay | null;
  /** Which growing season since planting this is, 1 being the first; null when unknown. */
  season: number | null;
  /** For dates; the phone's own when left out. */
  locale?: string;
}>;

export type Tone = "madder" | "ochre" | "verdigris" | "soft";

type Look = Readonly<{ mark: MarkName; tone: Tone; words: (finding: Finding, about: About) => string }>;

const looks: Readonly<Record<string, Look>> = {
  late: { mark: "late", tone: "madder", words: lateWords },
  "later-than-the-book": { mark: "late", tone: "ochre", words: (finding) => m.v_later_than_book({ days: daysWords(finding) }) },
  early: { mark: "early", tone: "verdigris", words: (finding) => m.v_early({ days: daysWords(finding) }) },
  "far-early": { mark: "early", tone: "ochre", words: (finding) => m.v_far_early({ days: daysWords(finding) }) },
  "on-time": { mark: "on-time", tone: "verdigris", words: () => m.v_on_time() },
  due: { mark: "due", tone: "verdigris", words: () => m.v_due() },
  "no-flower-seen": { mark: "no-flower", tone: "madder", words: () => m.v_no_flower_seen() },
  "needs-a-look": { mark: "unseen", tone: "ochre", words: (_, about) => unseenWords(about) },
  establishing: { mark: "waiting", tone: "soft", words: () => m.v_establishing() },
  suspended: { mark: "waiting", tone: "soft", words: () => m.v_suspended() },
  dormant: { mark: "sleeping", tone: "soft", words: () => m.v_dormant() },
  "no-expectation": { mark: "none", tone: "soft", words: () => m.v_no_expectation() },
  "not-up": { mark: "not-up", tone: "madder", words: () => m.v_not_up() },
  "up-late": { mark: "late", tone: "ochre", words: (finding) => m.v_up_late({ days: daysWords(finding) }) },
  "small-for-age": { mark: "short", tone: "madder", words: (_, { season }) => smallWords(season) },
  stalled: { mark: "stalled", tone: "madder", words: () => m.v_stalled() },
  reached: { mark: "tall", tone: "verdigris", words: () => m.v_reached() },
  outgrown: { mark: "tall", tone: "ochre", words: () => m.v_outgrown() },
};

/** Whether this version has words for a verdict. */
export function hasWords(finding: Finding): boolean {
  return finding.verdict in looks;
}

/** The mark, the tone and the words of a verdict: "late by at least 9 days; the season accounts for 6". */
export function headline(finding: Finding, about: About): Readonly<{ mark: MarkName; tone: Tone; words: string }> {
  const { mark, tone, words } = looks[finding.verdict] ?? looks["no-expectation"]!;
  return { mark, tone, words: words(finding, about) };
}

function lateWords(finding: Finding): string {
  const late = m.v_late({ days: daysWords(finding) });
  if (finding.seasonDays === null) return late;
  const season = Math.round(finding.seasonDays);
  if (season > 0) return m.v_with_season({ late, count: season });
  return season === 0 ? m.v_season_to_time({ late }) : m.v_season_early({ late, count: -season });
}

/** "at least 9 days", "9 to 14 days", "9 days". */
function daysWords({ days }: Finding): string {
  const whole = (value: number | null | undefined): number | null => (value === null || value === undefined ? null : Math.round(Math.abs(value)));
  const [lo, hi] = [whole(days?.[0]), whole(days?.[1])].sort((a, b) => (a ?? Infinity) - (b ?? Infinity));
  if (lo === null || lo === undefined) return m.days_some();
  if (hi === null || hi === undefined) return m.days_at_least({ count: lo });
  return lo === hi ? m.days_exact({ count: lo }) : m.days_range({ lo, hi });
}

function unseenWords({ lastLook, today, locale }: About): string {
  return lastLook ? m.v_unseen_since({ day: shortDay(lastLook, today, locale) }) : m.v_never_seen();
}

function smallWords(season: number | null): string {
  const years = [m.v_small_1, m.v_small_2, m.v_small_3, m.v_small_4, m.v_small_5];
  return (season !== null && years[season - 1]?.()) || m.v_small();
}

/** The facts behind a finding, a sentence each, in the almanac's order. */
export function evidenceWords(finding: Finding, about: About): readonly string[] {
  return finding.evidence.flatMap((fact) => factWords(fact, about) ?? []);
}

type Values = Readonly<{
  day?: ISODay; from?: ISODay; to?: ISODay; days?: number; sd?: number; cm?: number; loCm?: number; hiCm?: number;
  stage?: number; plants?: number; year?: number; yearLo?: number; yearHi?: number; what?: string;
}>;

type Say = (values: Values, about: About) => string | null;

/** One sentence for each code; null when a value it needs is missing. */
const sayings: Readonly<Record<string, Say>> = {
  "expected-open": span(m.e_expected_open),
  "expected-up": span(m.e_expected_up),
  "opened-between": span(m.e_opened_between),
  "came-up-between": span(m.e_came_up_between),
  "in-flower-on": onDay(m.e_in_flower_on),
  "up-on": onDay(m.e_up_on),
  "not-up-on": onDay(m.e_not_up_on),
  "over-by": onDay(m.e_over_by),
  "bud-on": onDay(m.e_bud_on),
  "no-look-since": onDay(m.e_no_look_since),
  "no-look-this-season": () => m.e_no_look_this_season(),
  "last-look": ({ day, stage }, { today, locale }) => (day ? lastLookWords(shortDay(day, today, locale), stage) : null),
  season: ({ days, sd, plants }) => seasonFact(days, sd, plants),
  "first-season-here": () => m.e_first_season_here(),
  "catalogue-alone": () => m.e_catalogue_alone(),
  "own-habit": ({ days }) => days === undefined ? null : habitWords(Math.round(days)),
  "suspended-by": ({ what, day }, about) => (what ? suspendedWords(careDone(what), day, about) : null),
  "needs-work": ({ what }) => what === "cut-back" ? m.e_needs_cut_back() : m.e_needs_deadhead(),
  "likely-height": likelyHeightWords,
  grew: grewWords,
  reaches: reachesWords,
};

function factWords(fact: Evidence, about: About): string | null {
  return sayings[fact.say]?.(fact as Values, about) ?? null;
}

function span(sentence: (inputs: { from: string; to: string }) => string): Say {
  return ({ from, to }, { today, locale }) => (from && to ? sentence({ from: shortDay(from, today, locale), to: shortDay(to, today, locale) }) : null);
}

function onDay(sentence: (inputs: { day: string }) => string): Say {
  return ({ day }, { today, locale }) => (day ? sentence({ day: shortDay(day, today, locale) }) : null);
}

function lastLookWords(day: string, bbch: number | undefined): string {
  const stage = stageOf(bbch);
  return stage ? m.e_last_look_stage({ day, stage: stageWord(stage) }) : m.e_last_look({ day });
}

function seasonFact(days: number | undefined, sd: number | undefined, plants: number | undefined): string | null {
  if (days === undefined || sd === undefined) return null;
  const whole = Math.round(days);
  const give = Math.max(1, Math.round(sd));
  const from = plants ?? 0;
  if (whole === 0) return m.e_season_to_time({ give, count: from });
  return whole > 0 ? m.e_season_late({ days: whole, give, count: from }) : m.e_season_early({ days: -whole, give, count: from });
}

function habitWords(days: number): string | null {
  if (days === 0) return null;
  return days > 0 ? m.e_habit_late({ count: days }) : m.e_habit_early({ count: -days });
}

function suspendedWords(what: string, day: ISODay | undefined, { today, locale }: About): string {
  return day ? m.e_suspended_by_on({ what, day: shortDay(day, today, locale) }) : m.e_suspended_by({ what });
}

function likelyHeightWords({ cm, loCm, hiCm, day }: Values, { units, today, locale }: About): string | null {
  if (cm === undefined || loCm === undefined || hiCm === undefined) return null;
  const words = { height: length(cm, units), range: lengthRange(loCm, hiCm, units) };
  return day ? m.e_likely_height_on({ ...words, day: shortDay(day, today, locale) }) : m.e_likely_height(words);
}

function grewWords({ cm, loCm, hiCm, from }: Values, { units, today, locale }: About): string | null {
  if (cm === undefined || !from) return null;
  const shown = (value: number): string => number(Math.max(0, entry.fromCm(value, units)));
  const words = { grown: shown(cm), unit: entry.unit(units), since: shortDay(from, today, locale) };
  const likely = loCm ?? hiCm;
  return likely === undefined ? m.e_grew(words) : m.e_grew_likely({ ...words, likely: shown(likely) });
}

function reachesWords({ year, yearLo, yearHi }: Values): string | null {
  if (year === undefined) return null;
  const alone = yearLo === undefined || yearHi === undefined || yearLo === yearHi;
  return alone ? m.e_reaches({ year }) : m.e_reaches_between({ year, lo: yearLo, hi: yearHi });
}

const checks: Readonly<Record<string, () => string>> = {
  look: m.c_look, "look-for-flower": m.c_look, buds: m.c_buds, "buds-browsed": m.c_buds, frost: m.c_frost, frosted: m.c_frost,
  shade: m.c_shade, sun: m.c_shade, dry: m.c_dry, water: m.c_dry, roots: m.c_roots, pruned: m.c_pruned, pruning: m.c_pruned,
  "too-deep": m.c_depth, depth: m.c_depth, crowded: m.c_crowded, neighbours: m.c_crowded, "wrong-kind": m.c_identity, identity: m.c_identity,
  feed: m.c_feed, soil: m.c_feed, spade: m.c_spade, slugs: m.c_slugs, browsing: m.c_browsing, divide: m.c_divide, age: m.c_age, wait: m.c_wait,
  measure: m.c_measure, drainage: m.c_drainage, pests: m.c_pests, book: m.c_book,
};

/** What to check first, in order. */
export function checkWords(finding: Finding): readonly string[] {
  return [...new Set(finding.check.flatMap((code) => checks[code]?.() ?? []))];
}
