import { onLinkChange, presentLink, unmetered } from "../send/link";
import type { Whose } from "../send/saved-files";
import type { Server } from "../send/server";
import { bytesKey, isSound, type HeldChange, type HeldPhoto, type HeldRefusal, type Width } from "../store/held";
import type { LineNews } from "../store/news";
import type { Store } from "../store/store";
import type { Cursor, ISOInstant } from "../words/ids";
import type { Ref } from "../words/records";
import type { Trouble, TroubleCode } from "../words/trouble";
import { TroubleError, troubleOf } from "../words/trouble";
import { roomOf } from "./room";
import { instantHere } from "../words/days";
import { GivingUp } from "./giving-up.svelte";
import type { Act, LineState, Refused, Room, Saving, Sending, SendingItem, TakenIn } from "./contract";

/** How long `sendNow` waits to hear how it went, milliseconds: the line may be another tab's. */
const hearingMs = 30_000;

type Waiting = Readonly<{
  changes: readonly HeldChange[];
  photos: readonly HeldPhoto[];
  /** Lengths of the previews that wait, by key. */
  sizes: ReadonlyMap<string, number>;
  memos: readonly HeldPhoto[];
  refused: readonly HeldRefusal[];
  cursor: Cursor;
  agreed: ISOInstant | null;
  anyLink: boolean;
}>;

const nothing: Waiting = { changes: [], photos: [], memos: [], sizes: new Map(), refused: [], cursor: "", agreed: null, anyLink: false };
const restingLine: LineNews = { state: "resting", trouble: null, nextTry: null };

/** Entries that wait, each once however often it was changed; one whose picture waits counts as the picture. */
function notesOf({ changes, photos }: Waiting): readonly (readonly HeldChange[])[] {
  const pictured = new Set(photos.map(({ ref }) => ref));
  const entries = new Map<Ref, HeldChange[]>();
  for (const change of changes) if (!pictured.has(change.ref)) entries.set(change.ref, [...(entries.get(change.ref) ?? []), change]);
  return [...entries.values()];
}

/** Whose phone it is, and its server. */
export type Here = Readonly<{ whose: Whose; server: Server; now(): number }>;

/** Entries of which only a memo waits. */
function memosAlone(waiting: Waiting): ReadonlySet<Ref> {
  const counted = new Set([...waiting.changes, ...waiting.photos].map(({ ref }) => ref));
  return new Set(waiting.memos.map(({ ref }) => ref).filter((ref) => !counted.has(ref)));
}

export class HaulmSending implements Sending {
  #store: Store | null = null;
  #here: Here | null = null;
  #deaf: (() => void) | null = null;
  #waiting = $state.raw<Waiting>(nothing);
  #told = $state.raw<LineNews>(restingLine);
  #online = $state(globalThis.navigator?.onLine ?? true);
  #known = $state(false);
  /** Why what waits could not be read. */
  #unread = $state.raw<Trouble | null>(null);
  #linkChanges = $state(0);
  #reading = false;
  #readAgain = false;

