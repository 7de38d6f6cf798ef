/**
 * One garden's store on the phone, in IndexedDB. Every write waits for the disk
 * where the browser lets it ("strict" durability), since a screen says "saved"
 * on its word.
 *
 * | table   | key        | holds                                             |
 * |---------|------------|---------------------------------------------------|
 * | records | ref        | what the server last gave (HeldRecord)            |
 * | changes | ++order    | what is written here and not passed yet, in order |
 * | refused | id         | changes that the server did not take              |
 * | photos  | sha        | pictures taken here and how far they have gone    |
 * | bytes   | sha/width  | previews, and originals until the server has them |
 * | meta    | name       | cursor, clock, digest, settings                   |
 */
import type { EntityTable, Table } from "dexie";
import { KeptDatabase } from "./durably";
import type { HeldBytes, HeldChange, HeldPhoto, HeldRecord, HeldRefusal } from "./held";

export class GardenDatabase extends KeptDatabase {
  readonly records!: Table<HeldRecord, string>;
  readonly changes!: Table<HeldChange, number>;
  readonly refused!: Table<HeldRefusal, string>;
  readonly photos!: Table<HeldPhoto, string>;
  readonly bytes!: Table<HeldBytes, string>;
  readonly meta!: Table<unknown, string>;

  constructor(garden: string) {
    super(`haulm-${garden}`);
    this.version(1).stores({
      records: "ref, kind, epoch",
      changes: "++order, &id, ref",
      refused: "id, ref",
      photos: "sha, ref",
      bytes: "key",
      meta: "",
    });
  }
}

/** What outlives the choice of a garden: which gardens this phone is in. */
export class DeviceDatabase extends KeptDatabase {
  readonly gardens!: EntityTable<HeldMembership, "garden">;
  readonly meta!: Table<unknown, string>;

  constructor() {
    super("haulm");
    this.version(1).stores({ gardens: "garden", meta: "" });
  }
}

export type HeldMembership = Readonly<{
  garden: string;
  member: string;
  role: "keeper" | "helper" | "viewer";
  deviceName: string;
  demo: boolean;
}>;

/** A person of a garden. */
export type HeldMember = Readonly<{ id: string; name: string; role: HeldMembership["role"] }>;
