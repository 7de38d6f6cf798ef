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
  #again: (() => void) | null = $state.raw(null);
  readonly #voice: Voice;

  constructor(voice: Voice) {
    this.#voice = voice;
  }

  /** When the last thing was saved, or null. */
  get at(): ISOInstant | null {
    return this.#acts.at(-1)?.at ?? null;
  }

  /** Why the last thing was not saved or taken back, or "". */
  get failed(): string {
    return this.#failed;
  }

  /** Tries what failed once more; null where a person does that by choosing again. */
  get again(): (() => void) | null {
    return this.#again;
  }

  /** Waits for a saving and keeps how to undo it; `again` is offered when it fails. */
  async keep(saving: Promise<Act>, again: (() => void) | null = null): Promise<Act | null> {
    this.#failed = "";
    try {
      const act = await saving;
      this.#acts = [...this.#acts, act];
      this.#voice.say(m.saved());
      return act;
    } catch (error) {
      this.#fail(error, again);
      return null;
    }
  }

  /** Takes the last thing back; `all`: everything since the screen came, newest first. What fails stays to be taken back. */
  async undo(all = false): Promise<void> {
    const back = [...(all ? this.#acts : this.#acts.slice(-1))].reverse();
    this.#failed = "";
    try {
      for (const act of back) {
        await act.undo();
        this.#acts = this.#acts.filter((one) => one !== act);
      }
      this.#voice.say(m.undone());
    } catch (error) {
      this.#fail(error, () => void this.undo(all));
    }
  }

  #fail(error: unknown, again: (() => void) | null): void {
    this.#failed = troubleWords(troubleOf(error));
    this.#again = again;
  }
}
