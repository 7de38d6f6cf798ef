import type { Picture } from "../almanac/answers";
import type { Reckoning } from "../state/contract";

/**
 * The picture of one planting, kept up with the reckoning: it is asked for again
 * when a newer assessment comes, and the older one stays until then. Null until
 * the almanac has answered; a screen is whole without it.
 */
export class Pictured {
  #picture: Picture | null = $state.raw(null);

  /** Made while a component is made. */
  constructor(reckoning: Reckoning, planting: () => string | null) {
    $effect(() => {
      const id = planting();
      if (!id || !reckoning.assessment) return;
      const asked = new AbortController();
      reckoning.picture(id, asked.signal).then(
        (picture) => {
          if (!asked.signal.aborted) this.#picture = picture;
        },
        () => undefined, // said once, in the reckoning's own trouble
      );
      return () => asked.abort();
    });
  }

  get current(): Picture | null {
    return this.#picture;
  }
}
