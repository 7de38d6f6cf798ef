import { createContext } from "svelte";

/** What a screen reader is told without moving: "Saved", "Undone". */
export class Voice {
  #words = $state("");

  get words(): string {
    return this.#words;
  }

  /** Says the words; a no-break space tells two equal messages apart. */
  say(words: string): void {
    this.#words = this.#words === words ? `${words}\u00a0` : words;
  }
}

export const [useVoice, provideVoice] = createContext<Voice>();
