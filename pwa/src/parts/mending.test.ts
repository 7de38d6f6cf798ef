import { describe, expect, it } from "vitest";
import { mended, plainFields, refusedField, whyWords } from "./mending";

const fields = { planting: "lily", seen: "2015-07-10T00:21:20+00:00", heightCm: 9000, note: "tall", signs: ["slug"] };
const refused = { fields, why: "heightCm 9000 is not allowed: it must be a number from 0 to 5000" };
const whole = { fields, why: "observation/x would take 50000 bytes, and at most 40960 fit: shorten its texts" };

function typed(values: Record<string, string>): FormData {
  const form = new FormData();
  for (const [field, value] of Object.entries(values)) form.set(field, value);
  return form;
}

describe("a refused change in words", () => {
  it("knows the field and what it may be", () => expect(refusedField(refused)).toEqual({ field: "heightCm", bound: "a number from 0 to 5000" }));
  it("knows a field by the part of it that was wrong", () =>
    expect(refusedField({ fields, why: 'signs[0] "slg" is not allowed: it must be one of slug, deer' })?.field).toBe("signs"));
  it("names the field as a person does", () => {
    expect(whyWords(refused)).toBe("Height in cm: 9000 is not allowed. It must be a number from 0 to 5000.");
    expect(whyWords(refused)).not.toMatch(/heightCm/u);
  });
  it("is the server's sentence where the whole change was refused", () => expect(whyWords(whole)).toBe(whole.why));
});

describe("mending a refused change", () => {
  it("offers the refused field alone", () => expect(plainFields(refused).map(({ field, text }) => `${field}=${text}`)).toEqual(["heightCm=9000"]));
  it("offers what a person wrote, where no field is named", () => expect(plainFields(whole).map(({ field }) => field)).toEqual(["heightCm", "note"]));
  it("keeps numbers numbers and lists as they are", () =>
    expect(mended({ stage: 140, note: "tall", signs: ["slug"] }, typed({ stage: "65", note: "tall" }))).toEqual({ stage: 65, note: "tall", signs: ["slug"] }));
  it("takes a decimal comma", () => expect(mended({ heightCm: 1 }, typed({ heightCm: "81,5" }))).toEqual({ heightCm: 81.5 }));
  it("clears what was emptied", () => expect(mended({ stage: 140 }, typed({ stage: " " }))).toMatchObject({ stage: null }));
});

it("says why a change was put aside that the server would not even read", () => {
  expect(whyWords({ code: "too-large", why: "", fields: { note: "x" } })).toBe("It is larger than the server takes.");
  expect(whyWords({ code: "too-large", why: "at most 10 bytes", fields: {} })).toBe("It is larger than the server takes. (at most 10 bytes)");
  expect(whyWords({ code: "role_helper", why: "A helper may not.", fields: {} })).toBe("A helper may not.");
});
