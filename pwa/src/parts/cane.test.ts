import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { CaneAnswer } from "../almanac/cane";
import { caneQuestion, isCane, nextPoint, nudged, pointAt, type Placed } from "./cane";

const sheet = { width: 1200, height: 1600, drawnWidth: 300 };
const box = { left: 10, top: 20, width: 300, height: 400 } as DOMRect;
const placed: Placed = { caneFoot: [100, 1000], caneTop: [100, 500], plantFoot: [400, 1000], plantTop: [400, 100] };

describe("points in a photograph", () => {
  it("are where they were tapped, in the picture's own pixels", () => {
    expect(pointAt({ clientX: 160, clientY: 120 }, box, sheet)).toEqual([600, 400]);
    expect(pointAt({ clientX: 0, clientY: 9999 }, box, sheet)).toEqual([0, 1600]);
  });
  it("move by a pixel of the screen and stay in the picture", () => {
    expect(nudged([600, 400], [1, -1], sheet)).toEqual([604, 396]);
    expect(nudged([0, 1600], [-1, 1], sheet)).toEqual([0, 1600]);
    expect(nudged(undefined, [0, 0], sheet)).toEqual([600, 800]);
  });
  it("follow each other, and the last one stays when all are placed", () => {
    expect(nextPoint("caneFoot", { caneFoot: [1, 1] })).toBe("caneTop");
    expect(nextPoint("plantTop", { plantTop: [1, 1] })).toBe("caneFoot");
    expect(nextPoint("plantTop", placed)).toBe("plantTop");
  });
  it("make a question only when all is there", () => {
    expect(caneQuestion({ ...placed, plantTop: undefined } as unknown as Placed, 100, sheet)).toBeNull();
    expect(caneQuestion(placed, null, sheet)).toBeNull();
    expect(caneQuestion(placed, 100, sheet)).toEqual({ caneCm: 100, ...placed, pixelError: 8 });
  });
});

it("takes for a cane what the almanac does", () => {
  expect([9.9, 10, 1000, 1001, Number.NaN].map(isCane)).toEqual([false, true, true, false, false]);
});

it("asks and hears as the almanac's golden answers do", () => {
  const path = join(import.meta.dirname, "../../../almanac/verbs/testdata/answers.jsonl");
  const golden = readFileSync(path, "utf8").trim().split("\n").map((line) => JSON.parse(line) as { verb: string; in: string; answer?: string });
  const all = golden.filter(({ verb, answer }) => verb === "height-from-photo" && answer);
  expect(all.length).toBeGreaterThan(2);
  const asked = new Set(all.flatMap((one) => Object.keys(JSON.parse(one.in) as object)));
  expect(Object.keys(caneQuestion(placed, 100, sheet)!).filter((field) => !asked.has(field))).toEqual([]);
  for (const { answer } of all) expect(Object.keys(JSON.parse(answer!) as CaneAnswer).sort()).toEqual(["assumed", "errorCm", "heightCm"]);
});
