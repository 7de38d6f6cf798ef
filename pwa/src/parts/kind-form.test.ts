import { describe, expect, it } from "vitest";
import { bloomSet, kindName, kindTyped, lightChoices, lightOf, lightSet, typedFields } from "./kind-form";

function form(values: Record<string, string>): FormData {
  const data = new FormData();
  for (const [name, value] of Object.entries(values)) data.set(name, value);
  return data;
}

describe("an own kind", () => {
  it("needs its name alone", () => expect(kindTyped(form({ name: "rosa 'Gatepost Pink'" }), "metric")).toEqual({ set: { name: "Rosa ‘Gatepost Pink’" }, wrong: {} }));

  it("is read from all that a label says", () => {
    const label = { name: "Salvia ‘Teasel Bank’", common: "sage, clary ", heightCm: "60-90cm", spreadCm: "45", minWinterC: "H5", habit: "perennial", light: "sun-part", from: "06", to: "02" };
    expect(kindTyped(form(label), "metric")).toEqual({ wrong: {}, set: {
      name: "Salvia ‘Teasel Bank’", common: ["sage", "clary"], heightCm: [60, 90], spreadCm: [36, 45], minWinterC: -15, habit: "perennial", sunHours: [3, 12],
      bloom: [{ from: "06-01", to: "02-28", needs: "" }],
    } });
  });

  it.each([["heightCm", { heightCm: "tall" }], ["minWinterC", { minWinterC: "hardy" }], ["to", { from: "06" }], ["from", { to: "06" }]])("says at %s what cannot be read: %o", (field, typed) => {
    expect(Object.keys(kindTyped(form({ name: "Rosa", ...typed }), "metric").wrong)).toEqual([field]);
  });

  it("keeps the later flushes when the first is changed", () => {
    const second = { from: "09-01", to: "10-01", needs: "deadhead" } as const;
    expect(bloomSet("05", "06", { bloom: [{ from: "06-01", to: "06-30", needs: "" }, second] }).bloom).toEqual([{ from: "05-01", to: "06-30", needs: "" }, second]);
  });

  it("knows its own word for the light again", () => {
    for (const code of ["sun", "part-shade", "any"]) expect(lightOf({ sunHours: lightSet(code).sunHours! })).toBe(code);
    expect(lightOf({})).toBe("");
  });

  it("can be of unknown light again, be it of a label's word or of its own hours", () => {
    for (const sunHours of [[6, 12], [2, 8]] as const) {
      const codes = lightChoices({ sunHours }).map(([code]) => code);
      expect(codes).toContain(lightOf({ sunHours }));
      expect(codes.filter((code) => lightSet(code).sunHours === null && code !== lightOf({ sunHours }))).toEqual([""]);
    }
  });

  it("is cleared by an emptied field", () => expect(typedFields[1]!.read("", "metric")).toEqual({ heightCm: null }));
});

it.each([["geranium x magnificum", "Geranium × magnificum"], ["  Rosa  'Félicité' ", "Rosa ‘Félicité’"], ["Iris", "Iris"]])("%s is written %s", (typed, name) => expect(kindName(typed)).toBe(name));
