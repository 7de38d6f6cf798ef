import type { PreviewMaker } from "../previews/previews";
import type { Fetch } from "../send/http";
import type { Server } from "../send/server";
import type { Width } from "../store/held";
import type { Store } from "../store/store";
import { instantHere } from "../words/days";
import type { ISODay, ISOInstant, Sha256 } from "../words/ids";
import type {
  Bed, Garden, Kind, Observation, Planting, RecordKind, Ref, RefOf, Structure, Task, Work,
} from "../words/records";
import { TroubleError, troubleOf, type Trouble } from "../words/trouble";
import { Pen } from "./acts.svelte";
import { loadCatalogue } from "./catalogue";
import type { About, Act, Also, Book, Candidate, Draft, Fetching, Hit, Patch, Photo, Photographed, RoundKept } from "./contract";
import { Entries } from "./entries";
import { Finder } from "./finder.svelte";
import { Loading } from "./loading.svelte";
import { Memos, type MemoAbout } from "./memos";
import { Darkroom } from "./photo/darkroom";
import { Prints } from "./photo/prints";
import { Tying, type Ask } from "./photo/tying";
import { Shelf } from "./shelf.svelte";
import { Views } from "./views.svelte";

/** How often the date is looked at, milliseconds. */
const dateCheckMs = 30_000;

export type BookTools = Readonly<{ now(): number; fetch: Fetch; tie: Ask; previews: Pick<PreviewMaker, "of"> }>;

/** What there is only while a garden is open. */
type Open = Readonly<{ store: Store; server: Server; entries: Entries; darkroom: Darkroom; memos: Memos; prints: Prints; leave(): void }>;

