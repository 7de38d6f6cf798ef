import type { Almanac } from "../almanac/almanac";
import type { Assessment, Picture, PlantingWorth, Worth } from "../almanac/answers";
import type { CaneAnswer, CaneQuestion } from "../almanac/cane";
import type { AlmanacRecord } from "../almanac/protocol";
import type { TieAnswer, TieQuestion } from "../almanac/tie";
import type { Shown } from "../store/overlay";
import type { Store } from "../store/store";
import type { ISODay } from "../words/ids";
import { recordKinds, type Ref } from "../words/records";
import { troubleOf, type Trouble } from "../words/trouble";
import type { Reckoning } from "./contract";

/** Records in one load: some 200 kB of JSON, so that the worker never works long at one piece. */
const chunk = 500;

/**
 * Entries come in bursts while someone walks the round; the reckoning waits for a
 * pause, milliseconds: longer than from one row of a look to the next, whose tap would
 * else wait for its answer to be drawn (a choice of ours).
 */
const pauseMs = 1500;

/** The answer is kept once nothing was written for this long, milliseconds: the largest value on the phone must not hold up a tap's. */
const keepingMs = 2000;

export type ReckoningTools = Readonly<{
  almanac: Almanac;
  today(): ISODay;
  /** Which app this is, as it was built. */
  app: string;
  /** Called when the almanac has answered for the first time, so that it may be kept for use without a network. */
  proved(): void;
}>;

export class HaulmReckoning implements Reckoning {
  readonly #tools: ReckoningTools;
  #store: Store | null = null;
  #recalling: Store | null = null;
  #deaf: (() => void) | null = null;
  #assessment = $state.raw<Assessment | null>(null);
  /** The almanac has answered since the garden was entered; before that an answer may be of the last time. */
  #answered = false;
  #worth = $state.raw<ReadonlyMap<string, PlantingWorth> | null>(null);
  #weighing: AbortController | null = null;
  #busy = $state(false);
  #behind = $state(false);
  #trouble = $state.raw<Trouble | null>(null);
  /** The loading of the garden into the worker, and which worker that was. */
  #loaded: Promise<void> | null = null;
  #loadedAt = 0;
  #changed = new Set<Ref>();
  #again = false;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #keeping: ReturnType<typeof setTimeout> | undefined;

