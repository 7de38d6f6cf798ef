import type { Cursor } from "../words/ids";

/** How often to ask when no stream comes about, milliseconds. */
const pollMs = 60_000;

/**
 * Hears from the server when the garden's feed has moved: by its event stream,
 * and by the clock while there is none. Only the tab that holds the line opens one.
 */
export class Live {
  readonly #address: string;
  readonly #moved: (cursor: Cursor | null) => void;
  #stream: EventSource | null = null;
  #poll: ReturnType<typeof setInterval> | undefined;

  /** `moved` gets the new cursor, or null when it is only time to ask. */
  constructor(address: string, moved: (cursor: Cursor | null) => void) {
    this.#address = address;
    this.#moved = moved;
  }

  open(): void {
    if (this.#stream && this.#stream.readyState !== EventSource.CLOSED) return;
    this.#stream = new EventSource(this.#address);
    this.#stream.addEventListener("cursor", (event) => this.#moved(String(event.data)));
    this.#stream.onopen = () => this.#stopPolling();
    this.#stream.onerror = () => this.#startPolling();
  }

  close(): void {
    this.#stream?.close();
    this.#stream = null;
    this.#stopPolling();
  }

  #startPolling(): void {
    this.#poll ??= setInterval(() => {
      this.open();
      this.#moved(null);
    }, pollMs);
  }

  #stopPolling(): void {
    clearInterval(this.#poll);
    this.#poll = undefined;
  }
}
