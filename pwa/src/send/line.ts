/**
 * The line between this phone and the server. One tab holds it; the others hear
 * through the store's news. It tries when it starts, when the page comes into
 * view, when the network comes back, after each save, when the server's feed
 * moves, and when a person asks.
 */
import { instantHere } from "../words/days";
import type { Store } from "../store/store";
import { onLinkChange, presentLink, unmetered } from "./link";
import { Live } from "./live";
import { Loop, type LoopStatus } from "./loop";
import { Notes } from "./notes";
import { Pictures } from "./pictures";
import type { Server } from "./server";
import { TroubleError } from "../words/trouble";

const rest: LoopStatus = { state: "resting", trouble: null, nextTryMs: null };

export class Line {
  readonly #store: Store;
  readonly #notes: Loop;
  readonly #pictures: Loop;
  readonly #live: Live;
  readonly #ending = new AbortController();
  #status = { notes: rest, pictures: rest };
  /** Tries under way that someone asked for. */
  #tries = 0;

  constructor(store: Store, server: Server, now: () => number, random: () => number = Math.random) {
    this.#store = store;
    const notes = new Notes(store, server);
    const pictures = new Pictures(store, server, {
      notesFirst: () => this.#notesFirst(),
      linkAllows: async () => unmetered(presentLink()) || (await store.meta("anyLink")) === true,
    });
    this.#notes = new Loop(() => notes.run(), { now, random, told: (status) => this.#tell("notes", status) });
    this.#pictures = new Loop(() => pictures.run(), { now, random, told: (status) => this.#tell("pictures", status) });
    this.#live = new Live(server.live, (cursor) => void this.#moved(cursor));
  }

  /** Waits to hold the line and then keeps it until `end`. */
  start(): void {
    const { signal } = this.#ending;
    const held = () => this.#hold().then(() => new Promise<void>((resolve) => signal.addEventListener("abort", () => resolve())));
    navigator.locks.request(`haulm-line-${this.#store.garden}`, { signal }, held).catch((thrown) => {
      if (!signal.aborted) throw thrown;
    });
  }

  /** Tries both at once; resolves when the tries are over. */
  async wake(): Promise<void> {
    this.#tries++;
    this.#tellLine();
    try {
      await this.#notes.wake();
      await this.#pictures.wake();
    } finally {
      this.#tries--;
      this.#tellLine();
    }
  }

  end(): void {
    this.#ending.abort();
    this.#notes.end();
    this.#pictures.end();
    this.#live.close();
  }

  async #hold(): Promise<void> {
    const { signal } = this.#ending;
    signal.addEventListener("abort", this.#store.listen((news) => news.wake && void this.wake()));
    signal.addEventListener("abort", onLinkChange(() => this.#reach()));
    addEventListener("online", () => this.#reach(), { signal });
    document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && this.#reach(), { signal });
    this.#reach();
  }

  #reach(): void {
    this.#live.open();
    void this.wake();
  }

  /** Lets what is written go before a picture; while it cannot go, no picture can. */
  async #notesFirst(): Promise<void> {
    await this.#notes.quiet();
    if ((await this.#store.waiting()).length === 0) return;
    await this.#notes.wake();
    const { trouble } = this.#status.notes;
    if (trouble) throw new TroubleError(trouble.code, trouble.detail);
  }

  async #moved(cursor: string | null): Promise<void> {
    const known = await this.#store.meta("cursor").catch(() => undefined); // where the phone cannot say, the server is asked
    if (cursor === null || cursor !== known) await this.#notes.wake();
  }

  #tell(which: "notes" | "pictures", status: LoopStatus): void {
    this.#status = { ...this.#status, [which]: status };
    this.#tellLine();
  }

  /** What is tried now is told before what went wrong the last time. */
  #tellLine(): void {
    const loops = [this.#status.notes, this.#status.pictures];
    const trying = this.#tries > 0 || loops.some(({ state }) => state === "working");
    const { state, trouble, nextTryMs } = (trying ? null : loops.find((loop) => loop.trouble)) ?? rest;
    this.#store.tellLine({ state: trying || state === "working" ? "sending" : state, trouble, nextTry: nextTryMs === null ? null : instantHere(nextTryMs) });
  }
}
