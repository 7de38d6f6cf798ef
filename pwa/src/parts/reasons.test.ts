import { expect, it } from "vitest";
import type { Assessment, Finding, PlantingWorth } from "../almanac/answers";
import type { Planting } from "../words/records";
import { shortDay } from "./dates";
import { reasonsToLook } from "./reasons";

const planting = (id: string): Planting => ({ id, ref: `planting/${id}` });
const book = {
  today: "2014-07-11", garden: null, kind: () => null, bed: () => null, lastLook: () => null,
  planting: (id: string | undefined) => (id && id !== "gone" ? planting(id) : null),
};
const finding = (planting: string, verdict: Finding["verdict"], flush: number | null): Finding =>
  ({ planting, flush, year: 2014, verdict, days: [9, null], seasonDays: 0, probability: 0.01, worthALook: true, evidence: [], check: [], dismissed: null });
const assessment = (findings: readonly Finding[], tasks: Assessment["tasks"] = []): Assessment =>
  ({ on: "2014-07-11", season: null, skipped: [], findings, tasks });
const day = (of: string) => shortDay(of, book.today);
const worth = (...all: readonly PlantingWorth[]) => new Map(all.map((one) => [one.planting, one]));

const late = assessment([finding("iris", "late", 0), finding("rose", "small-for-age", null)]);
const words = (reckoning: Parameters<typeof reasonsToLook>[0]) =>
  [...reasonsToLook(reckoning, book)].map(([id, reasons]) => [id, ...reasons.map((reason) => reason.words)]);

it("are what was found, until the almanac has said what a look settles", () =>
  expect(words({ assessment: late, worth: null })).toEqual([["iris", "late by at least 9 days"], ["rose", "small for its age"]]));

it("are what a look settles, called what it was found to be, and the largest first", () =>
  expect(words({ assessment: late, worth: worth(
    { planting: "rose", gain: 0.4, reasons: [{ code: "finding", verdict: "small-for-age", gain: 0.3 }, { code: "may-have-opened", flush: 0, day: "2014-07-04", gain: 0.1 }] },
    { planting: "iris", gain: 0.2, reasons: [{ code: "late-still", flush: 0, gain: 0.2 }] },
  ) })).toEqual([["rose", "small for its age", `its flower may have opened since ${day("2014-07-04")}`], ["iris", "late by at least 9 days"]]));

it("pass what a look would hardly settle, what sleeps and what stands no more", () =>
  expect(words({ assessment: late, worth: worth(
    { planting: "iris", gain: 0.01, reasons: [{ code: "may-have-opened", gain: 0.01 }] },
    { planting: "bulb", gain: 0, reasons: [{ code: "asleep", day: "2015-01-20", gain: 0 }] },
    { planting: "gone", gain: 1, reasons: [{ code: "may-have-opened", gain: 1 }] },
  ) })).toEqual([]));

it("are the care that is due too, after what is to be seen", () => {
  const task = { planting: "iris", care: "deadhead", due: { from: "2014-07-05", to: "2014-07-20" }, reason: "" };
  expect(words({ assessment: assessment([finding("iris", "late", 0)], [task]), worth: null })).toEqual([["iris", "late by at least 9 days", `Deadhead by ${day("2014-07-20")}`]]);
});
