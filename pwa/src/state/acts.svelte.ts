import type { Draft, Picture, Settled, Written } from "../store/writing";
import type { Store } from "../store/store";
import type { ISOInstant } from "../words/ids";
import type { Ref } from "../words/records";
import type { Act } from "./contract";
import type { Shelf } from "./shelf.svelte";

/** Writes to the store and puts what is shown then on the shelf before it resolves. */
export class Pen {
  readonly #store: Store;
  readonly #shelf: Shelf;
  /** Records of this pen's own writings that are not shown yet. */
  readonly #underWay = new Set<readonly Ref[]>();

  constructor(store: Store, shelf: Shelf) {
    this.#store = store;
    this.#shelf = shelf;
  }

  write(drafts: readonly Draft[], pictures: readonly Picture[] = []): Promise<Written> {
    return this.#thenShow(drafts.map((draft) => draft.ref), () => this.#store.write(drafts, pictures));
  }

  settlePicture(drafts: readonly Draft[], settled: Settled): Promise<Written> {
    return this.#thenShow(drafts.map((draft) => draft.ref), () => this.#store.settlePicture(drafts, settled));
  }

  async takeBack(written: Written): Promise<void> {
    await this.#thenShow(written.changes.map((change) => change.ref), () => this.#store.takeBack(written));
  }

  /** Reads anew what others changed; of its own writing the pen reads it by itself. */
  async hear(refs: readonly Ref[]): Promise<void> {
    const own = new Set([...this.#underWay].flat());
    const others = refs.filter((ref) => !own.has(ref));
    if (others.length > 0) await this.show(others);
  }

  async #thenShow<T>(refs: readonly Ref[], act: () => Promise<T>): Promise<T> {
    this.#underWay.add(refs);
    try {
      const done = await act();
      this.#underWay.delete(refs); // what others write from here on is heard
      await this.show(refs);
      return done;
    } finally {
      this.#underWay.delete(refs);
    }
  }

  /** Reads records anew. */
  async show(refs: readonly Ref[]): Promise<void> {
    this.#shelf.put(refs, await this.#store.shown(refs));
  }
}

/** One thing done, in one or more writings; undoing takes them back from the last to the first. */
export class Deed implements Act {
  readonly ref: Ref;
  readonly at: ISOInstant;
  readonly #pen: Pen;
  readonly #writings: Written[];
  #undone = $state(false);

  constructor(ref: Ref, pen: Pen, written: Written) {
    this.ref = ref;
    this.at = written.at;
    this.#pen = pen;
    this.#writings = [written];
  }

  get undone(): boolean {
    return this.#undone;
  }

  /** Adds a writing that belongs to the same deed. */
  also(written: Written): void {
    this.#writings.push(written);
  }

  async undo(): Promise<void> {
    if (this.#undone) return;
    this.#undone = true;
    for (let written = this.#writings.pop(); written; written = this.#writings.pop()) await this.#pen.takeBack(written);
  }
}
