import { describe, expect, it } from "vitest";
import { hardinessText, hardinessTyped, sizeText, sizeTyped } from "./label-values";

describe("a size as labels print it", () => {
  it.each([
    ["90", "metric", [72, 90]], ["90cm", "metric", [72, 90]], ["60-90 cm", "metric", [60, 90]], ["60–90", "metric", [60, 90]], ["0.5 to 1 m", "metric", [50, 100]], ["1,5 m", "metric", [120, 150]],
    ["50 cm – 1 m", "metric", [50, 100]], ["36", "imperial", [73, 91]], ["3 ft", "metric", [73, 91]], ["2 ft 6 in", "metric", [61, 76]], ["2–3 ft", "imperial", [61, 91]], ["18″", "metric", [37, 46]], ["80 cm", "imperial", [64, 80]],
  ] as const)("%s in a %s garden", (text, units, cm) => expect(sizeTyped(text, units)).toEqual(cm));

  it.each(["", "tall", "90–60", "0", "90 km", "60 m", "-5"])("“%s” cannot be read", (text) => expect(sizeTyped(text, "metric")).toBeNull());

  it("is written back as it was typed", () => {
    for (const text of ["90", "60–90"]) expect(sizeText(sizeTyped(text, "metric")!, "metric")).toBe(text);
    expect(sizeText(sizeTyped("24–36", "imperial")!, "imperial")).toBe("24–36");
    expect(sizeText(undefined, "metric")).toBe("");
  });
});

describe("hardiness as labels print it", () => {
  it.each([
    ["H5", "metric", -15], ["h1c", "metric", 5], ["H 7", "imperial", -20], ["zone 7", "metric", -17.8], ["USDA zone 7b", "imperial", -15], ["Zone 1", "metric", -51.1],
    ["-15 °C", "imperial", -15], ["−15", "metric", -15], ["5 °F", "metric", -15], ["5", "imperial", -15], ["- 12,5", "metric", -12.5],
  ] as const)("%s in a %s garden is %d °C", (text, units, celsius) => expect(hardinessTyped(text, units)).toBe(celsius));

  it.each(["", "hardy", "H9", "zone 14", "-80"])("“%s” cannot be read", (text) => expect(hardinessTyped(text, "metric")).toBeNull());

  it("is written back in the garden's unit", () => {
    expect([hardinessText(-15, "metric"), hardinessText(-15, "imperial"), hardinessText(undefined, "metric")]).toEqual(["−15 °C", "5 °F", ""]);
    expect(hardinessTyped(hardinessText(-15, "imperial"), "imperial")).toBe(-15);
  });
});
