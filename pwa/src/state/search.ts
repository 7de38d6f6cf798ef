/** Finding plantings and kinds by any of their names, forgiving of misspelling. */
import type { Hit } from "./contract";
import { Names, type Name } from "./names";
import { wordsOf } from "./spelling";
import type { Bed, Kind, Planting } from "../words/records";

/** What a name counts by what it is a name of. A bed's name finds all that is in it, so it comes last. */
const weights = { name: 1, common: 1, label: 1, synonym: 0.9, bed: 0.86 } as const;

/** Hits less than this share as good as the best are left out: with a salvia found, nobody wants what is only like one. */
const WORTH_SHOWING = 0.8;

/** What a thumb scrolls through; more letters find the rest. */
const MOST = { planting: 60, kind: 30 } as const;

/** Something to be found, and under which references its names stand in the index. */
type Entry<T> = Readonly<{ it: T; refs: readonly string[] }>;

/** What is found: a planting has its kind's and its bed's names, and a label of its own. */
export class Search {
  readonly #names = new Names();
  readonly #kinds = new Map<string, Entry<Kind>>();
  readonly #plantings = new Map<string, Entry<Planting>>();

  putKind(id: string, kind: Kind | null): void {
    const ref = `kind/${id}`;
    if (kind) this.#kinds.set(id, { it: kind, refs: [ref] });
    else this.#kinds.delete(id);
    this.#names.put(ref, kind ? kindNames(kind) : []);
  }

  putBed(id: string, bed: Bed | null): void {
    this.#names.put(`bed/${id}`, bed ? [{ text: bed.name ?? "", weight: weights.bed }] : []);
  }

  putPlanting(id: string, planting: Planting | null): void {
    const ref = `planting/${id}`;
    if (planting) this.#plantings.set(id, { it: planting, refs: [ref, `kind/${planting.kind}`, `bed/${planting.bed}`] });
    else this.#plantings.delete(id);
    this.#names.put(ref, planting ? [{ text: planting.label ?? "", weight: weights.label }] : []);
  }

  /**
   * All words must be found: rightly written, else misspelt, else with two of them
   * in one; some of them where nothing has all. Plantings come before kinds.
   */
  find(text: string): readonly Hit[] {
    const words = wordsOf(text);
    if (words.length === 0) return [];
    const right = this.#having(words, false, true);
    if (right.length > 0) return right;
    for (const typed of [words, ...joined(words)]) {
      const hits = this.#having(typed, true, true);
      if (hits.length > 0) return hits;
    }
    return this.#having(words, true, false);
  }

  #having(words: readonly string[], misspelt: boolean, whole: boolean): readonly Hit[] {
    const found = words.map((word) => this.#names.having(word, misspelt));
    const plantings = scored(this.#plantings, found, whole);
    const kinds = scored(this.#kinds, found, whole);
    const least = WORTH_SHOWING * Math.max(bestOf(plantings), bestOf(kinds));
    return [
      ...best(plantings, least, MOST.planting).map(({ it, score }): Hit => ({ what: "planting", planting: it, kind: this.#kinds.get(it.kind ?? "")?.it ?? null, score, whole })),
      ...best(kinds, least, MOST.kind).map(({ it, score }): Hit => ({ what: "kind", kind: it, score, whole })),
    ].sort((a, b) => Number(a.what === "kind") - Number(b.what === "kind") || b.score - a.score || compare(nameIn(a), nameIn(b)));
  }
}

type Found = readonly ReadonlyMap<string, number>[];
type Scored<T> = Readonly<{ it: T; score: number }>;

function scored<T>(entries: ReadonlyMap<string, Entry<T>>, found: Found, all: boolean): Scored<T>[] {
  const scored: Scored<T>[] = [];
  for (const { it, refs } of entries.values()) {
    const score = scoreOf(refs, found, all);
    if (score > 0) scored.push({ it, score });
  }
  return scored;
}

/** The mean over the words, each in the name that has it best; nothing where one is missing and all are wanted. */
function scoreOf(refs: readonly string[], found: Found, all: boolean): number {
  let sum = 0;
  for (const word of found) {
    let most = 0;
    for (const ref of refs) most = Math.max(most, word.get(ref) ?? 0);
    if (most === 0 && all) return 0;
    sum += most;
  }
  return sum / found.length;
}

const bestOf = (scored: readonly Scored<unknown>[]): number => scored.reduce((most, { score }) => Math.max(most, score), 0);

/** The `most` best that reach `least`; told by number alone, since sorting thousands by name is slow. */
function best<T>(scored: readonly Scored<T>[], least: number, most: number): readonly Scored<T>[] {
  const cut = Float64Array.from(scored, ({ score }) => -score).sort()[most - 1];
  if (cut === undefined || -cut < least) return scored.filter(({ score }) => score >= least);
  const better = scored.filter(({ score }) => score > -cut);
  return [...better, ...scored.filter(({ score }) => score === -cut).slice(0, most - better.length)];
}

function kindNames({ name, synonyms, common }: Kind): Name[] {
  const all = (texts: readonly string[] | undefined, weight: number): Name[] => (texts ?? []).map((text) => ({ text, weight }));
  return [...all([name ?? ""], weights.name), ...all(common, weights.common), ...all(synonyms, weights.synonym)];
}

/** The words with two neighbours as one, where someone wrote a word in two: "ost friesland". */
function joined(words: readonly string[]): (readonly string[])[] {
  return words.slice(1).map((word, i) => [...words.slice(0, i), words[i]! + word, ...words.slice(i + 2)]);
}

const nameIn = (hit: Hit): string => hit.kind?.name ?? (hit.what === "planting" ? (hit.planting.label ?? "") : "");

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
