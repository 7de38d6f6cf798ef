import { describe, expect, it } from "vitest";
import { mended, plainFields } from "./mending";

const fields = { stage: 140, note: "tall", signs: ["slug"] };

function typed(values: Record<string, string>): FormData {
  const form = new FormData();
  for (const [field, value] of Object.entries(values)) form.set(field, value);
  return form;
}

describe("mending a refused change", () => {
  it("offers what can be typed", () => expect(plainFields(fields).map(({ field, text }) => `${field}=${text}`)).toEqual(["stage=140", "note=tall"]));
  it("keeps numbers numbers and lists as they are", () =>
    expect(mended(fields, typed({ stage: "65", note: "tall" }))).toEqual({ stage: 65, note: "tall", signs: ["slug"] }));
  it("takes a decimal comma", () => expect(mended({ heightCm: 1 }, typed({ heightCm: "81,5" }))).toEqual({ heightCm: 81.5 }));
  it("clears what was emptied", () => expect(mended(fields, typed({ stage: " ", note: "tall" }))).toMatchObject({ stage: null }));
});
