import type { Draft, Picture, Written } from "../store/writing";
import type { Store } from "../store/store";
import type { ISOInstant } from "../words/ids";
import type { Ref } from "../words/records";
import type { Act } from "./contract";
import type { Shelf } from "./shelf.svelte";

/** Writes to the store and puts what is shown then on the shelf before it resolves. */
export class Pen {
  readonly #store: Store;
  readonly #shelf: Shelf;

  constructor(store: Store, shelf: Shelf) {
    this.#store = store;
    this.#shelf = shelf;
  }

  async write(drafts: readonly Draft[], pictures: readonly Picture[] = []): Promise<Written> {
    const written = await this.#store.write(drafts, pictures);
    await this.show(drafts.map((draft) => draft.ref));
    return written;
  }

  async takeBack(written: Written): Promise<void> {
    await this.#store.takeBack(written);
    await this.show(written.changes.map((change) => change.ref));
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
