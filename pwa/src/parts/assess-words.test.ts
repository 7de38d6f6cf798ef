// What people read of four gardens whose truth is known, from the almanac's own
// answers (testdata/vectors/assess, written by almanac/assess's tests).
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { Assessment } from "../almanac/answers";
import { headline, headlineText, type About } from "./finding-words";
import { seasonWords } from "./season-words";

const on = "2015-06-25";
const about: About = { today: on, units: "metric", lastLook: "2015-04-29", season: 5, locale: "en-GB" };

function assessment(name: string): Assessment {
  return JSON.parse(readFileSync(join(import.meta.dirname, "../../../testdata/vectors/assess", `${name}.json`), "utf8")) as Assessment;
}

function read(name: string, planting: string): string[] {
  return assessment(name).findings.filter((finding) => finding.planting === planting).map((finding) => headlineText(headline(finding, about)));
}

const season = (name: string) => seasonWords(assessment(name).season, on, false)?.line;

describe("a plant that is forty days late", () => {
  it("in a normal season is late of itself", () => {
    expect(season("late-in-normal-season")).toBe("Early summer runs to time");
    expect(read("late-in-normal-season", "iris-sibirica-0")).toEqual(["late by at least 30 days; the season runs to time"]);
  });

  it("in a late season is told how much of it is the season's", () => {
    expect(season("late-in-late-season")).toBe("Early summer runs 9 days late");
    expect(read("late-in-late-season", "iris-sibirica-0")).toEqual(["late by at least 27 days; the season accounts for 9"]);
  });
});

describe("a late season", () => {
  it("makes no plant late", () => {
    const told = assessment("late-season").findings.map((finding) => headlineText(headline(finding, about)));
    expect(told.length).toBeGreaterThan(6);
    expect(told.filter((words) => words.includes("late"))).toEqual([]);
  });
});

describe("a plant that nobody looked at", () => {
  it("is asked about and never called late", () => {
    expect(read("nobody-looked", "iris-sibirica-1")).toEqual(["not looked at since 29 April"]);
  });
});