  constructor(tools: ReckoningTools) {
    this.#tools = tools;
    globalThis.addEventListener?.("online", () => this.#trouble && this.refresh());
  }

  get assessment(): Assessment | null { return this.#assessment; }
  get on(): ISODay | null { return this.#assessment?.on ?? null; }
  get worth(): ReadonlyMap<string, PlantingWorth> | null { return this.#worth; }
  get busy(): boolean { return this.#busy; }
  get behind(): boolean { return this.#behind; }
  get trouble(): Trouble | null { return this.#trouble; }

  /** Shows the answer of the last time until there is a new one. */
  async recall(store: Store): Promise<void> {
    this.#recalling = store;
    const kept = await store.meta("assessed").catch(() => undefined); // without it the first answer is waited for
    if (this.#recalling !== store || this.#answered || kept?.app !== this.#tools.app) return;
    this.#assessment = kept.answer as Assessment;
    if (kept.worth) this.#worth = byPlanting(kept.worth as Worth["plantings"]);
  }

  /** Begins with a garden; the first screen shows by then. */
  enter(store: Store): void {
    if (this.#store === store) return;
    this.#store = store;
    this.#deaf = store.listen((news) => {
      for (const ref of news.refs ?? []) this.#changed.add(ref);
      if (news.refs?.length) this.#behind = true;
      if (news.refs || (news.sending && !this.#answered)) this.#soon();
    });
    this.refresh();
  }

  leave(): void {
    this.#deaf?.();
    clearTimeout(this.#timer);
    clearTimeout(this.#keeping);
    this.#store = this.#loaded = this.#assessment = this.#worth = null;
    this.#recalling = null;
    this.#answered = this.#behind = false;
    this.#changed.clear();
    this.#tools.almanac.stop();
  }

  /** Reckons anew: the date changed, or the almanac may be there now. */
  refresh(): void {
    this.#again = true;
    if (!this.#busy) void this.#reckon();
  }

  async picture(planting: string, signal?: AbortSignal): Promise<Picture> {
    await this.#bring();
    return this.#tools.almanac.ask<Picture>("picture", { on: this.#tools.today(), planting }, signal);
  }

  /** Needs no records either. */
  heightByCane(question: CaneQuestion): Promise<CaneAnswer> {
    return this.#tools.almanac.ask<CaneAnswer>("height-from-photo", question);
  }

  /** Whose a picture is. Needs no records: the question brings them. */
  tie(question: TieQuestion): Promise<TieAnswer> {
    return this.#tools.almanac.ask<TieAnswer>("tie", question);
  }

  #soon(): void {
    clearTimeout(this.#timer);
    clearTimeout(this.#keeping); // there will be a newer answer
    this.#timer = setTimeout(() => this.refresh(), pauseMs);
  }

  /** Until nothing has changed meanwhile. */
  async #reckon(): Promise<void> {
    this.#busy = true;
    this.#weighing?.abort();
    while (this.#again && this.#store) {
      this.#again = false;
      await this.#assess(this.#store);
    }
    this.#busy = false;
    if (!this.#store || !this.#answered) return;
    const store = this.#store;
    this.#keepSoon(store);
    await this.#weigh(store);
    this.#keepSoon(store);
  }

  /** What each look is worth, once the assessment shows: it neither holds that up nor spoils it, and is called off by the next. */
  async #weigh(store: Store): Promise<void> {
    this.#weighing = new AbortController();
    try {
      const worth = await this.#tools.almanac.ask<Worth>("worth", { on: this.#tools.today() }, this.#weighing.signal);
      if (store !== this.#store || this.#lost) return; // of another garden, or of an empty worker
      this.#worth = byPlanting(worth.plantings);
    } catch {
      // called off, or a trouble that the next assessment tells; what was known stays
    }
  }

  async #assess(store: Store): Promise<void> {
    try {
      if ((await store.meta("agreed")) === undefined) return; // a garden half fetched would seem all unseen
      await this.#bring();
      const answer = await this.#tools.almanac.ask<Assessment>("assess", { on: this.#tools.today() });
      if (store !== this.#store) return;
      if (this.#lost) return void (this.#again = true); // that answer may be of an empty worker
      if (!this.#answered) this.#tools.proved();
      this.#answered = true;
      this.#assessment = answer;
      this.#behind = this.#changed.size > 0;
      this.#trouble = null;
    } catch (thrown) {
      if (store === this.#store) this.#trouble = troubleOf(thrown);
    }
  }

  /** For the next start's first screens. Where it cannot be kept, that start waits for its own answer. */
  #keepSoon(store: Store): void {
    if (store !== this.#store) return;
    clearTimeout(this.#keeping);
    this.#keeping = setTimeout(() => {
      const worth = this.#worth ? [...this.#worth.values()] : undefined;
      store.keepAssessed({ app: this.#tools.app, answer: this.#assessment, ...(worth && { worth }) }).catch(() => undefined);
    }, keepingMs);
  }

  /** Sees to it that the worker holds the garden as it is shown. */
  async #bring(): Promise<void> {
    if (this.#lost) this.#loaded = null;
    this.#loaded ??= this.#load();
    try {
      await this.#loaded;
      await this.#update();
    } catch (thrown) {
      this.#loaded = null;
      throw thrown;
    }
  }

  get #lost(): boolean {
    return this.#loadedAt !== this.#tools.almanac.losses;
  }

  async #load(): Promise<void> {
    this.#loadedAt = this.#tools.almanac.losses;
    for await (const shown of this.#store!.shownPiecewise(recordKinds, chunk)) {
      await this.#tools.almanac.upsert(shown.filter(({ gone }) => !gone).map(recordOf));
    }
  }

  async #update(): Promise<void> {
    const refs = [...this.#changed];
    if (refs.length === 0 || !this.#store) return;
    this.#changed.clear();
    const shown = await this.#store.shown(refs);
    const here = shown.filter((one): one is Shown => one !== null && !one.gone);
    const there = new Set(here.map(({ ref }) => ref));
    const gone = refs.filter((ref) => !there.has(ref));
    if (gone.length > 0) await this.#tools.almanac.forget(gone);
    for (let i = 0; i < here.length; i += chunk) await this.#tools.almanac.upsert(here.slice(i, i + chunk).map(recordOf));
  }
}

function byPlanting(plantings: Worth["plantings"]): ReadonlyMap<string, PlantingWorth> {
  return new Map(plantings.map((one) => [one.planting, one]));
}

function recordOf({ ref, fields }: Shown): AlmanacRecord {
  return { record: ref, fields };
}
