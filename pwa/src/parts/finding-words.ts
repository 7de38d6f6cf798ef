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
import { spotSayings, waterWanted } from "./spot-words";
import { stageOf, stageSeen } from "./stages";
import { troubleHeadline, troubleSayings } from "./trouble-words";

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
  late: { mark: "late", tone: "madder", words: (finding) => m.v_late({ days: daysWords(finding) }) },
  "later-than-the-book": { mark: "late", tone: "ochre", words: (finding) => m.v_later_than_book({ days: daysWords(finding) }) },
  early: { mark: "early", tone: "verdigris", words: (finding) => m.v_early({ days: daysWords(finding) }) },
  "far-early": { mark: "early", tone: "ochre", words: (finding) => m.v_far_early({ days: daysWords(finding) }) },
  "on-time": { mark: "on-time", tone: "verdigris", words: () => m.v_on_time() },
  due: { mark: "due", tone: "verdigris", words: () => m.v_due() },
  "no-flower-seen": { mark: "no-flower", tone: "madder", words: () => m.v_no_flower_seen() },
  "needs-a-look": { mark: "unseen", tone: "ochre", words: unseenWords },
  establishing: { mark: "waiting", tone: "soft", words: () => m.v_establishing() },
  suspended: { mark: "waiting", tone: "soft", words: () => m.v_suspended() },
  dormant: { mark: "sleeping", tone: "soft", words: () => m.v_dormant() },
  "no-expectation": { mark: "none", tone: "soft", words: () => m.v_no_expectation() },
  "not-up": { mark: "not-up", tone: "madder", words: () => m.v_not_up() },
  "small-for-age": { mark: "short", tone: "madder", words: (_, { season }) => smallWords(season) },
  stalled: { mark: "stalled", tone: "madder", words: () => m.v_stalled() },
  reached: { mark: "tall", tone: "verdigris", words: () => m.v_reached() },
  outgrown: { mark: "tall", tone: "ochre", words: () => m.v_outgrown() },
  crowded: { mark: "crowded", tone: "ochre", words: ({ evidence }) => (evidence.some(({ say }) => say === "room-will-be-taken") ? m.v_will_be_crowded() : m.v_crowded()) },
  "taller-in-front": { mark: "hidden", tone: "ochre", words: () => m.v_taller_in_front() },
  "frost-below-minimum": { mark: "frost", tone: "madder", words: () => m.v_frosted() },
  troubled: { mark: "troubled", tone: "madder", words: troubleHeadline },
  shaded: { mark: "shade", tone: "ochre", words: () => m.v_shaded() },
  scorched: { mark: "sun", tone: "ochre", words: () => m.v_scorched() },
  dry: { mark: "dry", tone: "madder", words: () => m.v_dry() },
  done: { mark: "seed", tone: "soft", words: () => m.v_done() },
  colony: { mark: "seed", tone: "soft", words: () => m.v_colony() },
};

/** Whether this version has words for a verdict. */
export function hasWords(finding: Finding): boolean {
  return finding.verdict in looks;
}

/** A verdict as it is read: its mark, its tone, its words, and what qualifies them ("" for nothing). */
export type Headline = Readonly<{ mark: MarkName; tone: Tone; words: string; rest: string }>;

/** "late by at least 9 days", and of it "the season accounts for 6". */
export function headline(finding: Finding, about: About): Headline {
  const { mark, tone, words } = looks[finding.verdict] ?? looks["no-expectation"]!;
  return { mark, tone: toneOf(finding, tone), words: words(finding, about), rest: rests[finding.verdict]?.(finding) ?? "" };
}

/** What is told quietly does not shout in red. */
function toneOf({ worthALook }: Finding, tone: Tone): Tone {
  return tone === "madder" && !worthALook ? "ochre" : tone;
}

const rests: Readonly<Record<string, (finding: Finding) => string>> = { late: seasonShare, dry: waterWanted };

/** A headline in one line: "late by at least 9 days; the season accounts for 6". */
export function headlineText({ words, rest }: Headline): string {
  return rest ? m.clauses({ one: words, other: rest }) : words;
}

