// The catalogue of texts: both languages say everything, with the same things
// filled in and every form that a number can ask for, and French is French.

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import * as english from "../paraglide/messages/en.js";
import * as french from "../paraglide/messages/fr.js";
import { type Language, languages } from "./language";

type Choice = Readonly<{ declarations: readonly string[]; selectors: readonly string[]; match: Readonly<Record<string, string>> }>;
type Catalogue = Readonly<Record<string, string | readonly Choice[]>>;
type Compiled = Readonly<Record<string, (inputs: Record<string, unknown>) => string>>;

const read = (language: Language): Catalogue => JSON.parse(readFileSync(join(import.meta.dirname, `../../messages/${language}.json`), "utf8")) as Catalogue;
const texts: Readonly<Record<Language, Catalogue>> = { en: read("en"), fr: read("fr") };
const compiled = { en: english, fr: french } as unknown as Readonly<Record<Language, Compiled>>;
const keys = Object.keys(texts.en);

const variants = (entry: Catalogue[string] | undefined): readonly string[] =>
  entry === undefined ? [] : typeof entry === "string" ? [entry] : entry.flatMap(({ match }) => Object.values(match));
const placeholders = (entry: Catalogue[string] | undefined): readonly string[] =>
  [...new Set(variants(entry).flatMap((text) => text.match(/\{\w+\}/gu) ?? []))].sort();
const said = (language: Language): readonly (readonly [key: string, text: string])[] =>
  keys.flatMap((key) => variants(texts[language][key]).map((text) => [key, text] as const));

/** The words of a text, without what is filled in. */
const wordsOf = (text: string): readonly string[] => text.replaceAll(/\{\w+\}/gu, " ").toLowerCase().match(/\p{L}+/gu) ?? [];
const holding = (language: Language, words: readonly string[]) => said(language).filter(([, text]) => wordsOf(text).some((word) => words.includes(word)));

/** Counts below a million: the next form that French knows begins there, and nothing here is counted so far. */
const counts = [0, 1, 2, 3, 5, 11, 21, 100, 101, 1.5];

/** Words and signs that both languages write alike. */
const shared = new Set(["litres", "gallons", "haulm", "cm", "mm", "m", "c", "f", "a", "us", "letter", "note", "notes", "photo", "photos", "code", "original", "certain", "possible", "plan", "qr", "orange", "ph", "drainage"]);

describe("the catalogue", () => {
  it("has the same texts in both languages", () => {
    expect(Object.keys(texts.fr).filter((key) => !(key in texts.en)), "only in French").toEqual([]);
    expect(keys.filter((key) => !(key in texts.fr)), "without French").toEqual([]);
  });

  it("fills the same things in", () => {
    const differ = keys.filter((key) => placeholders(texts.en[key]).join() !== placeholders(texts.fr[key]).join());
    expect(differ).toEqual([]);
  });

  it.each(languages)("has in %s a form for every number", (language) => {
    for (const key of keys.filter((each) => typeof texts[language][each] !== "string")) {
      const names = [...JSON.stringify(texts[language][key]).matchAll(/input (\w+)|\{(\w+)\}/gu)].map(([, input, filled]) => input ?? filled!);
      for (const count of counts) {
        const inputs = Object.fromEntries(names.map((name) => [name, count]));
        expect(compiled[language][key]!(inputs), `${key} of ${count}`).not.toBe(key);
      }
    }
  });

  it("counts the way French does: none and one and a half are singular", () => {
    expect(compiled.fr.count_notes!({ count: 0 })).toBe("0 note");
    expect(compiled.fr.count_notes!({ count: 1.5 })).toBe("1.5 note");
    expect(compiled.en.count_notes!({ count: 0 })).toBe("0 notes");
  });

  it("says of the last one of a bed no number", () => {
    for (const text of [compiled.en.rest_nothing!, compiled.en.rest_not_in_flower!, compiled.fr.rest_nothing!]) {
      expect(text({ count: 1 })).not.toMatch(/\d/u);
      expect(text({ count: 2 })).toMatch(/2/u);
    }
  });
});

describe("the French", () => {
  it("is not the English text", () => {
    const same = keys.filter((key) => JSON.stringify(variants(texts.en[key])) === JSON.stringify(variants(texts.fr[key])));
    expect(same.filter((key) => variants(texts.fr[key]).some((text) => wordsOf(text).some((word) => !shared.has(word))))).toEqual([]);
  });

  it("holds no English", () => {
    expect(holding("fr", ["the", "and", "of", "with", "this", "that", "is", "are", "not", "it", "you", "your", "for", "from", "when", "what"])).toEqual([]);
  });

  it("sets its signs as French printers do", () => {
    const loose = /[^\u202f\s][;!?»]|[^\u202f\d\s]:(?!\/\/)| [:;!?%»]|«[^\u202f]|\p{L}'\p{L}|"|\.\.\./u;
    expect(said("fr").filter(([, text]) => loose.test(text))).toEqual([]);
  });

  it("speaks to people as vous", () => {
    expect(holding("fr", ["tu", "ton", "tes", "toi", "ta"])).toEqual([]);
  });
});
