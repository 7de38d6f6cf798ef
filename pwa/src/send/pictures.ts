/**
 * Brings pictures to the server: first the previews of all of them, which are
 * small and are what the other phones show, then the originals piece by piece.
 * After a lost connection the server says how much it has, so that at most one
 * piece is sent twice.
 */
import { bytesKey, isSound, widths, type HeldPhoto, type Width } from "../store/held";
import type { Store } from "../store/store";
import { TroubleError, type TroubleCode } from "../words/trouble";
import type { Server, Upload } from "./server";

/** Bytes in a piece: two seconds on a poor uplink of 1 Mbit/s, and the most that is ever sent twice. */
export const pieceBytes = 256 * 1024;

/** Answers that mean this picture will never be taken as it is. */
const hopeless: ReadonlySet<TroubleCode> = new Set(["too-large", "not-understood"]);

/** How often a picture whose bytes arrived wrong is sent from the beginning in one run. */
const restarts = 2;

export type PictureTools = Readonly<{
  /** Resolves when no note waits: notes go first. Rejects with a TroubleError while they cannot go. */
  notesFirst(): Promise<void>;
  /** Whether originals may go over the present link. */
  linkAllows(): Promise<boolean>;
}>;

export class Pictures {
  readonly #store: Store;
  readonly #server: Server;
  readonly #tools: PictureTools;

  constructor(store: Store, server: Server, tools: PictureTools) {
    this.#store = store;
    this.#server = server;
    this.#tools = tools;
  }

  /** One run: everything that may go, goes. Rejects with a TroubleError. */
  async run(): Promise<void> {
    for (let step = await this.#next(); step; step = await this.#next()) {
      await this.#tools.notesFirst();
      await step();
    }
  }

  /** Chosen anew before each step, since pictures are taken meanwhile. */
  async #next(): Promise<(() => Promise<void>) | null> {
    const photos = (await this.#store.unsentPhotos()).filter((photo) => !photo.failed);
    for (const photo of photos) {
      const width = photo.previews.find((width) => !photo.sentPreviews.includes(width));
      if (width) return () => this.#sendPreview(photo, width);
    }
    const memo = photos.find(isSound); // small enough for any link
    const photo = memo ?? photos[0];
    return photo && (memo || (await this.#tools.linkAllows())) ? () => this.#sendOriginal(photo) : null;
  }

  async #sendPreview(photo: HeldPhoto, width: Width): Promise<void> {
    const held = await this.#store.bytesOf(photo.sha, width);
    try {
      if (held) await this.#server.putPreview(photo.sha, width, photo.size, held.bytes);
    } catch (thrown) {
      if (!isHopeless(thrown) && !isUnknown(thrown)) throw thrown; // else the server makes its own from the original
    }
    await this.#store.progress(photo.sha, { sentPreviews: widths.filter((w) => w === width || photo.sentPreviews.includes(w)) });
  }

  async #sendOriginal(photo: HeldPhoto): Promise<void> {
    const held = await this.#store.bytesOf(photo.sha, "original");
    if (!held) return this.#fail(photo, "store-failed", `${bytesKey(photo.sha, "original")} is missing`);
    const bytes = new Uint8Array(held.bytes);
    try {
      await this.#sendPieces(photo, bytes);
    } catch (thrown) {
      if (!isHopeless(thrown)) throw thrown;
      await this.#fail(photo, thrown.trouble.code, thrown.trouble.detail);
    }
  }

  async #sendPieces(photo: HeldPhoto, bytes: Uint8Array<ArrayBuffer>): Promise<void> {
    let upload = await this.#server.uploadOf(photo.sha);
    for (let left = restarts; !upload.complete; ) {
      await this.#tools.notesFirst();
      const piece = bytes.subarray(upload.offset, upload.offset + pieceBytes);
      const next = await this.#append(photo, upload, piece);
      if (next.offset <= upload.offset && !next.complete && left-- === 0) throw new TroubleError("not-understood");
      upload = next;
      await this.#store.progress(photo.sha, { sent: upload.offset, done: upload.complete ? 1 : 0 });
      if (!upload.complete && (await this.#previewsWait())) return; // a picture was taken: its previews first
    }
    await this.#store.progress(photo.sha, { sent: photo.size, done: 1 });
  }

  /** What the server has after a piece, also where it says that the piece did not fit or the whole was wrong. */
  async #append(photo: HeldPhoto, upload: Upload, piece: Uint8Array<ArrayBuffer>): Promise<Upload> {
    try {
      return await this.#server.append(photo.sha, upload.offset, photo.size, piece);
    } catch (thrown) {
      if (!isOutOfStep(thrown)) throw thrown;
      return this.#server.uploadOf(photo.sha);
    }
  }

  async #previewsWait(): Promise<boolean> {
    const photos = await this.#store.unsentPhotos();
    return photos.some((photo) => !photo.failed && photo.previews.length > photo.sentPreviews.length);
  }

  async #fail(photo: HeldPhoto, code: TroubleCode, detail?: string): Promise<void> {
    await this.#store.progress(photo.sha, { failed: detail ? { code, detail } : { code } });
  }
}

/** A server that is older than previews. */
function isUnknown(thrown: unknown): boolean {
  return thrown instanceof TroubleError && thrown.trouble.code === "not-found";
}

/** What the server has is not what this phone went on from; it says what it has. A file that it does not keep is another matter. */
function isOutOfStep(thrown: unknown): boolean {
  if (!(thrown instanceof TroubleError)) return false;
  const { code } = (thrown.said ?? {}) as { code?: unknown };
  return thrown.status === 409 || (thrown.status === 422 && code === "wrong_content");
}

function isHopeless(thrown: unknown): thrown is TroubleError {
  return thrown instanceof TroubleError && hopeless.has(thrown.trouble.code);
}
