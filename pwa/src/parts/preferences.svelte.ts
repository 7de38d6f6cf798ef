import { createContext } from "svelte";

const KEY = "haulm.contrast";

/** How this phone wants to be read. It belongs to the phone, not to the garden. */
export class Preferences {
  #sun = $state(localStorage.getItem(KEY) === "sun");

  constructor() {
    this.#show();
  }

  /** Black on white and larger, for full sun. */
  get sun(): boolean {
    return this.#sun;
  }

  set sun(on: boolean) {
    this.#sun = on;
    localStorage.setItem(KEY, on ? "sun" : "ordinary");
    this.#show();
  }

  #show(): void {
    document.documentElement.dataset.contrast = this.#sun ? "sun" : "ordinary";
  }
}

export const [usePreferences, providePreferences] = createContext<Preferences>();
