import type { Store } from "../../store/store";

/** How long notes of what is shown are gathered before one write, milliseconds. */
const gatheredMs = 2_000;

/** Notes which pictures are looked at, so that the longest unseen are the first to go when room is short. */
export class Shown {
  readonly #store: Store;
  #rows = new Map<string, number>();
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(store: Store) {
    this.#store = store;
  }

  note(key: string, bytes: number): void {
    this.#rows.set(key, bytes);
    this.#timer ??= setTimeout(() => void this.write(), gatheredMs);
  }

  /** Writes what was gathered. Never rejects: a note that is lost costs a picture its place in the queue, no more. */
  async write(): Promise<void> {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    const rows = this.#rows;
    this.#rows = new Map();
    if (rows.size > 0) await this.#store.noteShown(rows).catch(() => undefined);
  }

  leave(): void {
    clearTimeout(this.#timer);
  }
}
