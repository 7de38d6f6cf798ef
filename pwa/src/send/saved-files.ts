/**
 * Saves what waits to files, for a phone that cannot reach its server: a zip of the
 * format "haulm-unsent", which Go's server/unsent describes and takes in. Nothing
 * is taken off the phone by it.
 *
 * What is large comes in several files, each with all the changes and a part of
 * the photos, so that every file is of use alone. One photo is in memory at a time.
 */
import { Zip, ZipDeflate, ZipPassThrough } from "fflate";
import type { HeldPhoto, HeldRefusal, HeldChange, Version } from "../store/held";
import type { Store } from "../store/store";
import { instantHere } from "../words/days";
import { endingOf } from "../words/media";
import { onTheWire } from "./server";

const format = "haulm-unsent";
const version = 1;

/** Bytes in a file, but for a photo that is larger by itself: what an old phone's browser holds at once (a choice of ours). */
const partBytes = 128 << 20;

/** What is reckoned for a photo's two previews, bytes: they are not read only to be measured. */
const previewsBytes = 500_000;

/** Dates that a zip can tell (APPNOTE 4.4.6): a phone whose clock is off them must save all the same. */
const zipYears = [1980, 2099] as const;

/** Whose phone it is. */
export type Whose = Readonly<{ member: string; deviceName: string }>;

/** A file ready to be kept. */
export type SavedFile = Readonly<{ name: string; content: Blob; part: number; parts: number }>;

type Told = (doneBytes: number, allBytes: number) => void;

export class SavedFiles {
  readonly #store: Store;
  readonly #whose: Whose;
  readonly #nowMs: number;
  readonly #changes: readonly HeldChange[];
  readonly #refused: readonly HeldRefusal[];
  readonly #photos: readonly (readonly HeldPhoto[])[];

  private constructor(store: Store, whose: Whose, nowMs: number, waiting: Waiting) {
    this.#store = store;
    this.#whose = whose;
    this.#nowMs = nowMs;
    this.#changes = waiting.changes;
    this.#refused = waiting.refused;
    this.#photos = inParts(waiting.photos);
  }

  /** Settles what will be saved: what waits now. */
  static async of(store: Store, whose: Whose, nowMs: number): Promise<SavedFiles> {
    const [changes, refused, photos] = await Promise.all([store.waiting(), store.refused(), store.unsentPhotos()]);
    return new SavedFiles(store, whose, nowMs, { changes, refused, photos });
  }

  get parts(): number {
    return this.#photos.length;
  }

  /** Makes one of the files, from 1. */
  async make(part: number, told: Told = () => undefined): Promise<SavedFile> {
    const photos = this.#photos[part - 1]!;
    const zip = new BlobZip(this.#nowMs);
    zip.text("changes.jsonl", this.#changes.map((change) => JSON.stringify(onTheWire(change))));
    zip.text("refused.jsonl", this.#refused.map(({ code, why, ...change }) => JSON.stringify({ change: onTheWire(change), code, why })));
    const inside = [];
    let done = 0;
    for (const photo of photos) {
      if (await this.#addPhoto(zip, photo)) inside.push(photoLine(photo));
      told((done += photo.size), photos.reduce((sum, { size }) => sum + size, 0));
    }
    zip.text("manifest.json", [JSON.stringify(this.#manifest(part, inside))]);
    return { name: this.#name(part), content: zip.end(), part, parts: this.parts };
  }

  /** Gives whether anything of the photo is on the phone. */
  async #addPhoto(zip: BlobZip, { sha, type, previews }: HeldPhoto): Promise<boolean> {
    const versions: readonly Version[] = [...previews, "original"];
    let found = false;
    for (const version of versions) {
      const held = await this.#store.bytesOf(sha, version);
      if (held) zip.bytes(`media/${sha}/${version}.${version === "original" ? endingOf(type) : "jpg"}`, new Uint8Array(held.bytes));
      found ||= held !== undefined;
    }
    return found;
  }

  #manifest(part: number, photos: readonly object[]): object {
    const { member, deviceName: device } = this.#whose;
    return { format, version, garden: this.#store.garden, member, device, made: instantHere(this.#nowMs), part, parts: this.parts, photos };
  }

  #name(part: number): string {
    const of = this.parts > 1 ? `-${part}-of-${this.parts}` : "";
    return `${format}-${instantHere(this.#nowMs).slice(0, 10)}${of}.zip`;
  }
}

type Waiting = Readonly<{ changes: readonly HeldChange[]; refused: readonly HeldRefusal[]; photos: readonly HeldPhoto[] }>;

function photoLine({ sha, ref, type, size }: HeldPhoto): object {
  return { sha256: sha, record: ref, type, bytes: size };
}

/** Photos by file; there is one file at least. */
function inParts(photos: readonly HeldPhoto[]): HeldPhoto[][] {
  const parts: HeldPhoto[][] = [[]];
  let room = partBytes;
  for (const photo of photos) {
    const takes = photo.size + previewsBytes;
    if (takes > room && parts.at(-1)!.length > 0) {
      parts.push([]);
      room = partBytes;
    }
    parts.at(-1)!.push(photo);
    room -= takes;
  }
  return parts;
}

/** A zip that goes into blobs as it grows: a browser lays those on its disk when they are large. */
class BlobZip {
  readonly #pieces: Blob[] = [];
  readonly #zip: Zip;
  readonly #mtime: number;

  constructor(nowMs: number) {
    const year = new Date(nowMs).getFullYear();
    this.#mtime = year >= zipYears[0] && year <= zipYears[1] ? nowMs : Date.UTC(zipYears[0], 1);
    this.#zip = new Zip((error, piece) => {
      if (error) throw error;
      this.#pieces.push(new Blob([piece as Uint8Array<ArrayBuffer>]));
    });
  }

  /** Lines of text, packed. */
  text(name: string, lines: readonly string[]): void {
    const entry = new ZipDeflate(name);
    entry.mtime = this.#mtime;
    this.#zip.add(entry);
    const text = new TextEncoder();
    for (const line of lines) entry.push(text.encode(`${line}\n`));
    entry.push(new Uint8Array(), true);
  }

  /** Bytes as they are: pictures are packed already. */
  bytes(name: string, bytes: Uint8Array): void {
    const entry = new ZipPassThrough(name);
    entry.mtime = this.#mtime;
    this.#zip.add(entry);
    entry.push(bytes, true);
  }

  end(): Blob {
    this.#zip.end();
    return new Blob(this.#pieces, { type: "application/zip" });
  }
}
