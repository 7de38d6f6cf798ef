import { createContext } from "svelte";
import { SvelteMap } from "svelte/reactivity";
import type { Session } from "../state/contract";
import { writerName } from "./writer";

/**
 * The names of those who write in this garden. They are asked of the server once
 * someone unknown is met; with no network an entry is simply shown without them.
 */
export class People {
  readonly #session: Session;
  #names = new SvelteMap<string, string>();
  #asked = false;

  constructor(session: Session) {
    this.#session = session;
  }

  /** The writer of an entry, "" for oneself and while the name is not known. */
  name(by: string | undefined): string {
    return writerName(by, this.#session, (id) => {
      const known = this.#names.get(id) ?? null;
      if (known === null) this.#ask();
      return known;
    });
  }

  #ask(): void {
    if (this.#asked) return;
    this.#asked = true;
    this.#session.household.members().then(
      (members) => members.forEach(({ id, name }) => this.#names.set(id, name)),
      () => (this.#asked = false), // no network: asked again with the next entry that is drawn
    );
  }
}

export const [usePeople, providePeople] = createContext<People>();
