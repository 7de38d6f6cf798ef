// The shapes of answers.ts against what the almanac writes: its golden answers
// (almanac/verbs/testdata, testdata/vectors/assess), which are the same natively
// and in WebAssembly, and the fields and verdicts that its Go sources can write.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { Assessment, Evidence, Finding, HeightChart, Picture, ReckonedTask, Season, SeasonPart, Skipped, Strip, Verdict, Worth, WorthCode, WorthReason } from "./answers";
import type { TieAnswer } from "./tie";

type Holds = (value: unknown) => boolean;
/** A check for every field of a type, and none more: the compiler keeps the two together. */
type Shape<T> = Readonly<{ [Key in keyof Required<T>]: Holds }>;

const text: Holds = (value) => typeof value === "string";
const count: Holds = (value) => Number.isInteger(value);
const num: Holds = (value) => Number.isFinite(value);
const flag: Holds = (value) => typeof value === "boolean";
const day: Holds = (value) => typeof value === "string" && /^\d{4}-\d\d-\d\d$/u.test(value);
const orNull = (holds: Holds): Holds => (value) => value === null || holds(value);
const list = (holds: Holds): Holds => (value) => Array.isArray(value) && value.every(holds);
const pair = (holds: Holds): Holds => (value) => Array.isArray(value) && value.length === 2 && value.every(holds);
const oneOf = (allowed: object): Holds => (value) => typeof value === "string" && value in allowed;

/** An object that has every field of a shape and no other; those in `mayLack` only where the shape says so. */
function object<T>(shape: Shape<T>, mayLack: (key: string) => boolean = () => false): Holds {
  const checks = Object.entries<Holds>(shape);
  return (value) => {
    if (typeof value !== "object" || value === null) return false;
    const has = value as Record<string, unknown>;
    return Object.keys(has).every((key) => key in shape) && checks.every(([key, holds]) => (key in has ? holds(has[key]) : mayLack(key)));
  };
}

const verdicts: Readonly<Record<Verdict, true>> = {
  early: true, "on-time": true, due: true, late: true, "later-than-the-book": true, "far-early": true, "no-flower-seen": true,
  "needs-a-look": true, establishing: true, suspended: true, dormant: true, "no-expectation": true,
  "not-up": true, "small-for-age": true, stalled: true, reached: true, outgrown: true,
  crowded: true, "taller-in-front": true, shaded: true, scorched: true, dry: true, "frost-below-minimum": true, troubled: true, done: true, colony: true,
};

const evidence: Shape<Evidence> = {
  say: text, day, from: day, to: day, days: num, sd: num, cm: num, loCm: num, hiCm: num, likelyCm: num, rate: num, stage: count,
  plants: count, count, of: count, season: count, measures: count, year: count, yearLo: count, yearHi: count,
  share: num, hours: num, loHours: num, hiHours: num, before: num, after: num, litres: num, all: num, c: num, limitC: num, probability: num,
  other: text, what: text,
};
const finding = object<Finding>({
  planting: text, flush: orNull(count), year: count, verdict: oneOf(verdicts), days: orNull(pair(orNull(num))), seasonDays: orNull(num),
  probability: orNull(num), worthALook: flag, evidence: list(object(evidence, (key) => key !== "say")), check: list(text),
  dismissed: orNull(object<NonNullable<Finding["dismissed"]>>({ why: text, day: orNull(day) })),
});
const part = object<SeasonPart>({ from: day, to: day, days: num, sd: num, plants: count });
const season = object<Season>({ days: num, sd: num, from: count, now: part, parts: list(part) });
const due = object<ReckonedTask["due"]>({ from: day, to: day });
const assessment = object<Assessment>({
  on: day, season: orNull(season), skipped: list(object<Skipped>({ record: text, why: text })), findings: list(finding),
  tasks: list(object<ReckonedTask>({ planting: text, care: text, due, reason: text })),
});
const strip = object<Strip>({
  year: count, flush: count, expected: orNull(pair(num)), openBand: orNull(pair(num)), certain: orNull(pair(num)), possible: orNull(pair(num)),
  looks: list(num), colours: list(text), verdict: oneOf({ ...verdicts, "": true }),
});
const height = object<HeightChart>({
  unit: text, band: list(object<HeightChart["band"][number]>({ day, lo: num, mid: num, hi: num })), measured: list(object<HeightChart["measured"][number]>({ day, cm: num })),
});
const picture = object<Picture>({ strips: list(strip), height: orNull(height) });
const codes: Readonly<Record<WorthCode, true>> = {
  "may-have-opened": true, "settles-late": true, "late-still": true, "may-be-over": true, "not-seen-up": true, "height-old": true, finding: true, asleep: true,
};
const reason = object<WorthReason>(
  { code: oneOf(codes), gain: num, flush: count, day, probability: num, verdict: oneOf(verdicts) }, (key) => key !== "code" && key !== "gain",
);
const worth = object<Worth>({ on: day, plantings: list(object<Worth["plantings"][number]>({ planting: text, gain: num, reasons: list(reason) })) });
const tie = object<TieAnswer>({
  tied: orNull(text), sure: num, lacking: text,
  candidates: list(object<TieAnswer["candidates"][number]>({ planting: text, probability: num, distanceM: orNull(num) })),
  others: num, none: num,
});