/** How much of a lateness is the whole season's, so that it is not held against the plant. */
function seasonShare({ seasonDays }: Finding): string {
  if (seasonDays === null) return "";
  const season = Math.round(seasonDays);
  if (season > 0) return m.v_season_accounts({ count: season });
  return season === 0 ? m.v_season_to_time() : m.v_season_early({ count: -season });
}

/** "at least 9 days", "9 to 14 days", "9 days". */
function daysWords({ days }: Finding): string {
  const whole = (value: number | null | undefined): number | null => (value === null || value === undefined ? null : Math.round(Math.abs(value)));
  const [lo, hi] = [whole(days?.[0]), whole(days?.[1])].sort((a, b) => (a ?? Infinity) - (b ?? Infinity));
  if (lo === null || lo === undefined) return m.days_some();
  if (hi === null || hi === undefined) return m.days_at_least({ count: lo });
  return lo === hi ? m.days_exact({ count: lo }) : m.days_range({ lo, hi });
}

/** The almanac's day is of the last look that told of flower; a later one may have told of something else. */
function unseenWords({ evidence }: Finding, { lastLook, today, locale }: About): string {
  const told = evidence.find(({ say }) => say === "no-look-since")?.day ?? lastLook;
  if (!lastLook || !told) return m.v_never_seen();
  if (lastLook === today || (told === lastLook && inItsTime(evidence, lastLook))) return m.v_flower_to_note();
  const day = shortDay(told, today, locale);
  return lastLook > told ? m.v_flower_unnoted_since({ day }) : m.v_unseen_since({ day });
}

/** Whether a look fell in the time of a flower that no look has told of. */
function inItsTime(evidence: Finding["evidence"], look: ISODay): boolean {
  const opens = evidence.find(({ say }) => say === "expected-open")?.from;
  return opens !== undefined && look >= opens && evidence.some(({ say }) => say === "no-look-this-season");
}

function smallWords(season: number | null): string {
  const years = [m.v_small_1, m.v_small_2, m.v_small_3, m.v_small_4, m.v_small_5];
  return (season !== null && years[season - 1]?.()) || m.v_small();
}

/** The facts behind a finding, a sentence each, in the almanac's order. */
export function evidenceWords(finding: Finding, about: About): readonly string[] {
  const facts = new Set(finding.evidence.map(({ say }) => say));
  // The last look says the bud already, and the headline the water.
  const told = finding.evidence.filter(({ say }) => !(say === "bud-on" && facts.has("last-look")) && say !== "give-water");
  return told.flatMap((fact) => factWords(ownRange(fact, finding), about) ?? []);
}

/** Of what is at its full size the range is its own, not its kind's. */
function ownRange(fact: Evidence, { verdict }: Finding): Evidence {
  return fact.say === "range" && verdict === "reached" ? { ...fact, say: "full-size" } : fact;
}

/** Never of less than two days, so always of several. */
const bedWords = (days: number) => (days < 0 ? m.e_bed_early({ days: -days }) : m.e_bed_late({ days }));

export type Values = Omit<Evidence, "say">;

/** A code's sentence; null when a value that it needs is missing. */
export type Say = (values: Values, about: About) => string | null;

