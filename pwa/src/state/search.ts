/** Finding plantings and kinds by any of their names, forgiving of misspelling. */
import MiniSearch from "minisearch";
import type { Hit } from "./contract";
import type { Kind, Planting } from "../words/records";

/** What is searched: the garden's plantings, and the kinds that are not in it. */
export type Searched = Readonly<{ planting: Planting | null; kind: Kind | null; bed: string | undefined }>;

type Entry = Readonly<{ id: number; name: string; synonyms: string; common: string; label: string; bed: string }>;

/** Share of a word's letters that may be wrong: one in four, so that "hellebrus" finds the hellebore. */
const misspelling = 0.25;
/** Short words are not bent: "fir" must not become "fig". */
const shortestBent = 4;
const mostHits = 60;
const boost = { name: 3, common: 3, synonyms: 2, label: 2, bed: 1 };

export class Search {
  readonly #searched: readonly Searched[];
  readonly #index: MiniSearch<Entry>;

  constructor(searched: readonly Searched[]) {
    this.#searched = searched;
    this.#index = new MiniSearch<Entry>({ fields: Object.keys(boost), processTerm: plain });
    this.#index.addAll(searched.map(entryOf));
  }

  /** All words must be found, each whole, as a beginning or misspelt; any of them where nothing has all. Plantings come before kinds. */
  find(text: string): readonly Hit[] {
    const fuzzy = (term: string) => (term.length < shortestBent ? false : misspelling);
    const how = { prefix: true, fuzzy, boost };
    const all = this.#index.search(text, { ...how, combineWith: "AND" });
    const whole = all.length > 0;
    const results = whole ? all : this.#index.search(text, { ...how, combineWith: "OR" });
    const hits = results.flatMap(({ id, score }) => hitOf(this.#searched[id as number]!, { score, whole }));
    const inGarden = (hit: Hit) => Number(hit.what === "planting");
    return hits.sort((a, b) => inGarden(b) - inGarden(a) || b.score - a.score).slice(0, mostHits);
  }
}

function entryOf({ planting, kind, bed }: Searched, id: number): Entry {
  return {
    id,
    name: kind?.name ?? planting?.kind ?? "",
    synonyms: (kind?.synonyms ?? []).join("; "),
    common: (kind?.common ?? []).join("; "),
    label: planting?.label ?? "",
    bed: bed ?? "",
  };
}

function hitOf({ planting, kind }: Searched, how: Pick<Hit, "score" | "whole">): Hit[] {
  if (planting) return [{ what: "planting", planting, kind, ...how }];
  return kind ? [{ what: "kind", kind, ...how }] : [];
}

/** Lower case without accents, so that "felicite" finds ‘Félicité’. */
function plain(term: string): string {
  return term.normalize("NFD").replace(/\p{Mn}/gu, "").toLowerCase();
}
