/** How words of plant names are told alike: written plainly, by their sound, and by what a hurried thumb gets wrong. */

const letters: Readonly<Record<string, string>> = { ß: "ss", æ: "ae", œ: "oe", ø: "o", ł: "l", đ: "d" };

/** Words that say how names stand together, and name nothing: the hybrid sign, ranks, "of gardens". */
const between = new Set(["x", "subsp", "ssp", "var", "cv", "hort"]);

/** The words of a name in plain small letters: no accents, no quotes, and what stands in one piece in one piece ("lady’s" is "ladys"). */
export function wordsOf(text: string): string[] {
  const plain = text.normalize("NFD").replace(/[\p{Mn}'‘’ʼ`´]/gu, "").toLowerCase().replace(/[ßæœøłđ]/gu, (letter) => letters[letter]!);
  return plain.split(/[^\p{L}\p{N}]+/u).filter((word) => word !== "" && !between.has(word));
}

/**
 * Rules of sound, one after another: what is said alike in English gardeners'
 * Latin is written alike (a choice of ours, from the misspellings of the test).
 */
const sounds: readonly (readonly [RegExp, string])[] = [
  [/ph/gu, "f"], [/([rtckg])h/gu, "$1"], [/sch/gu, "sc"], [/(?<=.)h/gu, ""],
  [/[ao]e/gu, "e"], [/y/gu, "i"], [/x/gu, "cs"], [/ck|k|q/gu, "c"], [/z/gu, "s"], [/w/gu, "v"],
  [/c(?=[ei])/gu, "s"], [/g(?=[ei])/gu, "j"], [/(.)\1+/gu, "$1"],
];

/** How a plain word sounds, in letters. */
export function soundOf(word: string): string {
  return sounds.reduce((sound, [what, by]) => sound.replace(what, by), word);
}

const vowels = new Set("aeiou");
const WRONG_VOWEL = 0.5; // the commonest slip in a name that was heard, so half an error

/** Errors that a word may have, by the letters of its sound: none in the shortest, or "fir" would find "fig" (choices of ours). */
export function mostErrors(length: number): number {
  if (length < 4) return 0;
  return length < 6 ? 1 : length < 9 ? 2 : 3;
}

/** Which consonants a word has, one bit each. */
export function consonantsOf(word: string): number {
  let bits = 0;
  for (let i = 0; i < word.length; i++) if (!vowels.has(word[i]!)) bits |= 1 << (word.charCodeAt(i) & 31);
  return bits;
}

/** Whether more than `most` consonants of the one are not in the other, and so as many errors: soon told, and true of most words. */
export function farApart(one: number, other: number, most: number): boolean {
  let [missing, count] = [one & ~other, 0];
  for (; missing !== 0; missing &= missing - 1) count += 1;
  return count > most;
}

const LONGEST = 40; // letters of a word that are compared; no name has more
const rows: [Float64Array, Float64Array, Float64Array] = [new Float64Array(LONGEST + 1), new Float64Array(LONGEST + 1), new Float64Array(LONGEST + 1)];

/**
 * What is wrong in `typed` against `meant`: letters more, fewer, other or swapped
 * with their neighbour, one error each, a wrong vowel half of one. `beginning`:
 * against the likest beginning of `meant`. Infinity above `most`. It is the
 * optimal string alignment distance (Damerau 1964, restricted).
 */
export function errorsIn(typed: string, meant: string, most: number, beginning = false): number {
  if (typed.length - meant.length > most || (!beginning && meant.length - typed.length > most)) return Number.POSITIVE_INFINITY;
  const end = Math.min(LONGEST, beginning ? typed.length + Math.floor(most) : meant.length, meant.length);
  let [before, last, row] = rows;
  for (let j = 0; j <= end; j++) last[j] = j;
  for (let i = 1; i <= typed.length; i++) {
    if (nextRow(typed, meant, i, end, before, last, row) > most) return Number.POSITIVE_INFINITY;
    [before, last, row] = [last, row, before];
  }
  const least = beginning ? Math.min(...last.subarray(0, end + 1)) : last[end]!;
  return least > most ? Number.POSITIVE_INFINITY : least;
}

/** Fills the next row of the table of errors from the two above it; gives the least in it. */
function nextRow(typed: string, meant: string, i: number, end: number, before: Float64Array, last: Float64Array, row: Float64Array): number {
  let least = (row[0] = i);
  const a = typed[i - 1]!;
  for (let j = 1; j <= end; j++) {
    const b = meant[j - 1]!;
    const other = a === b ? 0 : vowels.has(a) && vowels.has(b) ? WRONG_VOWEL : 1;
    let errors = Math.min(last[j - 1]! + other, last[j]! + 1, row[j - 1]! + 1);
    if (i > 1 && j > 1 && a === meant[j - 2] && b === typed[i - 2]) errors = Math.min(errors, before[j - 2]! + 1);
    row[j] = errors;
    least = Math.min(least, errors);
  }
  return least;
}
