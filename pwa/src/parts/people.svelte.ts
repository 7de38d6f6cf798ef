import { createContext } from "svelte";
import { SvelteMap } from "svelte/reactivity";
import type { Member, Session } from "../state/contract";
import { writerName } from "./writer";

/**
 * The names of those who write in this garden. Those that this phone has heard of
 * before are there with no network; the server is asked once someone unknown is met.
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
    const { household } = this.#session;
    void household.lastMembers().then((members) => this.#learn(members));
    household.members().then(
      (members) => this.#learn(members),
      () => (this.#asked = false), // no network: asked again with the next entry that is drawn
    );
  }

  #learn(members: readonly Member[]): void {
    for (const { id, name } of members) this.#names.set(id, name);
  }
}

export const [usePeople, providePeople] = createContext<People>();
