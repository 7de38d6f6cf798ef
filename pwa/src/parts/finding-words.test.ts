import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import type { Finding } from "../almanac/answers";
import { canCheck, canSay, checkWords, evidenceWords, hasWords, headline, headlineText, toldTogether, type About } from "./finding-words";

const about: About = { today: "2014-07-11", units: "metric", lastLook: "2014-07-04", season: 3, locale: "en-GB" };

const quiet: Finding = {
  planting: "p", flush: 0, year: 2014, verdict: "late", days: [9, null], seasonDays: 6, probability: 0.01, worthALook: true,
  evidence: [], check: [], dismissed: null,
};

const words = (change: Partial<Finding>, at: Partial<About> = {}): string => headlineText(headline({ ...quiet, ...change }, { ...about, ...at }));

describe("a late plant", () => {
  it("in a late season says how much of it is the season's", () =>
    expect(words({})).toBe("late by at least 9 days; the season accounts for 6"));
  it("in a normal season says that the season is not the cause", () =>
    expect(words({ seasonDays: 0.3 })).toBe("late by at least 9 days; the season runs to time"));
  it("in an early season is all the later", () =>
    expect(words({ seasonDays: -4 })).toBe("late by at least 9 days; the season is 4 days early"));
  it("reads differently in a late season and in a normal one", () =>
    expect(words({ seasonDays: 6 })).not.toBe(words({ seasonDays: 0 })));
  it("has both ends once it has opened", () =>
    expect(words({ days: [9, 14] })).toBe("late by 9 to 14 days; the season accounts for 6"));
  it("says one day as one", () => expect(words({ days: [1, 1], seasonDays: null })).toBe("late by 1 day"));
});

describe("a plant that nobody looked at", () => {
  const unseen: Partial<Finding> = { verdict: "needs-a-look", days: [9, null], seasonDays: 6, probability: 0.001 };

  it("is never worded late, whatever the numbers say", () => {
    expect(words(unseen)).toBe("not looked at since 4 July");
    expect(words(unseen, { lastLook: null })).toBe("not looked at yet");
    for (const lastLook of ["2014-07-04", null]) expect(words(unseen, { lastLook })).not.toMatch(/late/u);
  });
  it("goes by the last look that told of flower, where a later one did not", () => {
    const evidence = [{ say: "no-look-since", day: "2014-04-25" }];
    expect(words({ ...unseen, evidence })).toBe("its flower not noted since 25 April");
    expect(words({ ...unseen, evidence }, { lastLook: "2014-07-11" })).toBe("its flower is still to be noted");
    expect(words({ ...unseen, evidence }, { lastLook: "2014-04-25" })).toBe("not looked at since 25 April");
  });
  it("is not called unlooked at where a look in its time told of something else", () => {
    const evidence = [{ say: "expected-open", from: "2014-06-20", to: "2014-07-10" }, { say: "no-look-this-season" }];
    expect(words({ ...unseen, evidence })).toBe("its flower is still to be noted");
    expect(words({ ...unseen, evidence }, { lastLook: "2014-06-01" })).toBe("not looked at since 1 June");
    expect(evidenceWords({ ...quiet, evidence }, about)[1]).toBe("Its flower has not been noted since its time came, so nothing is said of it.");
    expect(evidenceWords({ ...quiet, evidence: [{ say: "no-look-since", day: "2014-06-12" }] }, about)).toEqual(["Its flower has not been noted since 12 June, so nothing is said of it."]);
  });
  it("says so in its evidence, and says nothing of lateness there", () => {
    const evidence = evidenceWords({ ...quiet, ...unseen, evidence: [{ say: "no-look-since", day: "2014-06-12" }] }, { ...about, lastLook: "2014-06-12" });
    expect(evidence).toEqual(["Nobody has looked since 12 June, so nothing is said of its flower."]);
  });
});

