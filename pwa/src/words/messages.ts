/**
 * The texts of one language. Screens import `m` from paraglide/messages.js; when
 * the app is built that name leads here (build/one-language.ts), so that a phone
 * fetches only the language it shows before its first screen. Both are kept for
 * use with no network.
 */
import type { m as Texts } from "../paraglide/messages.js";
import type { Language } from "./language";

type Words = typeof Texts;

const files: Readonly<Record<Language, () => Promise<unknown>>> = {
  en: () => import("../paraglide/messages/en.js"),
  fr: () => import("../paraglide/messages/fr.js"),
};

let spoken: Words | null = null;

/** Looked up when asked for: a table of texts may be written before they are here, as long as none is read aloud. */
export const m: Words = new Proxy({} as Words, {
  get: (_, name: string) => (inputs: never) => text(name)(inputs),
});

function text(name: string): (inputs: never) => string {
  const found = spoken?.[name as keyof Words];
  if (!found) throw new Error(`no text is named ${name}, or none was fetched yet`);
  return found as (inputs: never) => string;
}

/** Fetches a language's texts and gives the language there is: the other one where this one cannot be had. */
export async function fetchWords(language: Language): Promise<Language> {
  try {
    spoken = (await files[language]()) as Words;
    return language;
  } catch {
    const other = language === "en" ? "fr" : "en";
    spoken = (await files[other]()) as Words;
    return other;
  }
}
