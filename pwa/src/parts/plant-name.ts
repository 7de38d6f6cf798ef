// How a botanical name is printed: genus and epithets in italics; cultivar
// epithets upright in single quotes; ×, rank terms, Groups, authors and selling
// names upright. A name that does not begin like a genus is somebody's own words
// and stands upright whole.
//
// After the International Code of Nomenclature for Cultivated Plants, 9th edition
// (2016), and for × the Shenzhen Code (2018), article H.3.

export type NamePart = Readonly<{ text: string; style: "latin" | "upright" | "selling" }>;

/** Stand upright, and an epithet follows them. */
const RANKS = new Set(["subsp.", "ssp.", "var.", "subvar.", "f.", "fo.", "forma", "subf.", "nothosubsp.", "nothovar.", "nothof.", "convar."]);

/** Stand upright and change nothing. */
const OTHERS = new Set(["sp.", "spp.", "cf.", "aff.", "agg.", "cv.", "hort.", "auct.", "ex", "et", "in", "&", "of", "hybrid", "hybrids"]);

/** Splits a name into what is printed in one style. The texts joined are the name, its spaces single, its quotes and its × proper. */
export function nameParts(name: string): readonly NamePart[] {
  const reader = new Reader();
  const words = name.trim().split(/\s+/u).filter(Boolean).map((word) => signApart(word).map((piece) => reader.read(piece)));
  return merge(words);
}

/** The name as plain text, with proper quotes, for titles and labels. */
export function plainName(name: string): string {
  return nameParts(name).map(({ text }) => text).join("");
}

/** Walks the words of a name and knows what may come next; it begins before the genus. */
class Reader {
  #genus = false; // a genus was read, and an epithet may follow
  #hybrid = false; // a hybrid sign was read last: a genus or an epithet may follow
  #upright = false; // in a cultivar, Group or author, until a rank or a hybrid sign
  #quoted = false; // between the quotes of a cultivar, where nothing else counts

  read(word: string): NamePart {
    const opens = /^\(?['‘]/u.test(word);
    if (this.#quoted || opens) return this.#cultivar(word);
    if (/^[×+x]$/u.test(word)) return this.#sign(word);
    if (this.#genus && RANKS.has(word)) {
      this.#upright = false;
      return { text: word, style: "upright" };
    }
    if (shouted(word) && this.#genus) return { text: word, style: "selling" };
    if (this.#upright || (this.#genus && OTHERS.has(word))) return { text: word, style: "upright" };
    return this.#latin(word);
  }

  #cultivar(word: string): NamePart {
    const begins = !this.#quoted;
    this.#quoted = !(word.replace(/[),;]+$/u, "").length > 1 && /['’][),;]*$/u.test(word) && !/^\(?['‘]$/u.test(word));
    this.#upright = true;
    const opened = begins ? word.replace(/^(\(?)'/u, "$1‘") : word;
    return { text: opened.replaceAll("'", "’"), style: "upright" };
  }

  #sign(word: string): NamePart {
    this.#hybrid = true;
    this.#upright = false;
    return { text: word === "x" && this.#genus ? "×" : word, style: "upright" };
  }

  /** A word that may be a genus or an epithet; what is neither begins an upright stretch. */
  #latin(word: string): NamePart {
    const genus = (!this.#genus || this.#hybrid) && /^\p{Lu}/u.test(word) && !shouted(word);
    const epithet = this.#genus && /^\p{Ll}/u.test(word);
    this.#genus ||= genus;
    this.#hybrid = false;
    this.#upright = !genus && !epithet;
    return { text: word, style: genus || epithet ? "latin" : "upright" };
  }
}

/** Selling names are written in capitals, two letters or more; one letter with a stop is an author or a shortened genus. */
function shouted(word: string): boolean {
  return /^\p{Lu}{2,}[),;]*$/u.test(word);
}

/** "×magnificum" is a sign and an epithet. */
function signApart(word: string): readonly string[] {
  return word.length > 1 && word.startsWith("×") ? ["×", word.slice(1)] : [word];
}

/** Joins neighbours of one style; a space between two of one style takes it, any other is upright. */
function merge(words: readonly (readonly NamePart[])[]): readonly NamePart[] {
  const merged: NamePart[] = [];
  const add = (part: NamePart): void => {
    const last = merged.at(-1);
    if (last?.style === part.style) merged[merged.length - 1] = { text: last.text + part.text, style: part.style };
    else merged.push(part);
  };
  words.forEach((word, at) => {
    const last = merged.at(-1)?.style;
    if (at > 0) add({ text: " ", style: last !== undefined && last === word[0]!.style ? last : "upright" });
    word.forEach(add);
  });
  return merged;
}
