import { untrack } from "svelte";
import { idOf, kindOf, type Bed, type Kind, type Planting, type Ref } from "../words/records";
import type { Hit } from "./contract";
import { Search } from "./search";

/** Records put into the index between two looks at the clock; each takes some 0.05 ms on a slow phone. */
const HANDFUL = 50;
const SLICE_MS = 8; // half a frame, so that a finger never waits for it

/** What there is to be found; read when it is put into the index, and not followed. */
export type Findable = Readonly<{
  kind(id: string): Kind | null;
  bed(id: string): Bed | null;
  planting(id: string): Planting | null;
}>;

/**
 * Keeps the search up with the records: what changed is put into its index when
 * the page has nothing else to do, and at the latest when someone searches.
 */
export class Finder {
  readonly #findable: Findable;
  #search = new Search();
  readonly #stale = new Set<Ref>();
  #version = $state(0); // what was found is found anew when it moves
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(findable: Findable) {
    this.#findable = findable;
  }

  /** Some records are not any more what they were. */
  changed(refs: Iterable<Ref>): void {
    const before = this.#stale.size;
    for (const ref of refs) if (findable.has(kindOf(ref))) this.#stale.add(ref);
    if (this.#stale.size === before) return;
    this.#version += 1;
    if (this.#timer !== undefined) this.prepare();
  }

  /** From here on the index is kept up beforehand; until then only a search brings it up. */
  prepare(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#slice());
  }

  find(text: string): readonly Hit[] {
    void this.#version;
    return untrack(() => {
      this.#bring(this.#stale.size);
      return this.#search.find(text);
    });
  }

  clear(): void {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    this.#stale.clear();
    this.#search = new Search();
    this.#version += 1;
  }

  #slice(): void {
    const began = performance.now();
    while (this.#stale.size > 0 && performance.now() - began < SLICE_MS) untrack(() => this.#bring(HANDFUL));
    if (this.#stale.size > 0) this.prepare();
  }

  #bring(most: number): void {
    let left = most;
    for (const ref of this.#stale) {
      if (left-- <= 0) return;
      this.#stale.delete(ref);
      this.#put(ref);
    }
  }

  #put(ref: Ref): void {
    const [kind, id] = [kindOf(ref), idOf(ref)];
    if (kind === "kind") this.#search.putKind(id, this.#findable.kind(id));
    else if (kind === "bed") this.#search.putBed(id, this.#findable.bed(id));
    else this.#search.putPlanting(id, this.#findable.planting(id));
  }
}

const findable = new Set<string>(["kind", "bed", "planting"]);
