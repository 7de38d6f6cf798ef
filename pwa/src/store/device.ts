/** Which gardens this phone is in; the one way to that store. */
import { DeviceDatabase, type HeldMember, type HeldMembership } from "./database";
import { durably } from "./durably";
import { dropGlance, glance, keepGlance } from "./glance";

export class DeviceStore {
  readonly #db = new DeviceDatabase();

  /** The same at once, as far as it is remembered outside the store; see glance.ts. */
  remembered(): HeldMembership | null {
    return glance()?.membership ?? null;
  }

  /** The garden that was open last, or null. */
  async current(): Promise<HeldMembership | null> {
    return durably(this.#db, () => this.#db.transaction("r", this.#db.gardens, this.#db.meta, async () => {
      const garden = (await this.#db.meta.get("current")) as string | undefined;
      return (garden && (await this.#db.gardens.get(garden))) || null;
    }));
  }

  /** Remembers a garden and makes it the open one. */
  async enter(membership: HeldMembership): Promise<void> {
    await durably(this.#db, () => this.#db.transaction("rw", this.#db.gardens, this.#db.meta, async () => {
      await this.#db.gardens.put(membership);
      await this.#db.meta.put(membership.garden, "current");
    }));
    this.remember(membership);
  }

  /** Keeps at hand which garden is the open one. */
  remember(membership: HeldMembership): void {
    const known = glance();
    keepGlance({ membership, garden: known?.membership.garden === membership.garden ? known.garden : null });
  }

  /** Keeps who is in a garden, as the server last said. */
  async keepMembers(garden: string, members: readonly HeldMember[]): Promise<void> {
    await durably(this.#db, () => this.#db.meta.put(members, membersKey(garden)));
  }

  /** Who is in a garden, as far as this phone has heard. */
  async members(garden: string): Promise<readonly HeldMember[]> {
    return durably(this.#db, async () => ((await this.#db.meta.get(membersKey(garden))) as readonly HeldMember[] | undefined) ?? []);
  }

  /** Forgets a garden. */
  async leave(garden: string): Promise<void> {
    dropGlance();
    await durably(this.#db, () => this.#db.transaction("rw", this.#db.gardens, this.#db.meta, async () => {
      await this.#db.gardens.delete(garden);
      await this.#db.meta.delete("current");
      await this.#db.meta.delete(membersKey(garden));
    }));
  }
}

function membersKey(garden: string): string {
  return `members/${garden}`;
}