  constructor() {
    globalThis.addEventListener?.("online", () => (this.#online = true));
    globalThis.addEventListener?.("offline", () => (this.#online = false));
    onLinkChange(() => (this.#linkChanges += 1));
  }

  async enter(store: Store, here: Here | null = null): Promise<void> {
    this.#store = store;
    this.#here = here;
    this.#deaf = store.listen((news) => {
      if (news.line) this.#told = news.line;
      if (news.sending) void this.#read();
    });
    await this.#read();
  }

  leave(): void {
    this.#deaf?.();
    this.#store = this.#here = null;
    this.#waiting = nothing;
    this.#told = restingLine;
    this.#known = false;
    this.#unread = null;
  }

  get known(): boolean { return this.#known; }
  get notes(): number { return this.#notes; }
  get photos(): number { return this.#waiting.photos.length; }
  get trouble(): Trouble | null { return this.#told.trouble ?? this.#unread; }
  get nextTry(): ISOInstant | null { return this.#told.nextTry; }
  get lastAgreed(): ISOInstant | null { return this.#waiting.agreed; }
  get cursor(): Cursor { return this.#waiting.cursor; }
  get online(): boolean { return this.#online; }
  get anyLink(): boolean { return this.#waiting.anyLink; }

  readonly #notes: number = $derived.by(() => notesOf(this.#waiting).length + memosAlone(this.#waiting).size);
  readonly line: LineState = $derived.by(() => this.#lineState());
  readonly items: readonly SendingItem[] = $derived.by(() => [
    ...noteItems(this.#waiting),
    ...this.#waiting.photos.flatMap((photo) => photoItems(photo, this.#waiting.sizes, this.#originalsHeld)),
    ...this.#waiting.memos.map(memoItem),
  ]);
  readonly refused: readonly Refused[] = $derived(this.#waiting.refused.map(refusedOf));

  async setAnyLink(on: boolean): Promise<void> {
    await this.#store?.setAnyLink(on);
  }

  async sendNow(): Promise<void> {
    const store = this.#store;
    if (!store) return;
    const over = new Promise<void>((resolve) => {
      const deaf = store.listen(({ line }) => line && line.state !== "sending" && (deaf(), resolve()));
      setTimeout(() => (deaf(), resolve()), hearingMs);
    });
    await store.retry();
    await over;
  }

  async mend(change: string, fields: Readonly<Record<string, unknown>>): Promise<void> {
    await this.#store?.mend(change, fields);
  }

  async discard(change: string): Promise<Act> {
    const store = this.#opened;
    const refused = await store.refusal(change);
    if (!refused) throw new TroubleError("not-found");
    await store.discard(change);
    return new GivingUp(refused.ref, instantHere(this.#now), () => store.refuseAgain(refused));
  }

  async giveUp(sha: string): Promise<Act> {
    const store = this.#opened;
    const { ref } = [...this.#waiting.photos, ...this.#waiting.memos].find((file) => file.sha === sha) ?? {};
    if (!ref) throw new TroubleError("not-found");
    await store.giveUp(sha, true);
    return new GivingUp(ref, instantHere(this.#now), () => store.giveUp(sha, false));
  }

  get #opened(): Store {
    if (!this.#store) throw new TroubleError("store-failed", "no garden is open on this phone");
    return this.#store;
  }

  get #now(): number {
    return this.#here?.now() ?? Date.now();
  }

  async save(): Promise<Saving> {
    const [store, { whose, now }] = [this.#store, this.#here ?? {}];
    if (!store || !whose) throw new TroubleError("store-failed", "no garden is open on this phone");
    const { SavedFiles } = await import("../send/saved-files");
    return SavedFiles.of(store, whose, now!());
  }

  async room(): Promise<Room> {
    return roomOf(this.#opened);
  }

  async takeIn(file: Blob): Promise<TakenIn> {
    if (!this.#here) throw new TroubleError("store-failed", "no garden is open on this phone");
    return this.#here.server.takeIn(file);
  }

  get #originalsHeld(): boolean {
    return this.#linkChanges >= 0 && !this.#waiting.anyLink && !unmetered(presentLink()); // asked anew when it changes
  }

  #lineState(): LineState {
    const { changes, photos, memos } = this.#waiting;
    const wanting = photos.filter((photo) => !photo.failed);
    const notes = changes.length + memos.filter((memo) => !memo.failed).length;
    if (this.#told.state === "stopped") return "stopped";
    if (notes + wanting.length === 0) return this.#told.state === "sending" ? "sending" : "resting";
    if (!this.#online) return "offline";
    if (this.#told.state === "sending" || this.#told.trouble) return this.#told.trouble ? "waiting" : "sending";
    const onlyOriginals = notes === 0 && wanting.every((photo) => photo.previews.length <= photo.sentPreviews.length);
    return onlyOriginals && this.#originalsHeld ? "held" : "waiting";
  }

  /** Reads what waits; news that comes meanwhile leads to one more reading. */
  async #read(): Promise<void> {
    this.#readAgain = true;
    if (this.#reading) return;
    this.#reading = true;
    while (this.#readAgain && this.#store) {
      this.#readAgain = false;
      await this.#readFrom(this.#store);
    }
    this.#reading = false;
  }

  /** Where it cannot be read, nothing is said of what waits: it is not known to be sent. */
  async #readFrom(store: Store): Promise<void> {
    try {
      const waiting = await readWaiting(store);
      if (store !== this.#store) return;
      this.#waiting = waiting;
      this.#known = true;
      this.#unread = null;
    } catch (thrown) {
      if (store !== this.#store) return;
      this.#known = false;
      this.#unread = troubleOf(thrown);
    }
  }
}

async function readWaiting(store: Store): Promise<Waiting> {
  const [changes, files, refused, cursor, agreed, anyLink] = await Promise.all([
    store.waiting(), store.unsentPhotos(), store.refused(), store.meta("cursor"), store.meta("agreed"), store.meta("anyLink"),
  ]);
  const [photos, memos] = [files.filter((file) => !isSound(file)), files.filter(isSound)];
  const sizes = await store.sizesOf(photos.flatMap(({ sha, previews, sentPreviews }) =>
    previews.filter((width) => !sentPreviews.includes(width)).map((width) => bytesKey(sha, width))));
  return { changes, photos, memos, sizes, refused, cursor: cursor ?? "", agreed: agreed ?? null, anyLink: anyLink ?? false };
}

/** An item for each entry that waits, since its first change. */
function noteItems(waiting: Waiting): SendingItem[] {
  return notesOf(waiting).map((changes): SendingItem => {
    const [{ id, ref, made: since }] = changes as [HeldChange];
    const bytes = changes.reduce((sum, { set }) => sum + JSON.stringify(set).length, 0);
    return { id, what: "note", ref, bytes, sent: 0, since, held: false, final: false, trouble: null };
  });
}

function memoItem({ sha, ref, size, sent, made: since, failed }: HeldPhoto): SendingItem {
  return { id: sha, what: "memo", ref, bytes: size, sent, since, held: false, final: failed !== undefined, trouble: failed ? troubleIn(failed) : null };
}

function troubleIn(failed: NonNullable<HeldPhoto["failed"]>): Trouble {
  return { ...failed, code: failed.code as TroubleCode };
}

function photoItems(photo: HeldPhoto, sizes: ReadonlyMap<string, number>, originalsHeld: boolean): SendingItem[] {
  const { sha, ref, made: since } = photo;
  const trouble = photo.failed ? troubleIn(photo.failed) : null;
  const waits = (width: Width) => !photo.sentPreviews.includes(width) && !photo.failed;
  const previews = photo.previews.filter(waits).map((width): SendingItem =>
    ({ id: bytesKey(sha, width), what: "preview", ref, bytes: sizes.get(bytesKey(sha, width)) ?? 0, sent: 0, since, held: false, final: false, trouble: null }));
  return [...previews, { id: sha, what: "original", ref, bytes: photo.size, sent: photo.sent, since, held: originalsHeld, final: trouble !== null, trouble }];
}

function refusedOf({ id, ref, set, code, why, made }: HeldRefusal): Refused {
  return { change: id, ref, fields: set, code, why, at: made };
}