export class GardenBook implements Book {
  readonly #finder = new Finder({
    kind: (id) => this.kind(id),
    bed: (id) => this.bed(id),
    planting: (id) => living(this.planting(id)),
  });
  readonly shelf = new Shelf((refs) => this.#finder.changed(refs));
  readonly #tools: BookTools;
  readonly #views: Views;
  readonly #tying: Tying;
  readonly #loading: Loading;
  #open: Open | null = null;
  #nowMs = $state(0);
  #photosSeq = $state(0);

  constructor(tools: BookTools) {
    this.#tools = tools;
    this.#nowMs = tools.now();
    globalThis.document?.addEventListener?.("visibilitychange", () => document.visibilityState === "visible" && void this.retry());
    globalThis.addEventListener?.("online", () => {
      if (!this.#open) return;
      void this.#loadCatalogue();
      void this.settlePhotos();
    });
    this.#views = new Views(this.shelf, () => this.#nowMs);
    this.#tying = new Tying(this.shelf, this.#views, tools.tie);
    this.#loading = new Loading({ shelf: this.shelf, now: tools.now, catalogue: () => this.#loadCatalogue() });
  }

  /** Opens a garden's store. Resolves when all of it is on the shelf; rejects never, see `trouble`. */
  async enter(store: Store, server: Server): Promise<void> {
    const pen = new Pen(store, this.shelf);
    this.#recall(store);
    const deaf = store.listen((news) => {
      if (news.photos) this.#photosSeq += 1;
      if (news.refs) this.#loading.hear(news.refs);
    });
    const { recent, loaded } = this.#loading.begin(store, pen);
    const fixedDay = () => this.#views.garden?.clock ?? null;
    const tools = { store, shelf: this.shelf, pen, now: this.#tools.now, fixedDay, suffix: () => this.#loading.suffix, recent, loaded };
    const entries = new Entries(tools);
    const darkroom = new Darkroom({ ...tools, entries, tying: this.#tying, previews: this.#tools.previews });
    const memos = new Memos({ ...tools, entries, server });
    const prints = new Prints(store, server);
    const timer = setInterval(() => (this.#nowMs = this.#tools.now()), dateCheckMs);
    this.#open = { store, server, entries, darkroom, memos, prints, leave: () => (deaf(), clearInterval(timer), prints.leave()) };
    await loaded;
    void darkroom.catchUp();
  }

  /** Finds out whose the pictures are that lacked the almanac. Never rejects. */
  async settlePhotos(): Promise<void> {
    if (this.complete) await this.#open?.darkroom.settle();
  }

  /** The first screen shows: what a search needs is made ready bit by bit. */
  prepareSearch(): void {
    this.#finder.prepare();
  }

  /** Reads the garden anew, where the store did not give it before. */
  async retry(): Promise<void> {
    if (!this.#open || !this.trouble) return;
    const { store, server } = this.#open;
    this.leave();
    await this.enter(store, server);
  }

  leave(): void {
    this.#open?.leave();
    this.#open = null;
    this.shelf.clear();
    this.#finder.clear();
    this.#findKinds();
    this.#loading.end();
  }

  get ready(): boolean { return this.#loading.ready; }
  get complete(): boolean { return this.#loading.complete; }
  get trouble(): Trouble | null { return this.#loading.trouble; }
  get photosSeq(): number { return this.#photosSeq; }
  get garden(): Garden | null { return this.#views.garden; }
  get today(): ISODay { return this.#views.today; }
  get clockFixed(): boolean { return this.#views.clockFixed; }
  get beds(): readonly Bed[] { return this.#views.beds; }
  get structures(): readonly Structure[] { return this.#views.structures; }
  get plantings(): readonly Planting[] { return this.#views.plantings; }
  get untied(): readonly Observation[] { return this.#views.untied; }
  get apart(): readonly Observation[] { return this.#views.apart; }

  kind(id: string | undefined): Kind | null { return this.#views.kind(id); }
  planting(id: string | undefined): Planting | null { return this.shelf.one("planting", id); }
  bed(id: string | undefined): Bed | null { return this.shelf.one("bed", id); }
  observation(id: string | undefined): Observation | null { return this.shelf.one("observation", id); }
  task(id: string | undefined): Task | null { return this.shelf.one("task", id); }
  observations(planting: string): readonly Observation[] { return this.shelf.observations(planting); }
  work(planting: string): readonly Work[] { return this.shelf.work(planting); }
  cameOf(planting: string): readonly Planting[] { return this.#views.cameOf(planting); }
  lastLook(planting: string): ISOInstant | null { return this.shelf.observations(planting)[0]?.seen ?? null; }
  photosOf(planting: string): readonly Photo[] { return this.#views.photosOf(planting); }
  visit(planting: string): Observation | null { return this.#open?.entries.shownVisit(planting) ?? null; }
  also(ref: Ref): Readonly<Record<string, readonly Also[]>> { return this.shelf.also(ref); }
  unsent(ref: Ref): boolean { return this.shelf.unsent(ref); }
  search(text: string): readonly Hit[] { return this.#finder.find(text); }

  get round(): RoundKept | null {
    return this.#loading.round?.day === this.today ? this.#loading.round : null;
  }

  async keepRound({ at, askedOnly, asked }: RoundKept): Promise<void> {
    const round = { day: this.today, at, askedOnly, asked };
    this.#loading.round = round;
    await this.#inside(({ store }) => store.keepRound(round));
  }

  async log(planting: string, fields: Patch<"observation">): Promise<Act> {
    return this.#inside(({ entries }) => entries.log(planting, fields));
  }

  async logAll(plantings: readonly string[], fields: Patch<"observation">): Promise<Act> {
    return this.#inside(({ entries }) => entries.logAll(plantings, fields));
  }

  async write<K extends RecordKind>(ref: RefOf<K>, fields: Patch<K>): Promise<Act> {
    return this.#inside(({ entries }) => entries.write(ref, fields));
  }

  async create<K extends RecordKind>(kind: K, fields: Patch<K>): Promise<Act> {
    return this.#inside(({ entries }) => entries.create(kind, fields));
  }

  async remove(ref: Ref): Promise<Act> {
    return this.#inside(({ entries }) => entries.remove(ref));
  }

  async together(drafts: readonly Draft[]): Promise<Act> {
    return this.#inside(({ entries }) => entries.together(drafts));
  }

  newRef<K extends RecordKind>(kind: K): RefOf<K> {
    if (!this.#open) throw new TroubleError("store-failed", "no garden is open on this phone");
    return this.#open.entries.newRef(kind);
  }

  async photograph(file: Blob, about: About = {}): Promise<Photographed> {
    return this.#inside(({ darkroom }) => darkroom.photograph(file, about));
  }

  async keepMemo(sound: Blob, about: MemoAbout): Promise<Act> {
    return this.#inside(({ memos }) => memos.keep(sound, about));
  }

  async memo(sha: Sha256): Promise<Blob | null> {
    return this.#inside(({ memos }) => memos.sound(sha));
  }

  async moveEntry(observation: string, planting: string): Promise<Act> {
    return this.#inside(({ entries }) => entries.move(observation, planting));
  }

  async setApart(observation: string): Promise<Act> {
    return this.#inside(({ entries }) => entries.setApart(observation));
  }

  async candidates(observation: string): Promise<readonly Candidate[]> {
    const { seen, lat, lon, accuracyM } = this.observation(observation) ?? {};
    const place = lat === undefined || lon === undefined ? null : { lat, lon, ...(accuracyM !== undefined && { accuracyM }) };
    const moment = { taken: seen ?? instantHere(this.#tools.now()), place };
    return (await this.#tying.tie(moment, this.#open?.entries.last ?? null)).candidates;
  }

  async photoUrl(sha: Sha256, width: Width): Promise<string | null> {
    return this.#open?.prints.urls.get(sha, width) ?? null;
  }

  async original(sha: Sha256, fetching: Fetching = {}): Promise<Blob> {
    if (!this.#open) throw new TroubleError("store-failed", "no garden is open on this phone");
    return this.#open.prints.original(sha, fetching);
  }

  async #inside<T>(act: (open: Open) => Promise<T>): Promise<T> {
    if (!this.#open) throw new TroubleError("store-failed", "no garden is open on this phone");
    try {
      return await act(this.#open);
    } catch (thrown) {
      const { code, detail } = troubleOf(thrown);
      throw new TroubleError(code, detail);
    }
  }

  /** The garden's name and date are there at once, where they are remembered. */
  #recall(store: Store): void {
    const garden = store.remembered();
    if (garden) this.shelf.put([garden.ref], [garden]);
  }

  /** Keeps the garden's record for the next start's first screen. */
  remember(garden: Garden): void {
    const shown = this.shelf.shown(garden.ref);
    if (shown) this.#open?.store.remember(shown);
  }

  /** Without it plantings go by their kind's short name; it is tried again when the network comes back. */
  async #loadCatalogue(): Promise<void> {
    if (this.#views.catalogue.size > 0) return;
    try {
      this.#views.catalogue = await loadCatalogue(this.#tools.fetch);
      this.#findKinds();
    } catch {
      // tried again when the network comes back
    }
  }

  #findKinds(): void {
    this.#finder.changed([...this.#views.catalogue.values()].map(({ ref }) => ref));
  }
}

function living(planting: Planting | null): Planting | null {
  return planting?.ended === undefined ? planting : null;
}
