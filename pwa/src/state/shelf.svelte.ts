import { SvelteMap } from "svelte/reactivity";
import type { Also } from "./contract";
import type { Shown } from "../store/overlay";
import { Groups } from "./groups";
import { idOf, kindOf, recordKinds, type Observation, type RecordKind, type Ref, type Seen, type Work } from "../words/records";

/** Under this key stand the observations that have no planting. */
const nobody = "";

/**
 * The garden's records in memory, as they are shown. A component that reads one
 * record, or one planting's entries, follows those alone.
 */
export class Shelf {
  /** As the store gave it, stamps included; not reactive. */
  readonly #shown = new Map<Ref, Shown>();
  /** Made before anyone reads: what is made inside a derivation is not followed by it. */
  readonly #records = new Map(recordKinds.map((kind) => [kind, new SvelteMap<string, Seen<RecordKind>>()]));
  readonly #groups = new Groups();
  readonly #observations = new SvelteMap<string, readonly Observation[]>();
  readonly #work = new SvelteMap<string, readonly Work[]>();
  readonly #unsent = new SvelteMap<Ref, true>();
  readonly #also = new SvelteMap<Ref, Readonly<Record<string, readonly Also[]>>>();
  readonly #heard: (refs: readonly Ref[]) => void;

  /** `heard` is told of every record that was put here. */
  constructor(heard: (refs: readonly Ref[]) => void = () => undefined) {
    this.#heard = heard;
  }

  /** Puts what is shown of some records; null where there is nothing. */
  put(refs: readonly Ref[], shown: readonly (Shown | null)[]): void {
    const touched = new Set<string>();
    for (const [i, ref] of refs.entries()) {
      this.#putOne(ref, shown[i] ?? null);
      for (const key of this.#groups.move(ref, groupOf(shown[i] ?? null))) touched.add(key);
    }
    for (const key of touched) this.#regroup(key);
    this.#heard(refs);
  }

  clear(): void {
    this.#shown.clear();
    this.#groups.clear();
    for (const map of this.#records.values()) map.clear();
    for (const map of [this.#observations, this.#work, this.#unsent, this.#also]) map.clear();
  }

  one<K extends RecordKind>(kind: K, id: string | undefined): Seen<K> | null {
    return id === undefined ? null : ((this.#of(kind)?.get(id) as Seen<K> | undefined) ?? null);
  }

  all<K extends RecordKind>(kind: K): Seen<K>[] {
    return [...(this.#of(kind)?.values() ?? [])] as Seen<K>[];
  }

  /** Newest first; without a planting, those that have none. */
  observations(planting: string = nobody): readonly Observation[] {
    return this.#observations.get(planting) ?? none;
  }

  /** Newest first. */
  work(planting: string): readonly Work[] {
    return this.#work.get(planting) ?? none;
  }

  also(ref: Ref): Readonly<Record<string, readonly Also[]>> {
    return this.#also.get(ref) ?? {};
  }

  unsent(ref: Ref): boolean {
    return this.#unsent.has(ref);
  }

  /** What the store last gave; not reactive. */
  shown(ref: Ref): Shown | undefined {
    return this.#shown.get(ref);
  }

  #of(kind: RecordKind): SvelteMap<string, Seen<RecordKind>> | undefined {
    return this.#records.get(kind);
  }

  #putOne(ref: Ref, shown: Shown | null): void {
    const [map, id] = [this.#of(kindOf(ref)), idOf(ref)];
    if (!map) return; // a kind of a newer app: kept in the store and passed on, and shown by those who know it
    if (!shown || shown.gone) {
      this.#shown.delete(ref);
      map.delete(id);
      this.#unsent.delete(ref);
      this.#also.delete(ref);
      return;
    }
    this.#shown.set(ref, shown);
    map.set(id, { ...shown.fields, id, ref } as Seen<RecordKind>);
    if (shown.unsent) this.#unsent.set(ref, true);
    else this.#unsent.delete(ref);
    if (Object.keys(shown.also).length > 0) this.#also.set(ref, shown.also);
    else this.#also.delete(ref);
  }

  #regroup(key: string): void {
    const [kind, planting] = [kindOf(key as Ref), idOf(key as Ref)];
    const ids = this.#groups.members(key).map(idOf);
    if (kind === "observation") this.#observations.set(planting, newestFirst(ids.map((id) => this.one("observation", id)!), (o) => o.seen));
    else this.#work.set(planting, newestFirst(ids.map((id) => this.one("work", id)!), (w) => w.day));
  }
}

/** "observation/{planting}" or "work/{planting}" for an entry that is shown. */
function groupOf(shown: Shown | null): string | null {
  if (!shown || shown.gone) return null;
  const kind = kindOf(shown.ref);
  return kind === "observation" || kind === "work" ? `${kind}/${shown.fields["planting"] ?? nobody}` : null;
}

const none: readonly never[] = [];

function newestFirst<T>(entries: T[], when: (entry: T) => string | undefined): readonly T[] {
  const timed = entries.map((entry) => ({ entry, ms: Date.parse(when(entry) ?? "") || 0 }));
  return timed.sort((a, b) => b.ms - a.ms).map(({ entry }) => entry);
}
