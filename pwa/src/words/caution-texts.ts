/**
 * The catalogue's cautions are written in English. Other languages have each
 * sentence in a file of its own, fetched where cautions are first read and kept
 * with the app for use without a network.
 */
import type { Language } from "./language";

export type CautionTexts = Readonly<Record<string, string>>;

const files: Readonly<Partial<Record<Language, () => Promise<{ default: CautionTexts }>>>> = {
  fr: () => import("../../messages/cautions/fr.json"),
};

/** Sentences by what they are in English; none for English, and where they could not be fetched: a caution in English is better than none. */
export async function cautionTexts(language: Language): Promise<CautionTexts> {
  return (await files[language]?.().catch(() => null))?.default ?? {};
}
