import { describe, expect, it } from "vitest";
import type { Observation, Work } from "../words/records";
import { entryWords, workWords } from "./entry-words";

const entry = (fields: Partial<Observation>): Observation => ({ id: "o", ref: "observation/o", ...fields });

describe("entryWords", () => {
  it("says what was seen, in the garden's units", () => {
    expect(entryWords(entry({ stage: 61, heightCm: 81, vigour: 4, signs: ["slug"] }), "metric")).toBe("first flower · 81 cm · good · slugs, snails");
    expect(entryWords(entry({ heightCm: 81 }), "imperial")).toBe("32 in");
  });
  it("tells not in flower from nothing said", () => {
    expect(entryWords(entry({ notInFlower: true }), "metric")).toBe("not in flower");
    expect(entryWords(entry({}), "metric")).toBe("looked, nothing to note");
  });
  it("leaves a note to speak for itself", () => expect(entryWords(entry({ note: "moved the stone" }), "metric")).toBe(""));
});

it("says what was done and what was left", () => {
  const work: Work = { id: "w", ref: "work/w", what: "cut-back", heightLeftCm: 30 };
  expect(workWords(work, "metric")).toBe("cut back, 30 cm left");
});
