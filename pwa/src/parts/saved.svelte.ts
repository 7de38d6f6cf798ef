import { m } from "../paraglide/messages.js";
import type { Act } from "../state/contract";
import type { ISOInstant } from "../words/ids";
import { troubleOf } from "../words/trouble";
import { troubleWords } from "./sending-words";
import type { Voice } from "./voice.svelte";

/**
 * What was saved in one row of a form, for as long as the screen stays, so that
 * each row can say "saved 10:42" and take it back.
 */
export class Saved {
  #acts: readonly Act[] = $state.raw([]);
  #failed = $state("");
  readonly #voice: Voice;

  constructor(voice: Voice) {
    this.#voice = voice;
  }

  /** When the last thing was saved, or null. */
  get at(): ISOInstant | null {
    return this.#acts.at(-1)?.at ?? null;
  }

  /** Why the last thing was not saved, or "". */
  get failed(): string {
    return this.#failed;
  }

  /** Waits for a saving and keeps how to undo it. */
  async keep(saving: Promise<Act>): Promise<Act | null> {
    this.#failed = "";
    try {
      const act = await saving;
      this.#acts = [...this.#acts, act];
      this.#voice.say(m.saved());
      return act;
    } catch (error) {
      this.#failed = troubleWords(troubleOf(error));
      return null;
    }
  }

  /** Takes the last thing back; `all`: everything since the screen came, newest first. */
  async undo(all = false): Promise<void> {
    const back = [...(all ? this.#acts : this.#acts.slice(-1))].reverse();
    this.#acts = all ? [] : this.#acts.slice(0, -1);
    try {
      for (const act of back) await act.undo();
      this.#voice.say(m.undone());
    } catch (error) {
      this.#failed = troubleWords(troubleOf(error));
    }
  }
}
