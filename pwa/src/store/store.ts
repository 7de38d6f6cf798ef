/**
 * A garden as this phone holds it: the one way to its store. Whatever writes here
 * is on disk when it resolves, and every tab hears of it.
 */
import type { ISOInstant, Sha256, Uuid } from "../words/ids";
import type { RecordKind, Ref } from "../words/records";
import { GardenDatabase } from "./database";
import { durably } from "./durably";
import { beginAgain, dropOrphans } from "./epoch";
import * as feed from "./feed";
import { glance, keepGlance } from "./glance";
import type { HeldBytes, HeldChange, HeldMark, HeldPhoto, HeldRefusal, Unsettled, Version, Width } from "./held";
import { putMeta, readMeta, type HeldRound, type KeptAssessment, type Meta } from "./meta";
import { Newsroom, type LineNews, type News } from "./news";
import type { Shown } from "./overlay";
import * as pictures from "./pictures";
import { letGo, noteShown, taken, type Taken } from "./room";
import { shownInPieces, shownMadeFrom, shownOfKinds, shownOfRefs } from "./reading";
import { suffixFor, takeBack, write, writeAgain, writeSettled, type Draft, type Picture, type Settled, type Written } from "./writing";

/** Within this a tap is to be answered, milliseconds. */
const answerMs = 100;

export class Store {
  readonly garden: string;
  readonly #db: GardenDatabase;
  readonly #news: Newsroom;
  readonly #now: () => number;

  constructor(garden: string, now: () => number) {
    this.garden = garden;
    this.#db = new GardenDatabase(garden);
    this.#news = new Newsroom(garden);
    this.#now = now;
  }

  /** Hears of every change, from every tab. Gives back what ends it. */
  listen(listener: (news: News) => void): () => void {
    return this.#news.listen(listener);
  }

  tellLine(line: LineNews): void {
    this.#news.tell({ line });
  }

