import { createContext } from "svelte";
import { m } from "../paraglide/messages.js";
import type { Act } from "../state/contract";
import { troubleOf } from "../words/trouble";
import { troubleWords } from "./sending-words";

/** What was done on the screen just left, so that the next one can still take it back: a stop passed, a planting made. */
export class Passed {
  #last: Readonly<{ words: string; act: Act; planting: string | null; back: string | null }> | null = $state.raw(null);
  #failed = $state("");

  /** Said of a planting's making on its own screen alone, of a stop on any stop. */
  words(planting: string | null): string {
    return this.#last?.planting === planting ? this.#last.words : "";
  }

  /** Where to go when it is taken back, since what shows now may be gone then; null: stay. */
  get back(): string | null {
    return this.#last?.back ?? null;
  }

  /** Remembers what was just done about a planting, to be said on its own screen. */
  tell(words: string, act: Act, planting: string, back: string | null = null): void {
    this.#last = { words, act, planting, back };
    this.#failed = "";
  }

  get failed(): string {
    return this.#failed;
  }

  /** Waits for the look to be on disk; false when it is not. */
  async keep(name: string, saving: Promise<Act>): Promise<boolean> {
    this.#failed = "";
    try {
      this.#last = { words: m.passed({ name }), act: await saving, planting: null, back: null };
      return true;
    } catch (error) {
      this.#last = null;
      this.#failed = troubleWords(troubleOf(error));
      return false;
    }
  }

  /** Takes it back; false when that cannot be done, and then it can be tried again. */
  async undo(): Promise<boolean> {
    const last = this.#last;
    this.#failed = "";
    try {
      await last?.act.undo();
      if (this.#last === last) this.#last = null;
      return true;
    } catch (error) {
      this.#failed = troubleWords(troubleOf(error));
      return false;
    }
  }

  clear(): void {
    this.#last = null;
    this.#failed = "";
  }
}

export const [usePassed, providePassed] = createContext<Passed>();
