// How a botanical name is printed: Latin in italics; cultivar epithets upright in
// single quotes; ×, rank terms, Group names and selling names upright. After the
// International Code of Nomenclature for Cultivated Plants, 9th edition (2016),
// articles 14, 15, 17 and recommendation 8A, and the Shenzhen Code, article H.3 (×).

export type NamePart = Readonly<{ text: string; style: "latin" | "upright" | "cultivar" | "selling" }>;

// Rank terms and the like end in a full stop ("subsp.", "var.", "hort.") and stand upright too.
const CONNECTING = new Set(["×", "+", "Group", "Grex", "hybrids", "hybrid", "of"]);

// A cultivar epithet runs to the quote that ends a word, so that 'Jeanne d'Arc' is one.
const CULTIVAR = /[‘']([^‘]+?)[’'](?=[\s),]|$)/u;

/** Splits a name into what is printed in one style; spaces between parts are kept in the text. */
export function nameParts(name: string): readonly NamePart[] {
  const cultivar = CULTIVAR.exec(name);
  if (!cultivar) return merge(name.split(/(\s+)/u).filter(Boolean).map(wordPart));
  const before = name.slice(0, cultivar.index);
  const after = name.slice(cultivar.index + cultivar[0].length);
  const epithet: NamePart = { text: `‘${cultivar[1]!.replaceAll("'", "’")}’`, style: "cultivar" };
  return [...nameParts(before), epithet, ...nameParts(after)];
}

/** The name as plain text, with proper quotes, for titles and labels. */
export function plainName(name: string): string {
  return nameParts(name).map((part) => part.text).join("");
}

function wordPart(word: string, at: number, words: readonly string[]): NamePart {
  const text = word === "x" && at > 0 ? "×" : word;
  return { text, style: styleOf(text, at, words) };
}

function styleOf(text: string, at: number, words: readonly string[]): NamePart["style"] {
  if (/^\s+$/u.test(text)) return "upright";
  if (/^\p{Lu}{2,}/u.test(text)) return "selling";
  if (CONNECTING.has(text) || /[()]|\.$/u.test(text)) return "upright";
  const beforeGroup = /^(Group|Grex)\)?$/u.test(words[at + 2] ?? "");
  return beforeGroup ? "upright" : "latin";
}

/** Joins neighbours of one style; a space takes the style of what stands before it. */
function merge(parts: readonly NamePart[]): readonly NamePart[] {
  const merged: NamePart[] = [];
  for (const part of parts) {
    const last = merged.at(-1);
    const style = part.text.trim() ? part.style : (last?.style ?? part.style);
    if (last?.style === style) merged[merged.length - 1] = { text: last.text + part.text, style };
    else merged.push({ text: part.text, style });
  }
  return merged;
}
