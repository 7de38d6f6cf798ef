import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { WorthReason } from "../almanac/answers";
import { worthWords } from "./worth-words";

const when = { today: "2014-07-11", locale: "en-GB" };
const words = (code: string, day?: string): string | null => worthWords({ code: code as WorthReason["code"], gain: 0.2, ...(day && { day }) }, when);

const source = readFileSync(join(import.meta.dirname, "../../../almanac/assess/worth.go"), "utf8");
const codes = [...new Set([...source.matchAll(/\bCode(?:: |(?:, reason\.\w+)+ = )"([a-z-]+)"/gu)].map((match) => match[1]!))];

describe("why a look is worth while", () => {
  it("has a sentence for each code of the almanac, with a day and without, no two alike", () => {
    expect(codes.length).toBeGreaterThan(4);
    const said = codes.flatMap((code) => [words(code, "2014-07-04"), words(code)]);
    expect(said.every((sentence) => sentence)).toBe(true);
    expect(new Set(said).size).toBe(said.length);
    for (const code of codes) expect(words(code, "2014-07-04"), code).toContain("4 July");
  });
  it("calls nothing late that nobody looked at", () => {
    for (const code of codes) expect(words(code), code).not.toMatch(/\blate\b/u);
  });
  it("says nothing of a code of a newer almanac", () => expect(words("full-moon")).toBeNull());
});