  /** Writes changes and the pictures that go with them, all or nothing. */
  async write(drafts: readonly Draft[], pictures: readonly Picture[] = []): Promise<Written> {
    const written = await write(this.#db, this.#now(), drafts, pictures);
    this.#news.tell({ refs: written.changes.map((change) => change.ref), photos: pictures.length > 0 });
    this.#sendAfterAnswer();
    return written;
  }

  /** Writes what was found out about a picture, see writeSettled. */
  async settlePicture(drafts: readonly Draft[], settled: Settled): Promise<Written> {
    const written = await writeSettled(this.#db, this.#now(), drafts, settled);
    this.#news.tell({ refs: written.changes.map((change) => change.ref) });
    this.#sendAfterAnswer();
    return written;
  }

  unsettled(): Promise<Unsettled[]> {
    return pictures.unsettledPictures(this.#db);
  }

  async notePlace(row: Unsettled, here: Unsettled["here"]): Promise<void> {
    await pictures.notePlace(this.#db, row, here);
  }

  /** Takes back what was written, see takeBack. */
  async takeBack(written: Written): Promise<Written["after"]> {
    const after = await takeBack(this.#db, this.#now(), written);
    this.#news.tell({ refs: written.changes.map((change) => change.ref), photos: true });
    this.#sendAfterAnswer();
    return after;
  }

  /** What a person wrote shows before anything is done about sending it; where the app ends before that, its next start sends. */
  #sendAfterAnswer(): void {
    setTimeout(() => this.#news.tell({ sending: true, wake: true }), answerMs);
  }

  /** The garden's own record as it was last shown, at once; null when it is not remembered. */
  remembered(): Shown | null {
    const known = glance();
    return known?.membership.garden === this.garden ? known.garden : null;
  }

  /** Remembers the garden's own record for the next start. */
  remember(garden: Shown): void {
    const known = glance();
    if (known?.membership.garden === this.garden) keepGlance({ ...known, garden });
  }

  /** What is shown of all records of some kinds. */
  shownOf(kinds: readonly RecordKind[]): Promise<Shown[]> {
    return shownOfKinds(this.#db, kinds);
  }

  /** What is shown of the records of a kind that were made in a span of time, see shownMadeFrom. */
  shownMadeFrom(kind: RecordKind, fromMs: number, toMs: number): Promise<Shown[]> {
    return shownMadeFrom(this.#db, kind, fromMs, toMs);
  }

  /** What is shown of all records of some kinds piece by piece, see shownInPieces. */
  shownPiecewise(kinds: readonly RecordKind[], size: number): AsyncGenerator<Shown[]> {
    return shownInPieces(this.#db, kinds, size);
  }

  /** What is shown of some records; null for what is not there. */
  shown(refs: readonly Ref[]): Promise<(Shown | null)[]> {
    return shownOfRefs(this.#db, refs);
  }

  /** This phone's suffix in stamps, made when it has none. */
  suffix(): Promise<string> {
    return durably(this.#db, () => this.#db.transaction("rw", this.#db.meta, () => suffixFor(this.#db)));
  }

  meta<K extends keyof Meta>(name: K): Promise<Meta[K] | undefined> {
    return durably(this.#db, () => readMeta(this.#db, name));
  }

  /** Keeps the almanac's last answer, for the next start's first screen. */
  async keepAssessed(assessed: KeptAssessment): Promise<void> {
    await durably(this.#db, () => putMeta(this.#db, "assessed", assessed));
  }

  async keepRound(round: HeldRound): Promise<void> {
    await durably(this.#db, () => putMeta(this.#db, "round", round));
  }

  async setAnyLink(on: boolean): Promise<void> {
    await durably(this.#db, () => putMeta(this.#db, "anyLink", on));
    this.#news.tell({ sending: true, wake: true });
  }

  /** Changes that no server has acknowledged, oldest first. */
  waiting(): Promise<HeldChange[]> {
    return durably(this.#db, () => this.#db.changes.orderBy("order").filter((change) => change.seq === undefined).toArray());
  }

  refused(): Promise<HeldRefusal[]> {
    return durably(this.#db, () => this.#db.refused.toArray());
  }

  refusal(change: Uuid): Promise<HeldRefusal | undefined> {
    return durably(this.#db, () => this.#db.refused.get(change));
  }

  /** Puts a change aside that the server would not even read, with its sentence. */
  async refuse(change: HeldChange, code: string, why: string): Promise<void> {
    await feed.refuseOne(this.#db, change, code, why);
    this.#news.tell({ refs: [change.ref], sending: true });
  }

  /** Puts a refusal back that was given up. */
  async refuseAgain(refused: HeldRefusal): Promise<void> {
    await durably(this.#db, () => this.#db.refused.put(refused));
    this.#news.tell({ sending: true });
  }

  async discard(change: Uuid): Promise<void> {
    await feed.discard(this.#db, change);
    this.#news.tell({ sending: true });
  }

  /** Writes a refused change again with other values, under a new id, and lets the old one go. */
  async mend(change: Uuid, fields: Readonly<Record<string, unknown>>): Promise<void> {
    const ref = await writeAgain(this.#db, this.#now(), change, fields);
    if (!ref) return;
    this.#news.tell({ refs: [ref], sending: true });
    this.#sendAfterAnswer();
  }

  take(limit: number, size: number): Promise<HeldChange[]> {
    return feed.take(this.#db, limit, size);
  }

  async settle(answer: feed.Answer): Promise<void> {
    const refs = await feed.settle(this.#db, answer);
    this.#news.tell({ refs, sending: true });
  }

  async agree(): Promise<ISOInstant | undefined> {
    await feed.agree(this.#db, this.#now());
    this.#news.tell({ sending: true });
    return this.meta("agreed");
  }

  async beginAgain(fork: number): Promise<void> {
    await beginAgain(this.#db, fork, this.#now());
    this.#news.tell({ sending: true });
  }

  recount(): Promise<void> {
    return feed.recount(this.#db);
  }

  async dropOrphans(): Promise<void> {
    const refs = await dropOrphans(this.#db);
    if (refs.length > 0) this.#news.tell({ refs });
  }

  async forget(records: readonly HeldMark[]): Promise<void> {
    await feed.forget(this.#db, records);
    this.#news.tell({ refs: records.map((record) => record.ref) });
  }

  async mendRecords(records: readonly feed.FeedRecord[]): Promise<void> {
    this.#news.tell({ refs: await feed.mendRecords(this.#db, records) });
  }

  /** Reference and mark of every live record, for finding what differs. */
  async marks(): Promise<HeldMark[]> {
    const records = await durably(this.#db, () => this.#db.records.toArray());
    return records.filter((record) => record.mark !== "").map(({ ref, mark }) => ({ ref, mark }));
  }

  bytesOf(sha: Sha256, version: Version): Promise<HeldBytes | undefined> {
    return pictures.bytesOf(this.#db, sha, version);
  }

  async keepPreview(sha: Sha256, width: Width, type: string, bytes: ArrayBuffer): Promise<void> {
    await pictures.keepPreview(this.#db, sha, width, type, bytes);
  }

  /** Keeps an original that came from the server, for as long as there is room. */
  async keepOriginal(sha: Sha256, type: string, bytes: ArrayBuffer): Promise<void> {
    await pictures.keepOriginal(this.#db, sha, type, bytes, this.#now());
  }

  /** Notes which bytes were shown, and how long they are, by their keys. */
  async noteShown(rows: ReadonlyMap<string, number>): Promise<void> {
    await durably(this.#db, () => noteShown(this.#db, rows, this.#now()));
  }

  /** What the pictures here take. */
  taken(): Promise<Taken> {
    return durably(this.#db, () => taken(this.#db));
  }

  /** Lets go of what the server has, see letGo. */
  letGo(bytes: number): Promise<number> {
    return durably(this.#db, () => letGo(this.#db, bytes));
  }

  async addPreviews(sha: Sha256, previews: ReadonlyMap<Width, ArrayBuffer>): Promise<void> {
    await pictures.addPreviews(this.#db, sha, previews);
    this.#news.tell({ photos: true, sending: true, wake: true });
  }

  /** Sends a picture no more, or again. */
  async giveUp(sha: Sha256, up: boolean): Promise<void> {
    await pictures.giveUp(this.#db, sha, up);
    this.#news.tell({ sending: true });
  }

  /** Lengths of bytes without reading them, by their keys; those never measured are left out. */
  sizesOf(keys: readonly string[]): Promise<Map<string, number>> {
    return pictures.sizesOf(this.#db, keys);
  }

  unsentPhotos(): Promise<HeldPhoto[]> {
    return pictures.unsentPhotos(this.#db);
  }

  withoutPreviews(): Promise<HeldPhoto[]> {
    return pictures.withoutPreviews(this.#db);
  }

  /** Asks for everything that waits to be tried at once, also what had failed. */
  async retry(): Promise<void> {
    await pictures.retry(this.#db);
    this.#news.tell({ sending: true, wake: true });
  }

  async progress(sha: Sha256, change: Partial<HeldPhoto>): Promise<void> {
    await pictures.progress(this.#db, sha, change);
    this.#news.tell({ sending: true });
  }

  close(): void {
    this.#news.close();
    this.#db.closeOnPurpose();
  }

  /** Forgets the garden on this phone. */
  async destroy(): Promise<void> {
    this.#news.close();
    await this.#db.deleteOnPurpose();
  }
}
