import type { Component } from "svelte";
import type { Place } from "../routes/paths";

/** What an address says, as a screen takes it. */
export type Fill<P> = (place: Place) => P;
export type Fetch<P extends object> = () => Promise<{ default: Component<P> }>;

type Shown = Readonly<{ component: Component<Record<string, unknown>>; fill: Fill<Record<string, unknown>> }>;

/** A screen that is here, is being fetched, or could not be fetched. */
export interface Held {
  readonly shown: Shown | null;
  readonly failed: boolean;
  /** Never rejects; asked again after a failure, it tries again. */
  fetch(): Promise<void>;
}

/** A component and its filling fit each other where they meet; from there on they are only passed on. */
function pair<P extends object>(component: Component<P>, fill: Fill<P>): Shown {
  return { component, fill } as unknown as Shown;
}

export class AtHand<P extends object> implements Held {
  readonly failed = false;
  readonly shown: Shown;

  constructor(component: Component<P>, fill: Fill<P>) {
    this.shown = pair(component, fill);
  }

  async fetch(): Promise<void> {}
}

export class Fetched<P extends object> implements Held {
  #shown = $state.raw<Shown | null>(null);
  #failed = $state(false);
  #under: Promise<void> | null = null;
  readonly #get: Fetch<P>;
  readonly #fill: Fill<P>;

  constructor(get: Fetch<P>, fill: Fill<P>) {
    this.#get = get;
    this.#fill = fill;
  }

  get shown(): Shown | null { return this.#shown; }
  get failed(): boolean { return this.#failed; }

  fetch(): Promise<void> {
    this.#under ??= this.#bring();
    return this.#under;
  }

  async #bring(): Promise<void> {
    try {
      this.#shown = pair((await this.#get()).default, this.#fill);
      this.#failed = false;
    } catch {
      this.#failed = true;
      this.#under = null;
    }
  }
}

/**
 * Fetches every screen, one after another, when the page has nothing else to do:
 * in memory they stay usable even if a newer version takes over in another tab
 * and clears this one's files away. Gives what stops it.
 */
export function fetchWhenIdle(screens: readonly Held[]): () => void {
  let stopped = false;
  const all = async () => {
    for (const screen of screens) if (!stopped) await screen.fetch();
  };
  const cancel = whenIdle(() => void all());
  return () => {
    stopped = true;
    cancel();
  };
}

/** Safari tells no idle time; a second after the first screen its work is done. */
const withoutIdleMs = 1000;

function whenIdle(act: () => void): () => void {
  if (typeof requestIdleCallback === "function") {
    const handle = requestIdleCallback(act);
    return () => cancelIdleCallback(handle);
  }
  const handle = setTimeout(act, withoutIdleMs);
  return () => clearTimeout(handle);
}
