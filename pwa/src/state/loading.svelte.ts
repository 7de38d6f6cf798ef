import type { HeldRound } from "../store/meta";
import type { Store } from "../store/store";
import type { RecordKind, Ref } from "../words/records";
import { troubleOf, type Trouble } from "../words/trouble";
import type { Pen } from "./acts.svelte";
import type { Shelf } from "./shelf.svelte";
import { visitMs } from "./visit";

/** What the first screen shows, and what follows. */
const firstKinds: readonly RecordKind[] = ["garden", "bed", "structure", "kind", "planting"];
const laterKinds: readonly RecordKind[] = ["observation", "work", "task", "weather", "decision", "dismissal"];

/** Entries put on the shelf at once, so that a tap never waits for many: some 20 ms on a slow phone (a choice of ours). */
const piece = 500;

export type LoadingTools = Readonly<{
  shelf: Shelf;
  now(): number;
  /** Brings what the garden's records are shown with. Rejects never. */
  catalogue(): Promise<void>;
}>;

/** Brings a garden from its store to the shelf: at once what the first screen shows, and years of entries after it. */
export class Loading {
  readonly #tools: LoadingTools;
  #store: Store | null = null;
  #pen: Pen | null = null;
  /** Records of which news came while they were read: what was read may be older. */
  readonly #heard = new Set<Ref>();
  #ready = $state(false);
  #complete = $state(false);
  #trouble = $state.raw<Trouble | null>(null);
  /** Where the round was left. */
  round = $state.raw<HeldRound | null>(null);
  /** This phone's suffix in stamps; "" before the garden was read. */
  suffix = "";

  constructor(tools: LoadingTools) {
    this.#tools = tools;
  }

  get ready(): boolean { return this.#ready; }
  get complete(): boolean { return this.#complete; }
  get trouble(): Trouble | null { return this.#trouble; }

  /**
   * Begins with a garden. `recent` resolves when what a look of now may belong to is
   * on the shelf too, `loaded` when all is; neither rejects, see `trouble`.
   */
  begin(store: Store, pen: Pen): Readonly<{ recent: Promise<void>; loaded: Promise<void> }> {
    [this.#store, this.#pen] = [store, pen];
    const recent = this.#first(store);
    return { recent, loaded: recent.then(() => this.#rest(store, pen)) };
  }

  end(): void {
    this.#store = this.#pen = null;
    this.#heard.clear();
    this.#ready = this.#complete = false;
    this.round = this.#trouble = null;
  }

  /** Others changed these: they are read anew, or once all was read. */
  hear(refs: readonly Ref[]): void {
    const [store, pen] = [this.#store, this.#pen];
    if (store && pen && this.#complete) pen.hear(refs).catch((thrown: unknown) => this.#fail(store, thrown));
    else for (const ref of refs) this.#heard.add(ref);
  }

  /** And what a look of now may belong to, so that no tap waits for years of looks. */
  async #first(store: Store): Promise<void> {
    try {
      const [first, round, suffix] = await Promise.all([store.shownOf(firstKinds), store.meta("round"), store.suffix(), this.#tools.catalogue()]);
      if (this.#store !== store) return;
      this.suffix = suffix;
      this.round = round ?? null;
      this.#tools.shelf.put(first.map(({ ref }) => ref), first);
      this.#ready = true;
      const nowMs = this.#tools.now();
      const recent = await store.shownMadeFrom("observation", nowMs - 2 * visitMs, nowMs);
      if (this.#store === store) this.#tools.shelf.put(recent.map(({ ref }) => ref), recent);
    } catch (thrown) {
      this.#fail(store, thrown);
    }
  }

  async #rest(store: Store, pen: Pen): Promise<void> {
    if (!this.#ready || this.#trouble) return;
    try {
      for await (const later of store.shownPiecewise(laterKinds, piece)) {
        if (this.#store !== store) return;
        this.#tools.shelf.put(later.map(({ ref }) => ref), later);
      }
      this.#complete = true;
      await pen.show([...this.#heard]);
    } catch (thrown) {
      this.#fail(store, thrown);
    }
  }

  /** The store of the garden that is open did not give what is in it. */
  #fail(store: Store, thrown: unknown): void {
    if (this.#store === store) this.#trouble = troubleOf(thrown);
  }
}
