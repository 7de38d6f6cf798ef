import { createContext } from "svelte";
import { SvelteSet } from "svelte/reactivity";
import type { About, Book, Photographed } from "../state/contract";
import { troubleOf } from "../words/trouble";
import { troubleWords } from "./sending-words";

/** A file that was not kept, and why, in words. */
export type SnapFailure = Readonly<{ file: string; why: string }>;

/** How far a batch of pictures is. */
export type SnapProgress = Readonly<{ at: number; of: number }>;

/** Keeps pictures one after another: what one of them lacks costs no other. Never rejects. */
export async function keepSnaps(
  book: Book, files: readonly File[], about: About, progress: (far: SnapProgress) => void,
): Promise<{ kept: readonly Photographed[]; failures: readonly SnapFailure[] }> {
  const kept: Photographed[] = [];
  const failures: SnapFailure[] = [];
  for (const [i, file] of files.entries()) {
    progress({ at: i + 1, of: files.length });
    try {
      kept.push(await book.photograph(file, about));
    } catch (error) {
      failures.push({ file: file.name, why: troubleWords(troubleOf(error)) });
    }
  }
  return { kept, failures };
}

/** What is said of pictures just kept on the screen that shows them: what was not kept of their batch, and what is still being read. */
export class Snaps {
  /** Entries with a picture whose time and place are being read. */
  readonly #reading = new SvelteSet<string>();
  #last: Readonly<{ address: string; failures: readonly SnapFailure[] }> | null = $state.raw(null);

  tell(address: string, failures: readonly SnapFailure[]): void {
    this.#last = { address, failures };
  }

  /** Follows pictures until the phone knows of which planting they are, or that it does not. */
  follow(kept: readonly Photographed[]): void {
    for (const { observation, settled } of kept) {
      this.#reading.add(observation);
      void settled.then(() => this.#reading.delete(observation));
    }
  }

  reading(observation: string): boolean {
    return this.#reading.has(observation);
  }

  failures(address: string): readonly SnapFailure[] {
    return this.#last?.address === address ? this.#last.failures : [];
  }
}

export const [useSnaps, provideSnaps] = createContext<Snaps>();