describe("every verdict", () => {
  const verdicts = [
    "early", "on-time", "due", "later-than-the-book", "far-early", "no-flower-seen", "needs-a-look", "establishing", "suspended", "dormant",
    "no-expectation", "not-up", "small-for-age", "stalled", "reached", "outgrown",
    "crowded", "taller-in-front", "shaded", "scorched", "dry", "frost-below-minimum", "troubled", "done", "colony",
  ] as const;
  it("has words and a mark of its own, none of them a bare code", () => {
    for (const verdict of verdicts) {
      expect(words({ verdict, days: [3, 5] })).not.toBe("");
      expect(words({ verdict, days: [3, 5] }), verdict).not.toMatch(/-/u);
    }
  });
  it("calls only a late plant late", () => {
    for (const verdict of verdicts) expect(words({ verdict, days: [3, 5] }), verdict).not.toMatch(/^late\b/u);
  });
  it("counts early days without a sign", () => expect(words({ verdict: "early", days: [-7, -3] })).toBe("early by 3 to 7 days"));
  it("names the year of a small plant", () => {
    expect(words({ verdict: "small-for-age" })).toBe("small for its third year");
    expect(words({ verdict: "small-for-age" }, { season: 12 })).toBe("small for its age");
  });
});

it("shouts only of what is worth a look", () => {
  const tone = (worthALook: boolean): string => headline({ ...quiet, verdict: "dry", worthALook }, about).tone;
  expect([tone(true), tone(false)]).toEqual(["madder", "ochre"]);
});

describe("evidence", () => {
  it("is in centimetres or inches by garden", () => {
    const evidence = [{ say: "measured", day: "2014-07-04", cm: 92, loCm: 110, hiCm: 150 }];
    expect(evidenceWords({ ...quiet, evidence }, about)).toEqual(["92 cm on 4 July, where 110 to 150 cm was likely."]);
    expect(evidenceWords({ ...quiet, evidence }, { ...about, units: "imperial" })).toEqual(["3 ft on 4 July, where 3 ft 7 in to 4 ft 11 in was likely."]);
  });
  it("counts one day of the season as one", () => {
    expect(evidenceWords({ ...quiet, evidence: [{ say: "season", days: -1.2, sd: 2.4, plants: 8 }, { say: "season", days: 6, sd: 2, plants: 1 }] }, about)).toEqual([
      "Its part of the season runs 1 day early, give or take 2, from 8 plants.", "Its part of the season runs 6 days late, give or take 2, from 1 plant.",
    ]);
  });
  it("tells a plant's own full size from its kind's, and what has been from what will be", () => {
    const range = { say: "range", day: "2014-07-04", cm: 57, loCm: 58, hiCm: 64 };
    expect(evidenceWords({ ...quiet, verdict: "reached", evidence: [range, { say: "reaches", year: 2013 }] }, about)).toEqual([
      "57 cm on 4 July; its full size is likely 58 to 64 cm.", "It came to nine tenths of its full size in 2013.",
    ]);
    expect(evidenceWords({ ...quiet, verdict: "outgrown", evidence: [range, { say: "reaches", year: 2016, yearLo: 2015, yearHi: 2018 }] }, about)).toEqual([
      "57 cm on 4 July; its kind reaches 58 to 64 cm.", "At this rate it is nine tenths of its size in 2016 (2015 to 2018).",
    ]);
  });
  it("does not say the verdict again in what suspends it", () =>
    expect(evidenceWords({ ...quiet, verdict: "suspended", evidence: [{ say: "suspended-by", what: "moved", day: "2014-03-08" }] }, about)).toEqual(["It was moved on 8 March, and that upsets its flower this year."]));
  it("leaves out what this version has no words for", () =>
    expect(evidenceWords({ ...quiet, evidence: [{ say: "moon-phase", days: 3 }, { say: "bud-on", day: "2014-07-04" }] }, about)).toEqual(["In bud on 4 July."]));
  it("leaves out a sentence whose number is missing", () =>
    expect(evidenceWords({ ...quiet, evidence: [{ say: "measured", cm: 92 }] }, about)).toEqual([]));
  it("says each check once", () => expect(checkWords({ ...quiet, check: ["light", "sun", "unheard-of"] })).toEqual(["Light: what shades it now that did not before"]));
  it("does not say the bud twice", () => {
    const evidence = [{ say: "last-look", day: "2014-07-04", what: "bud" }, { say: "bud-on", day: "2014-07-04" }];
    expect(evidenceWords({ ...quiet, evidence }, about)).toEqual(["On 4 July: in bud."]);
  });
  it("says what was seen where no stage was noted", () =>
    expect(evidenceWords({ ...quiet, evidence: [{ say: "last-look", day: "2014-07-04", what: "not-in-flower" }] }, about)).toEqual(["On 4 July: not in flower."]));
});

