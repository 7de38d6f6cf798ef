import { troubleOf } from "../words/trouble";
import { troubleWords } from "./sending-words";

/** Something that a person asked for: whether it is under way, and in words why it failed. */
export class Asked {
  #busy = $state(false);
  #failed = $state("");

  get busy(): boolean { return this.#busy; }
  get failed(): string { return this.#failed; }

  /** Never rejects. */
  async for(act: () => Promise<void>): Promise<void> {
    this.#busy = true;
    this.#failed = "";
    try {
      await act();
    } catch (error) {
      this.#failed = troubleWords(troubleOf(error));
    } finally {
      this.#busy = false;
    }
  }
}
