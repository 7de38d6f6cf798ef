import { createContext } from "svelte";
import { m } from "../paraglide/messages.js";
import type { Act } from "../state/contract";
import { troubleOf } from "../words/trouble";
import { troubleWords } from "./sending-words";

/** The stop just passed with nothing to note, so that the next screen can still take it back. */
export class Passed {
  #last: Readonly<{ name: string; act: Act }> | null = $state.raw(null);
  #failed = $state("");

  get words(): string {
    return this.#last ? m.passed({ name: this.#last.name }) : "";
  }

  get failed(): string {
    return this.#failed;
  }

  /** Waits for the look to be on disk; false when it is not. */
  async keep(name: string, saving: Promise<Act>): Promise<boolean> {
    this.#failed = "";
    try {
      this.#last = { name, act: await saving };
      return true;
    } catch (error) {
      this.#failed = troubleWords(troubleOf(error));
      return false;
    }
  }

  async undo(): Promise<void> {
    const last = this.#last;
    this.#last = null;
    await last?.act.undo();
  }

  clear(): void {
    this.#last = null;
    this.#failed = "";
  }
}

export const [usePassed, providePassed] = createContext<Passed>();