const root = join(import.meta.dirname, "../../..");
const read = (path: string): string => readFileSync(join(root, path), "utf8");
const golden = read("almanac/verbs/testdata/answers.jsonl").trim().split("\n").map((line) => JSON.parse(line) as { verb: string; answer?: string });

/** What the almanac answered to a verb, each as a value. */
function answers(verb: string): unknown[] {
  return golden.filter((one) => one.verb === verb && one.answer).map((one) => JSON.parse(one.answer!));
}

describe("what the almanac answers is as typed", () => {
  it("to assess", () => {
    const vectors = readdirSync(join(root, "testdata/vectors/assess")).map((file) => JSON.parse(read(`testdata/vectors/assess/${file}`)) as unknown);
    const all = [...vectors, ...answers("assess")] as Assessment[];
    expect(all.length).toBeGreaterThan(8);
    for (const one of all) {
      expect(one.findings.filter((each) => !finding(each))).toEqual([]);
      expect(assessment(one), JSON.stringify(one).slice(0, 300)).toBe(true);
    }
    const found = new Set(all.flatMap(({ findings }) => findings.map(({ verdict }) => verdict)));
    expect(found.size).toBeGreaterThan(12);
  });
  it("to worth", () => {
    const all = answers("worth") as Worth[];
    expect(all.length).toBeGreaterThan(6);
    expect(all.filter((one) => !worth(one))).toEqual([]);
    expect(all.some(({ plantings }) => plantings.some(({ reasons }) => reasons.length > 0))).toBe(true);
  });
  it("to picture", () => {
    const all = answers("picture");
    expect(all.length).toBeGreaterThan(2);
    expect(all.filter((one) => !picture(one))).toEqual([]);
  });
  it("to tie", () => {
    const all = answers("tie");
    expect(all.length).toBeGreaterThan(2);
    expect(all.filter((one) => !tie(one))).toEqual([]);
  });
  it("and something else is not", () => {
    const [whole] = answers("assess") as Assessment[];
    expect(assessment({ ...whole, on: "today" })).toBe(false);
    expect(assessment({ ...whole, more: 1 })).toBe(false);
    expect(finding({ ...whole!.findings[0], verdict: "tardy" })).toBe(false);
    const { year: _, ...lacking } = whole!.findings[0]!;
    expect(finding(lacking)).toBe(false);
  });
});

describe("what the almanac can write", () => {
  const sources = ["bloom", "growth", "trouble", "assess"].flatMap((folder) =>
    readdirSync(join(root, "almanac", folder)).filter((file) => file.endsWith(".go") && !file.endsWith("_test.go")).map((file) => read(`almanac/${folder}/${file}`)));

  it("of evidence is typed, field by field", () => {
    const [, struct] = /type Evidence struct \{(.*?)^\}/msu.exec(read("almanac/assess/answers.go"))!;
    const fields = [...struct!.matchAll(/`json:"(\w+)/gu)].map((match) => match[1]);
    expect(fields.sort()).toEqual(Object.keys(evidence).sort());
  });
  it("of verdicts is typed, one by one", () => {
    const written = new Set(sources.flatMap((source) => [...source.matchAll(/\bVerdict(?: += |: )"([a-z-]+)"/gu)].map((match) => match[1]!)));
    expect(written.size).toBeGreaterThan(12);
    expect([...written].filter((verdict) => !(verdict in verdicts))).toEqual([]);
  });
  it("of reasons to look is typed, one by one", () => {
    const written = new Set([...read("almanac/assess/worth.go").matchAll(/\bCode(?:: |(?:, reason\.\w+)+ = )"([a-z-]+)"/gu)].map((match) => match[1]!));
    expect(written.size).toBeGreaterThan(4);
    expect([...written].filter((code) => !(code in codes))).toEqual([]);
  });
});
