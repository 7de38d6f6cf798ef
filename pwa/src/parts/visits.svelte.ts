import { createContext } from "svelte";
import { SvelteMap } from "svelte/reactivity";
import type { Act } from "../state/contract";

const VISIT_MS = 30 * 60_000; // as long as the book extends one observation

/** Which entry the visit to a planting is writing in, so that coming back to it shows what was noted. */
export class Visits {
  #entries = new SvelteMap<string, Readonly<{ observation: string; until: number }>>();

  /** Remembers the entry that an act wrote in. */
  note(planting: string, act: Act): void {
    this.#entries.set(planting, { observation: act.ref.slice(act.ref.indexOf("/") + 1), until: Date.now() + VISIT_MS });
  }

  /** The id of the visit's entry, or undefined when there is none or it is long past. */
  entry(planting: string): string | undefined {
    const entry = this.#entries.get(planting);
    return entry && entry.until > Date.now() ? entry.observation : undefined;
  }
}

export const [useVisits, provideVisits] = createContext<Visits>();
