import { describe, expect, it } from "vitest";
import type { Planting } from "../words/records";
import { lettersOf, lettersTyped, readCode, withLetters } from "./label-code";

const planting = (id: string): Planting => ({ id, ref: `planting/${id}` });
const ids = Array.from({ length: 5000 }, (_, i) => `019281c4-7a10-7000-8000-${i.toString(16).padStart(12, "0")}`);

describe("the letters of a label", () => {
  it("are always the same six for a planting: a label is printed once", () => {
    expect(lettersOf("door-lavender")).toBe("06Y XWF");
    expect(lettersOf(ids[0]!)).toMatch(/^[0-9A-HJKMNP-TV-Z]{3} [0-9A-HJKMNP-TV-Z]{3}$/u);
  });
  it("tell the plantings of a large garden apart", () => expect(new Set(ids.map(lettersOf)).size).toBeGreaterThan(4995));
  it("are read however they are typed", () => {
    const said = "A1B 0C2";
    for (const typed of ["A1B0C2", "a1b 0c2", "aIb-Oc2", " alb.oc2 "]) expect(lettersTyped(typed), typed).toBe(said);
    for (const typed of ["", "A1B0C", "A1B0C22", "A1B0CU", "A1B0C!"]) expect(lettersTyped(typed), typed).toBeNull();
  });
  it("find their planting, and no other", () => {
    const all = ids.slice(0, 500).map(planting);
    expect(withLetters(lettersOf(ids[77]!), all).map(({ id }) => id)).toEqual([ids[77]]);
    expect(withLetters("000 000", all)).toEqual([]);
  });
});

describe("readCode", () => {
  const knows = (id: string): boolean => id === "rose/1";
  it.each(["https://garden.example/planting/rose%2F1", "http://192.168.1.5:8080/planting/rose%2F1"])("opens %s, whatever the server's address was then", (text) =>
    expect(readCode(text, knows)).toEqual({ what: "planting", id: "rose/1" }));
  it("knows a label of another garden", () => expect(readCode("https://elsewhere.example/planting/oak", knows)).toEqual({ what: "foreign" }));
  it.each(["https://garden.example/plants", "WIFI:S:shed;;", "javascript:alert(1)//planting/rose", "5012345678900", ""])("says that %s is no label", (text) => expect(readCode(text, knows)).toEqual({ what: "not-a-label" }));
});
