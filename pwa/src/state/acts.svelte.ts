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
  /** This pen's own writings that are not shown yet: their records, and the news of each so far. */
  readonly #underWay = new Set<Map<Ref, number>>();

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
    const refs = written.changes.map((change) => change.ref);
    await this.#thenShow(refs, async () => ({ after: await this.#store.takeBack(written) }));
  }

  /** Reads anew what others changed; of its own writing the pen knows by itself. */
  async hear(refs: readonly Ref[]): Promise<void> {
    const own = new Set<Ref>();
    for (const heard of this.#underWay) {
      for (const ref of refs) {
        if (!heard.has(ref)) continue;
        own.add(ref);
        heard.set(ref, heard.get(ref)! + 1);
      }
    }
    const others = refs.filter((ref) => !own.has(ref));
    if (others.length > 0) await this.show(others);
  }

  /** What the writing left is shown without reading it again; but where another tab wrote meanwhile, that is read. */
  async #thenShow<T extends Pick<Written, "after">>(refs: readonly Ref[], act: () => Promise<T>): Promise<T> {
    const heard = new Map(refs.map((ref) => [ref, 0]));
    this.#underWay.add(heard);
    try {
      const done = await act();
      this.#underWay.delete(heard); // what others write from here on is heard
      const alone = [...heard.values()].every((times) => times <= 1); // only the writing itself was heard of
      if (alone && done.after.length === refs.length) this.#shelf.put(refs, done.after);
      else await this.show(refs);
      return done;
    } finally {
      this.#underWay.delete(heard);
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
  #undoing: Promise<void> | null = null;

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

  /** Twice at once is once; what could not be taken back stays, to be tried again. */
  undo(): Promise<void> {
    this.#undoing ??= this.#takeBack().finally(() => (this.#undoing = null));
    return this.#undoing;
  }

  async #takeBack(): Promise<void> {
    for (let last = this.#writings.at(-1); last; last = this.#writings.at(-1)) {
      await this.#pen.takeBack(last);
      this.#writings.splice(this.#writings.indexOf(last), 1); // by now it need not be the last
    }
    this.#undone = true;
  }
}
