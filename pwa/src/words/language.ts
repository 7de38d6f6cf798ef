/**
 * The language that people read on this phone, and the locale that dates and
 * numbers are written in: what was chosen here, or else the first of the phone's
 * languages that Haulm has.
 */
export const languages = ["en", "fr"] as const;
export type Language = (typeof languages)[number];

/** Each in its own words, so that whoever cannot read the present one finds theirs. */
export const languageNames: Readonly<Record<Language, string>> = { en: "English", fr: "Français" };

const KEY = "haulm.language";

/** What was chosen on this phone, or null: the phone's own. */
export function chosenLanguage(): Language | null {
  return languages.find((language) => language === localStorage.getItem(KEY)) ?? null;
}

/** Takes effect when the app is next opened. */
export function chooseLanguage(language: Language | null): void {
  if (language) localStorage.setItem(KEY, language);
  else localStorage.removeItem(KEY);
}

/** The first of the wanted languages (BCP 47 tags, best first) that Haulm has; English where it has none. */
export function languageOf(wanted: readonly string[]): Language {
  const found = wanted.map((tag) => languages.find((language) => language === primary(tag))).find(Boolean);
  return found ?? "en";
}

/** The first of the phone's locales in a language, for its way of writing dates: "en-US" and "en-GB" differ. */
export function localeOf(language: Language, wanted: readonly string[]): string {
  return wanted.find((tag) => primary(tag) === language) ?? language;
}

function primary(tag: string): string {
  return tag.toLowerCase().split("-")[0]!;
}

let written: string | undefined;

/** The locale of all dates, numbers and lists; before it is set, and in tests, the machine's own. */
export function locale(): string | undefined {
  return written;
}

export function setLocale(tag: string): void {
  written = tag;
}
