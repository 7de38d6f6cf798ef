import type { ISOInstant } from "../words/ids";
import type { Trouble } from "../words/trouble";
import type { Ref } from "../words/records";

/** What changed in the store, and what the tab that holds the line has to say. */
export type News = Readonly<{
  /** Records to read again. */
  refs?: readonly Ref[];
  /** Pictures came, went or got previews. */
  photos?: boolean;
  /** What waits to be sent, or how far it is, changed. */
  sending?: boolean;
  /** Something waits that did not before: the line should try at once. */
  wake?: boolean;
  line?: LineNews;
}>;

/** How the line does, as told by the tab that holds it. */
export type LineNews = Readonly<{
  state: "resting" | "sending" | "waiting" | "stopped";
  trouble: Trouble | null;
  nextTry: ISOInstant | null;
}>;

/** Tells every listener of every tab of this garden what changed. */
export class Newsroom {
  readonly #channel: BroadcastChannel;
  #closed = false;
  readonly #listeners = new Set<(news: News) => void>();

  constructor(garden: string) {
    this.#channel = new BroadcastChannel(`haulm-news-${garden}`);
    this.#channel.onmessage = (event) => this.#deliver(event.data as News);
  }

  tell(news: News): void {
    if (this.#closed) return; // work that outlived its garden
    this.#deliver(news);
    this.#channel.postMessage(news);
  }

  /** Gives back what ends the listening. */
  listen(listener: (news: News) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  close(): void {
    this.#closed = true;
    this.#listeners.clear();
    this.#channel.close();
  }

  #deliver(news: News): void {
    for (const listener of this.#listeners) listener(news);
  }
}