/** One sentence for each code; null when a value it needs is missing. */
const sayings: Readonly<Record<string, Say>> = {
  // Of flower.
  "expected-open": span(m.e_expected_open),
  "opened-between": ({ from, to }, about) => (from ? span(m.e_opened_between) : onDay(m.e_open_by))({ from, to, day: to }, about),
  "in-flower-on": onDay(m.e_in_flower_on),
  "over-by": onDay(m.e_over_by),
  "bud-on": onDay(m.e_bud_on),
  "no-look-since": (values, about) => onDay(about.lastLook && values.day && about.lastLook > values.day ? m.e_flower_unnoted_since : m.e_no_look_since)(values, about),
  "no-look-this-season": () => m.e_no_look_this_season(),
  "too-late-to-tell": () => m.e_too_late_to_tell(),
  "last-look": ({ day, what, stage }, { today, locale }) => (day ? lastLookWords(shortDay(day, today, locale), what, stage) : null),
  season: ({ days, sd, plants }) => seasonFact(days, sd, plants),
  "bed-delay": ({ days }) => (days === undefined ? null : bedWords(Math.round(days))),
  "own-habit": ({ days }) => (days === undefined ? null : habitWords(Math.round(days))),
  "first-season-here": () => m.e_first_season_here(),
  "catalogue-alone": () => m.e_catalogue_alone(),
  "planted-on": onDay(m.e_planted_on),
  "under-cover": () => m.e_under_cover(),
  "nothing-expected": ({ what }) => nothingExpectedWords(what),
  "suspended-by": ({ what, day }, about) => (what ? suspendedWords(careDone(what), day, about) : null),
  "needs-work": ({ what }) => needsWorkWords(what),
  "may-not-flower": ({ probability }) => (probability === undefined ? null : m.e_may_not_flower({ percent: percent(probability) })),
  // Of coming up.
  "expected-up": span(m.e_expected_up),
  "seen-not-up": onDay(m.e_not_up_on),
  "asleep-until": onDay(m.e_asleep_until),
  // Of growth.
  measured: measuredWords,
  range: rangeWords(m.e_range),
  "full-size": rangeWords(m.e_full_size),
  spread: spreadWords,
  rate: ({ rate }) => (rate === undefined ? null : m.e_rate({ percent: percent(rate) })),
  establishing: ({ season }) => (season === undefined ? null : m.e_establishing({ season })),
  stems: ({ count, of }) => (count === undefined || of === undefined ? null : m.e_stems({ count, of })),
  number: ({ count, of }) => (count === undefined || of === undefined ? null : m.e_number({ count, of })),
  grown: grownWords,
  reaches: reachesWords,
  ...spotSayings,
  ...troubleSayings,
};

/** Whether this version has words for a code: a sentence, or its part of a headline. */
export function canSay(code: string): boolean {
  return code in sayings || code === "give-water";
}

function factWords(fact: Evidence, about: About): string | null {
  return sayings[fact.say]?.(fact, about) ?? null;
}

function span(sentence: (inputs: { from: string; to: string }) => string): Say {
  return ({ from, to }, { today, locale }) => (from && to ? sentence({ from: shortDay(from, today, locale), to: shortDay(to, today, locale) }) : null);
}

function onDay(sentence: (inputs: { day: string }) => string): Say {
  return ({ day }, { today, locale }) => (day ? sentence({ day: shortDay(day, today, locale) }) : null);
}

