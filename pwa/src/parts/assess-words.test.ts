// What people read of four gardens whose truth is known, from the almanac's own
// answers (testdata/vectors/assess, written by almanac/assess's tests).
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { Assessment } from "../almanac/answers";
import { checkWords, evidenceWords, headline, headlineText, type About } from "./finding-words";
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

describe("a garden in which every place does something", () => {
  const { findings } = assessment("places");
  const told = { ...about, today: "2015-07-01" };
  const of = (planting: string, verdict: string) => findings.find((finding) => finding.planting === planting && finding.verdict === verdict)!;

  it("has a sentence for every fact and every check", () => {
    for (const finding of findings) {
      const facts = finding.evidence.filter(({ say }) => say !== "bud-on" && say !== "give-water");
      expect(evidenceWords(finding, told), `${finding.planting} ${finding.verdict}`).toHaveLength(facts.length);
      expect(checkWords(finding)).toHaveLength(finding.check.length);
    }
  });

  it("reads as a gardener would say it", () => {
    expect(evidenceWords(of("under", "crowded"), told)).toEqual([
      "Neighbours take 100 % of the room it wants, even if all stay as narrow as their kinds can.",
      "Choisya ternata takes 100 %; it grows to 210 cm, far above this one’s 45 cm.",
    ]);
    expect(evidenceWords(of("day-lily", "taller-in-front"), told)[1]).toBe("Choisya ternata in front of it is then likely 210 cm tall, this one 80 cm.");
    expect(evidenceWords(of("agapanthus", "frost-below-minimum"), told)).toEqual([
      "−12 °C on 20 January; what it stands is −7 °C.", "2 nights were so cold, the last 21 January.",
      "In a container roots freeze sooner; in open ground its kind stands −12 °C.",
    ]);
    expect(evidenceWords(of("snowdrops", "dormant"), told)[0]).toMatch(/^It sleeps under the soil: don’t dig here before \d+ \w+ 2016\.$/u);
    expect(headlineText(headline(of("rose", "dry"), told))).toMatch(/^dry at the root; \d+ litres for each plant, \d+ for all$/u);
    expect(evidenceWords(of("foxglove", "done"), told)).toEqual([
      "A biennial: it has flowered, and by 20 August 2014 it was over.", "It may have sown itself: look for seedlings before you dig.",
    ]);
  });
});
