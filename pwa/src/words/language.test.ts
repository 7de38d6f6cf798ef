import { afterEach, describe, expect, it, vi } from "vitest";
import { chooseLanguage, chosenLanguage, languageOf, localeOf } from "./language";

describe("the language of a phone", () => {
  it.each([
    [["fr-CA", "en-CA"], "fr"],
    [["de-DE", "fr", "en"], "fr"],
    [["de-DE"], "en"],
    [["EN-us"], "en"],
    [[], "en"],
  ] as const)("for %j is %s", (wanted, language) => expect(languageOf(wanted)).toBe(language));

  it("writes dates as the phone does, where the phone knows the language", () => {
    expect(localeOf("en", ["de-DE", "en-US", "en-GB"])).toBe("en-US");
    expect(localeOf("fr", ["en-GB"])).toBe("fr");
  });
});

describe("a choice of language", () => {
  afterEach(() => vi.unstubAllGlobals());

  it("is kept, and given up again", () => {
    const held = new Map<string, string>();
    vi.stubGlobal("localStorage", { getItem: (key: string) => held.get(key) ?? null, setItem: (key: string, value: string) => held.set(key, value), removeItem: (key: string) => held.delete(key) });
    expect(chosenLanguage()).toBeNull();
    chooseLanguage("fr");
    expect(chosenLanguage()).toBe("fr");
    chooseLanguage(null);
    expect(chosenLanguage()).toBeNull();
    held.set("haulm.language", "xx");
    expect(chosenLanguage()).toBeNull();
  });
});
