import type { ISOInstant } from "../words/ids";
import type { Ref } from "../words/records";
import type { Act } from "./contract";

/** Something that waited and was given up; it is taken up again by undoing. */
export class GivingUp implements Act {
  readonly ref: Ref;
  readonly at: ISOInstant;
  readonly #takeUp: () => Promise<void>;
  undone = $state(false);

  constructor(ref: Ref, at: ISOInstant, takeUp: () => Promise<void>) {
    this.ref = ref;
    this.at = at;
    this.#takeUp = takeUp;
  }

  async undo(): Promise<void> {
    if (this.undone) return;
    await this.#takeUp();
    this.undone = true;
  }
}
