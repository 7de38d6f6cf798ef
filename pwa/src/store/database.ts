/**
 * One garden's store on the phone, in IndexedDB. Every write waits for the disk
 * where the browser lets it ("strict" durability), since a screen says "saved"
 * on its word.
 *
 * | table     | key        | holds                                             |
 * |-----------|------------|---------------------------------------------------|
 * | records   | ref        | what the server last gave (HeldRecord)            |
 * | changes   | ++order    | what is written here and not passed yet, in order |
 * | refused   | id         | changes that the server did not take              |
 * | photos    | sha        | pictures taken here and how far they have gone    |
 * | bytes     | sha/width  | previews, and originals until the server has them |
 * | kept      | sha/width  | size of those bytes and when they were last shown |
 * | unsettled | [sha+ref]  | pictures whose time, place and planting are still |
 * |           |            | to be found out                                   |
 * | meta      | name       | cursor, clock, digest, settings                   |
 */
import type { EntityTable, Table, Transaction } from "dexie";
import type { Sha256 } from "../words/ids";
import type { Ref } from "../words/records";
import { KeptDatabase } from "./durably";
import { letGo } from "./room";
import type { HeldBytes, HeldChange, HeldPhoto, HeldRecord, HeldRefusal, Kept, Unsettled } from "./held";

/** The last version below. */
const newestLayout = 2;

export class GardenDatabase extends KeptDatabase {
  readonly records!: Table<HeldRecord, string>;
  readonly changes!: Table<HeldChange, number>;
  readonly refused!: Table<HeldRefusal, string>;
  readonly photos!: Table<HeldPhoto, string>;
  readonly bytes!: Table<HeldBytes, string>;
  readonly kept!: Table<Kept, string>;
  readonly unsettled!: Table<Unsettled, [Sha256, Ref]>;
  readonly meta!: Table<unknown, string>;

  constructor(garden: string) {
    super(`haulm-${garden}`, newestLayout);
    this.version(1).stores({
      records: "ref, kind, epoch",
      changes: "++order, &id, ref",
      refused: "id, ref",
      photos: "sha, ref",
      bytes: "key",
      meta: "",
    });
    this.version(2).stores({ photos: "sha, ref, done", kept: "key, shown", unsettled: "[sha+ref], sha, ref" }).upgrade(toVersion2);
  }

  override async makeRoom(): Promise<boolean> {
    return (await letGo(this, roomBytes).catch(() => 0)) > 0;
  }
}

/** Let go at once when there is no room, bytes: the largest photograph of a phone, and its previews. */
const roomBytes = 32 << 20;

/**
 * A key in IndexedDB is no boolean, so `done` became a number; and every row of
 * bytes got one beside it, with the length unknown: to learn it, all pictures
 * would have to be read, which takes a phone a minute.
 */
async function toVersion2(upgrade: Transaction): Promise<void> {
  await upgrade.table<{ done: unknown }>("photos").toCollection().modify((photo) => void (photo.done = photo.done ? 1 : 0));
  const keys = await upgrade.table<HeldBytes, string>("bytes").toCollection().primaryKeys();
  await upgrade.table<Kept, string>("kept").bulkPut(keys.map((key) => ({ key, size: null, shown: 0 })));
}

/** What outlives the choice of a garden: which gardens this phone is in. */
export class DeviceDatabase extends KeptDatabase {
  readonly gardens!: EntityTable<HeldMembership, "garden">;
  readonly meta!: Table<unknown, string>;

  constructor() {
    super("haulm", 1);
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
