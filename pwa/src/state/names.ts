/** An index of names by their words, changed name by name; it answers which names have a word, written so or nearly so. */
import { consonantsOf, errorsIn, farApart, mostErrors, soundOf, wordsOf } from "./spelling";

/** One name of something, and how much a hit in it counts, 1 at most. */
export type Name = Readonly<{ text: string; weight: number }>;

/** How near a word is to what was typed. Whole words come before beginnings, right ones before misspelt (choices of ours). */
const near = { whole: 1, begins: 0.86, sounds: 0.82, beginsBySound: 0.74, misspelt: 0.76, beginsMisspelt: 0.62 } as const;
const ERROR = 0.08; // what one error costs
const RESTS = 0.04; // what the letters that were not typed cost at most

/** A word of a long name says less: "lavender" is lavender before it is sea lavender. */
const LONGER = 0.98, LONGEST = 0.93;

/** A word as it is written and as it sounds. */
type Written = Readonly<{ word: string; sound: string; consonants: number }>;
type Term = Written & Readonly<{ /** How much it counts, by what has it. */ has: Map<string, number> }>;

/** Answers kept: of the words that someone types, all but the last stay the same. */
const MOST_KEPT = 16;

export class Names {
  readonly #terms = new Map<string, Term>();
  readonly #words = new Map<string, readonly string[]>();
  readonly #answers = new Map<string, ReadonlyMap<string, number>>();

  /** Sets the names of something; none takes it out. */
  put(id: string, names: readonly Name[]): void {
    this.#answers.clear();
    for (const word of this.#words.get(id) ?? []) this.#forget(word, id);
    const words = new Map<string, number>();
    for (const name of names) for (const [word, counts] of counted(name)) words.set(word, Math.max(counts, words.get(word) ?? 0));
    for (const [word, counts] of words) this.#term(word).has.set(id, counts);
    if (words.size > 0) this.#words.set(id, [...words.keys()]);
    else this.#words.delete(id);
  }

  /** How well each thing has a typed word, from 0 to 1; `misspelt`: also where there are errors in it. */
  having(typed: string, misspelt: boolean): ReadonlyMap<string, number> {
    const key = `${misspelt ? "~" : "="}${typed}`;
    const kept = this.#answers.get(key);
    if (kept) return kept;
    if (this.#answers.size >= MOST_KEPT) this.#answers.clear();
    const found = this.#look(written(typed), misspelt);
    this.#answers.set(key, found);
    return found;
  }

  #look(typed: Written, misspelt: boolean): ReadonlyMap<string, number> {
    const found = new Map<string, number>();
    for (const term of this.#terms.values()) {
      const nearness = rightly(typed, term) || (misspelt ? wrongly(typed, term) : 0);
      if (nearness === 0) continue;
      for (const [id, counts] of term.has) found.set(id, Math.max(nearness * counts, found.get(id) ?? 0));
    }
    return found;
  }

  #term(word: string): Term {
    const known = this.#terms.get(word);
    if (known) return known;
    const term = { ...written(word), has: new Map<string, number>() };
    this.#terms.set(word, term);
    return term;
  }

  #forget(word: string, id: string): void {
    const term = this.#terms.get(word)!;
    term.has.delete(id);
    if (term.has.size === 0) this.#terms.delete(word);
  }
}

/** The words of a name with how much each counts, and each two neighbours as one: "day lily" is also "daylily". */
function counted({ text, weight }: Name): [word: string, counts: number][] {
  const words = wordsOf(text);
  const counts = weight * Math.max(LONGEST, LONGER ** (words.length - 1));
  const joined = words.slice(1).map((word, i) => words[i]! + word);
  return [...words, ...joined].map((word) => [word, counts]);
}

function written(word: string): Written {
  const sound = soundOf(word);
  return { word, sound, consonants: consonantsOf(sound) };
}

function rightly(typed: Written, { word, sound }: Written): number {
  if (word === typed.word) return near.whole;
  if (word.startsWith(typed.word)) return near.begins - rest(typed.word, word);
  if (sound === typed.sound) return near.sounds;
  return typed.sound.length > 2 && sound.startsWith(typed.sound) ? near.beginsBySound - rest(typed.sound, sound) : 0;
}

function wrongly({ sound, consonants }: Written, meant: Written): number {
  const most = mostErrors(sound.length);
  if (most === 0 || farApart(consonants, meant.consonants, most)) return 0;
  const whole = farApart(meant.consonants, consonants, most) ? Number.POSITIVE_INFINITY : errorsIn(sound, meant.sound, most);
  if (whole <= most) return near.misspelt - whole * ERROR;
  const begun = sound.length > 4 ? errorsIn(sound, meant.sound, 1, true) : 2; // of a few letters anything is the beginning
  return begun <= 1 ? near.beginsMisspelt - begun * ERROR - rest(sound, meant.sound) : 0;
}

const rest = (typed: string, word: string): number => RESTS * Math.max(0, 1 - typed.length / word.length);
