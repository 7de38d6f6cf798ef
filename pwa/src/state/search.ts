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

/** What is found: a planting has its kind's and its bed's names, and a label of its own. */
export class Search {
  readonly #names = new Names();
  readonly #kinds = new Map<string, Kind>();
  readonly #plantings = new Map<string, Planting>();

  putKind(id: string, kind: Kind | null): void {
    if (kind) this.#kinds.set(id, kind);
    else this.#kinds.delete(id);
    this.#names.put(`kind/${id}`, kind ? kindNames(kind) : []);
  }

  putBed(id: string, bed: Bed | null): void {
    this.#names.put(`bed/${id}`, bed ? [{ text: bed.name ?? "", weight: weights.bed }] : []);
  }

  putPlanting(id: string, planting: Planting | null): void {
    if (planting) this.#plantings.set(id, planting);
    else this.#plantings.delete(id);
    this.#names.put(`planting/${id}`, planting ? [{ text: planting.label ?? "", weight: weights.label }] : []);
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
    const score = (...refs: string[]): number => scoreOf(found.map((one) => Math.max(...refs.map((ref) => one.get(ref) ?? 0))), whole);
    const hits: Hit[] = [];
    for (const planting of this.#plantings.values()) {
      const its = score(`planting/${planting.id}`, `kind/${planting.kind}`, `bed/${planting.bed}`);
      if (its > 0) hits.push({ what: "planting", planting, kind: this.#kinds.get(planting.kind ?? "") ?? null, score: its, whole });
    }
    for (const kind of this.#kinds.values()) {
      const its = score(`kind/${kind.id}`);
      if (its > 0) hits.push({ what: "kind", kind, score: its, whole });
    }
    return best(hits);
  }
}

/** The mean over the words; nothing where one is missing and all are wanted. */
function scoreOf(each: readonly number[], all: boolean): number {
  return all && each.includes(0) ? 0 : each.reduce((sum, one) => sum + one, 0) / each.length;
}

function best(hits: readonly Hit[]): readonly Hit[] {
  const least = WORTH_SHOWING * Math.max(0, ...hits.map(({ score }) => score));
  const worth = hits.filter(({ score }) => score >= least).sort((a, b) => b.score - a.score || compare(nameIn(a), nameIn(b)));
  return (["planting", "kind"] as const).flatMap((what) => worth.filter((hit) => hit.what === what).slice(0, MOST[what]));
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