describe("a planting's place", () => {
  const told = (evidence: Finding["evidence"], at: Partial<About> = {}): readonly string[] => evidenceWords({ ...quiet, evidence }, { ...about, ...at });

  it("short of room says who takes it, and whether now or later", () => {
    const taken = [{ say: "room-taken", share: 0.618 }, { say: "smothered-by", what: "Choisya ternata", other: "c", share: 0.5, cm: 215, likelyCm: 90 }];
    expect(words({ verdict: "crowded", evidence: taken })).toBe("short of room");
    expect(told(taken)).toEqual([
      "Neighbours take 62 % of the room it wants, even if all stay as narrow as their kinds can.",
      "Choisya ternata takes 50 %; it grows to 215 cm, far above this one’s 90 cm.",
    ]);
    const later = [{ say: "room-will-be-taken", share: 0.5, year: 2019 }];
    expect(words({ verdict: "crowded", evidence: later })).toBe("will be short of room");
    expect(told(later)[0]).toMatch(/^By 2019, when all are grown, neighbours will take 50 %/u);
  });
  it("names frost in the garden's degrees", () => {
    const frost = [{ say: "frost-below", c: -9.4, limitC: -5, day: "2014-02-06" }, { say: "nights-below", count: 3, day: "2014-02-08" }];
    expect(told(frost)).toEqual(["−9.4 °C on 6 February; what it stands is −5 °C.", "3 nights were so cold, the last 8 February."]);
    expect(told(frost, { units: "imperial" })[0]).toBe("15 °F on 6 February; what it stands is 23 °F.");
  });
  it("asks for water by the plant and by the planting", () => {
    const dry = [{ say: "root-water", day: "2014-07-10", share: 0.7, count: 1 }, { say: "give-water", litres: 4, all: 12, plants: 3 }];
    expect(words({ verdict: "dry", evidence: dry })).toBe("dry at the root; 4 litres for each plant, 12 for all");
    expect(words({ verdict: "dry", evidence: [{ say: "give-water", litres: 1 }] })).toBe("dry at the root; it wants 1 litre");
    expect(words({ verdict: "dry" })).toBe("dry at the root");
    expect(told(dry)).toEqual(["By 10 July, 70 % of the water that its roots can reach was used up; it has gone short for 1 day."]);
  });
  it("says how far the sun is from what its kind wants, by the nearer end", () => {
    const halves = { say: "sun-halves", before: 1.27, after: 3.31 };
    expect(told([{ say: "sun-hours", hours: 4.54, loHours: 6, hiHours: 16 }, halves])).toEqual([
      "With what stands around it, it gets 4.5 hours of direct sun on a clear day while it grows; its kind wants at least 6.", "1.3 of these hours are before noon.",
    ]);
    expect(told([{ say: "sun-hours", hours: 10.8, loHours: 3, hiHours: 8 }])[0]).toMatch(/gets 10\.8 hours .* its kind likes at most 8\.$/u);
  });
});

