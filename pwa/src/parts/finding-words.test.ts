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
  it("says so in its evidence, and says nothing of lateness there", () => {
    const evidence = evidenceWords({ ...quiet, ...unseen, evidence: [{ say: "no-look-since", day: "2014-06-12" }] }, about);
    expect(evidence).toEqual(["Nobody has looked since 12 June, so nothing is said of its flower."]);
  });
});

describe("every verdict", () => {
  const verdicts = [
    "early", "on-time", "due", "later-than-the-book", "far-early", "no-flower-seen", "needs-a-look", "establishing", "suspended", "dormant",
    "no-expectation", "not-up", "small-for-age", "stalled", "reached", "outgrown",
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

describe("evidence", () => {
  it("is in centimetres or inches by garden", () => {
    const evidence = [{ say: "measured", day: "2014-07-04", cm: 92, loCm: 110, hiCm: 150 }];
    expect(evidenceWords({ ...quiet, evidence }, about)).toEqual(["92 cm on 4 July, where 110 to 150 cm was likely."]);
    expect(evidenceWords({ ...quiet, evidence }, { ...about, units: "imperial" })).toEqual(["3 ft on 4 July, where 3 ft 7 in to 4 ft 11 in was likely."]);
  });
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

describe("the almanac's codes", () => {
  const almanac = join(dirname(fileURLToPath(import.meta.url)), "../../../almanac");
  const read = (file: string): string => readFileSync(join(almanac, file), "utf8");
  const sources = ["bloom", "growth", "assess"].flatMap((folder) =>
    readdirSync(join(almanac, folder)).filter((file) => file.endsWith(".go") && !file.endsWith("_test.go")).map((file) => read(join(folder, file))));
  const codes = (pattern: RegExp, texts = sources): string[] => [...new Set(texts.flatMap((text) => [...text.matchAll(pattern)].map((match) => match[1]!)))];

  it("each have a sentence", () => {
    const says = codes(/\bSay: "([a-z-]+)"/gu);
    expect(says.length).toBeGreaterThan(15);
    expect(says.filter((code) => !canSay(code))).toEqual([]);
  });
  it("each have a mark and words, for a verdict", () => {
    const verdicts = codes(/\bVerdict(?: += |: )"([a-z-]+)"/gu);
    expect(verdicts.length).toBeGreaterThan(5);
    expect(verdicts.filter((verdict) => !hasWords({ ...quiet, verdict: verdict as Finding["verdict"] }))).toEqual([]);
  });
  it("each have words, for a check", () => {
    const checking = ["growth/findings.go", "growth/stalled.go", "assess/bloom.go"].map(read);
    const lists = codes(/\[\]string\{("[a-z-]+"(?:, "[a-z-]+")*)\}/gu, checking).flatMap((list) => list.split(", ").map((quoted) => quoted.slice(1, -1)));
    const checks = [...lists, ...codes(/^\t\t\{"([a-z-]+)", /gmu, checking)];
    expect(checks.length).toBeGreaterThan(15);
    expect(checks.filter((code) => !canCheck(code))).toEqual([]);
  });
});

it("does not say twice what two findings of a plant share", () => {
  const small: Finding = { ...quiet, verdict: "small-for-age", evidence: [{ say: "establishing", season: 2 }], check: ["water", "roots"] };
  const [first, second] = toldTogether([small, { ...small, verdict: "stalled", check: ["water", "light"] }], about);
  expect([first!.facts.length, second!.facts.length]).toEqual([1, 0]);
  expect([first!.checks.length, second!.checks.length]).toEqual([2, 1]);
});
