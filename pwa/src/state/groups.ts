import type { Ref } from "../words/records";

/** Which records stand together, so that a change of one does not go through all. */
export class Groups {
  readonly #members = new Map<string, Set<Ref>>();
  readonly #groupOf = new Map<Ref, string>();

  /** Puts a record into a group, or into none. Gives the groups that are other than before. */
  move(ref: Ref, group: string | null): string[] {
    const before = this.#groupOf.get(ref);
    if (before !== undefined) this.#members.get(before)?.delete(ref);
    this.#groupOf.delete(ref);
    if (group !== null) this.#join(ref, group);
    return [before, group].filter((key) => key != null);
  }

  members(group: string): Ref[] {
    return [...(this.#members.get(group) ?? [])];
  }

  clear(): void {
    this.#members.clear();
    this.#groupOf.clear();
  }

  #join(ref: Ref, group: string): void {
    this.#groupOf.set(ref, group);
    const members = this.#members.get(group) ?? new Set<Ref>();
    this.#members.set(group, members.add(ref));
  }
}