describe("a planting in trouble", () => {
  it("says what was seen, and keeps one passing sign from sounding like it", () => {
    const evidence = [{ say: "sign", day: "2014-07-04", what: "aphid" }];
    expect(words({ verdict: "troubled", evidence, worthALook: false })).toBe("a sign noted: aphids");
    expect(words({ verdict: "troubled", evidence })).toBe("in trouble: aphids");
    const more = [...evidence, { say: "sign-again", from: "2014-06-12", day: "2014-07-04", count: 2, what: "mildew" }, { say: "sign", day: "2014-06-20", what: "aphid" }];
    expect(words({ verdict: "troubled", evidence: more })).toBe("in trouble: aphids and mildew");
    expect(evidenceWords({ ...quiet, evidence: [...evidence, { say: "sign-again", from: "2014-06-12", day: "2014-07-04", count: 2, what: "wilting-at-dawn" }] }, about))
      .toEqual(["On 4 July: aphids.", "Noted 2 times from 12 June to 4 July: wilting early in the morning."]);
  });
  it("goes by its vigour first", () => {
    const sign = { say: "sign", day: "2014-07-04", what: "aphid" };
    expect(words({ verdict: "troubled", evidence: [{ say: "vigour-falling" }, sign] })).toBe("losing vigour");
    expect(words({ verdict: "troubled", evidence: [{ say: "vigour-failing" }] })).toBe("failing");
    expect(words({ verdict: "troubled", evidence: [{ say: "lost", count: 1, of: 3 }] })).toBe("in trouble");
  });
  it("words a fall of vigour by its grades", () =>
    expect(evidenceWords({ ...quiet, evidence: [{ say: "vigour-falling", from: "2014-05-01", day: "2014-07-04", of: 5, count: 2, measures: 6 }] }, about))
      .toEqual(["From strong on 1 May to poor on 4 July, over 6 looks."]));
});

describe("the almanac's codes", () => {
  const almanac = join(dirname(fileURLToPath(import.meta.url)), "../../../almanac");
  const read = (file: string): string => readFileSync(join(almanac, file), "utf8");
  const sources = ["bloom", "growth", "trouble", "assess"].flatMap((folder) =>
    readdirSync(join(almanac, folder)).filter((file) => file.endsWith(".go") && !file.endsWith("_test.go")).map((file) => read(join(folder, file))));
  const codes = (pattern: RegExp, texts = sources): string[] => [...new Set(texts.flatMap((text) => [...text.matchAll(pattern)].map((match) => match[1]!)))];

  it("each have a sentence", () => {
    const says = codes(/\bSay: "([a-z-]+)"/gu);
    expect(says.length).toBeGreaterThan(40);
    expect(says.filter((code) => !canSay(code))).toEqual([]);
  });
  it("each have a mark and words, for a verdict", () => {
    const verdicts = codes(/\bVerdict(?: += |: )"([a-z-]+)"/gu);
    expect(verdicts.length).toBeGreaterThan(12);
    expect(verdicts.filter((verdict) => !hasWords({ ...quiet, verdict: verdict as Finding["verdict"] }))).toEqual([]);
  });
  it("each have words, for a check", () => {
    const checking = ["growth/findings.go", "growth/stalled.go", "assess/bloom.go", "assess/frost.go", "assess/life.go"].map(read);
    const lists = codes(/\[\]string\{("[a-z-]+"(?:, "[a-z-]+")*)\}/gu, checking).flatMap((list) => list.split(", ").map((quoted) => quoted.slice(1, -1)));
    const named = codes(/(?:Check(?:: +| = )|(?:always|never|Case\.[a-z]+), (?:nil|\[\]string\{[^}]*\}), )\[\]string\{("[a-z-]+"(?:, "[a-z-]+")*)\}/gu);
    const inFull = named.flatMap((list) => list.split(", ").map((quoted) => quoted.slice(1, -1)));
    const checks = [...lists, ...inFull, ...codes(/^\t\t\{"([a-z-]+)", /gmu, checking)];
    expect(checks.length).toBeGreaterThan(40);
    expect(checks.filter((code) => !canCheck(code))).toEqual([]);
  });
});

it("does not say twice what two findings of a plant share", () => {
  const small: Finding = { ...quiet, verdict: "small-for-age", evidence: [{ say: "establishing", season: 2 }], check: ["water", "roots"] };
  const [first, second] = toldTogether([small, { ...small, verdict: "stalled", check: ["water", "light"] }], about);
  expect([first!.facts.length, second!.facts.length]).toEqual([1, 0]);
  expect([first!.checks.length, second!.checks.length]).toEqual([2, 1]);
});