function lastLookWords(day: string, what: string | undefined, bbch: number | undefined): string {
  const stage = stageOf(bbch);
  if (stage) return m.e_last_look_saw({ day, saw: stageSeen(stage) });
  const saw: Readonly<Record<string, () => string>> = { "not-in-flower": m.not_in_flower, bud: m.entry_bud, flower: m.saw_flower, over: m.saw_over };
  const seen = saw[what ?? ""];
  return seen ? m.e_last_look_saw({ day, saw: seen() }) : m.e_last_look({ day });
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

function needsWorkWords(what: string | undefined): string | null {
  const words: Readonly<Record<string, () => string>> = { deadhead: m.e_needs_deadhead, "cut-back": m.e_needs_cut_back, "first-flush": m.e_needs_first_flush };
  return words[what ?? ""]?.() ?? null;
}

function nothingExpectedWords(what: string | undefined): string | null {
  const words: Readonly<Record<string, () => string>> = {
    latitude: m.e_nothing_latitude, ended: m.e_nothing_ended, annual: m.e_nothing_annual, biennial: m.e_nothing_biennial, monocarpic: m.e_nothing_monocarpic,
  };
  return words[what ?? ""]?.() ?? null;
}

function measuredWords({ day, cm, loCm, hiCm }: Values, { units, today, locale }: About): string | null {
  if (cm === undefined || loCm === undefined || hiCm === undefined || !day) return null;
  return m.e_measured({ height: length(cm, units), range: lengthRange(loCm, hiCm, units), day: shortDay(day, today, locale) });
}

function rangeWords(sentence: (inputs: { height: string; range: string; day: string }) => string): Say {
  return ({ day, cm, loCm, hiCm }, { units, today, locale }) =>
    cm === undefined || loCm === undefined || hiCm === undefined || !day
      ? null
      : sentence({ height: length(cm, units), range: lengthRange(loCm, hiCm, units), day: shortDay(day, today, locale) });
}

function spreadWords({ day, cm, loCm, hiCm }: Values, { units, today, locale }: About): string | null {
  if (cm === undefined || loCm === undefined || hiCm === undefined || !day) return null;
  return m.e_spread({ spread: length(cm, units), range: lengthRange(loCm, hiCm, units), day: shortDay(day, today, locale) });
}

function grownWords({ cm, likelyCm, from, day, measures }: Values, { units, today, locale }: About): string | null {
  if (cm === undefined || likelyCm === undefined || !from || !day) return null;
  const shown = (value: number): string => number(Math.max(0, entry.fromCm(value, units)));
  const words = { grown: shown(cm), likely: shown(likelyCm), unit: entry.unit(units), from: shortDay(from, today, locale), to: shortDay(day, today, locale) };
  return m.e_grown({ ...words, count: measures ?? 2 });
}

/** A rate as a share of the usual, to the nearest twentieth: more would be false precision. */
function percent(rate: number): string {
  return number(Math.round(rate * 20) * 5);
}

function reachesWords({ year, yearLo, yearHi }: Values, { today }: About): string | null {
  if (year === undefined) return null;
  if (year < Number(today.slice(0, 4))) return m.e_came_to({ year });
  const alone = yearLo === undefined || yearHi === undefined || yearLo === yearHi;
  return alone ? m.e_reaches({ year }) : m.e_reaches_between({ year, lo: yearLo, hi: yearHi });
}

const checks: Readonly<Record<string, () => string>> = {
  look: m.c_look, label: m.c_label, identity: m.c_label, buds: m.c_buds, "pruned-off": m.c_pruned, "late-frost": m.c_frost, sun: m.c_light, light: m.c_light,
  water: m.c_water, divide: m.c_divide, depth: m.c_depth, feed: m.c_feed, "dig-care": m.c_dig_care, slugs: m.c_slugs, alive: m.c_alive, dieback: m.c_dieback,
  "wet-winter": m.c_wet_winter, lifted: m.c_lifted, drainage: m.c_drainage, browsed: m.c_browsed, crowded: m.c_crowded, roots: m.c_roots, prune: m.c_prune,
  "make-room": m.c_make_room, view: m.c_view, "frost-wait": m.c_frost_wait, "firm-in": m.c_firm_in, "below-graft": m.c_below_graft, reverted: m.c_reverted,
  dawn: m.c_dawn, mulched: m.c_mulched, "sun-scorch": m.c_sun_scorch, aphids: m.c_aphids, air: m.c_air, "fallen-leaves": m.c_fallen_leaves,
  "close-look": m.c_close_look, "what-shades": m.c_what_shades, "thin-above": m.c_thin_above, "leaf-edges": m.c_leaf_edges,
  "finger-deep": m.c_finger_deep, soak: m.c_soak,
};

/** Whether this version has words for a check. */
export function canCheck(code: string): boolean {
  return code in checks;
}

/** What to check first, in order. */
export function checkWords(finding: Finding): readonly string[] {
  return [...new Set(finding.check.flatMap((code) => checks[code]?.() ?? []))];
}

/** A finding with the sentences that belong under it. */
export type Told = Readonly<{ finding: Finding; facts: readonly string[]; checks: readonly string[] }>;

/** Findings as they are read one under another: nothing that was said above is said again. */
export function toldTogether(findings: readonly Finding[], about: About): readonly Told[] {
  const said = new Set<string>();
  const fresh = (sentences: readonly string[]): readonly string[] => sentences.filter((one) => !said.has(one) && said.add(one));
  return findings.map((finding) => ({ finding, facts: fresh(evidenceWords(finding, about)), checks: finding.dismissed ? [] : fresh(checkWords(finding)) }));
}
