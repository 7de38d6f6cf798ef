// An invented garden in memory that answers the phone's state contract. Its
// reckoning is written by hand, so that every kind of finding has a screen.

import { SvelteMap } from "svelte/reactivity";
import type { Assessment, Finding, Picture, Strip } from "../../src/almanac/answers";
import type {
  Act, Also, Book, Candidate, Haulm, Hit, Patch, Photo, Photographed, Reckoning, Refused, Sending, SendingItem, Session,
} from "../../src/state/contract";
import type { Bed, FieldsOf, Garden, Kind, Observation, Planting, RecordKind, Ref, RefOf, Work } from "../../src/words/records";

const TODAY = "2014-07-11";
const now = (): string => `${TODAY}T10:42:00-07:00`;

const beds: readonly Bed[] = [
  { id: "wall", ref: "bed/wall", name: "Top wall", order: 1, soil: "sandy loam" },
  { id: "wet", ref: "bed/wet", name: "Wet bed", order: 2, soil: "clay loam" },
  { id: "north", ref: "bed/north", name: "North steps", order: 3, soil: "clay loam" },
];

const planted: readonly (readonly [id: string, kind: string, bed: string, fields: Partial<Planting>])[] = [
  ["nepeta", "nepeta-racemosa", "wall", { planted: "2011-05", form: "pot", potL: 2, count: 7 }],
  ["rose", "rosa-zephirine-drouhin", "wall", { planted: "2010-11", form: "bare-root", grafted: true, depthCm: 5 }],
  ["sage", "salvia-nemorosa-ostfriesland", "wall", { planted: "2012-04-12", count: 3 }],
  ["allium", "allium-hollandicum-purple-sensation", "wall", { planted: "2012-10", form: "bulb", count: 25, depthCm: 15 }],
  ["iris", "iris-sibirica", "wet", { planted: "2012-04", count: 5, form: "division", supplier: "a neighbour" }],
  ["astilbe", "astilbe-arendsii", "wet", { planted: "2013-04", count: 3, form: "pot", potL: 1 }],
  ["aconite", "aconitum-napellus", "wet", { planted: null }],
  ["kousa", "cornus-kousa", "north", { planted: "2014-03-02", form: "pot", potL: 12, heightCm: 120 }],
  ["hydrangea", "hydrangea-paniculata", "north", { planted: "2012-10-11", form: "pot", potL: 5, heightCm: 40, depthCm: 0, amendments: ["20 l leaf mould"], supplier: "a spring plant fair", price: 14 }],
  ["hosta", "hosta-sieboldiana", "north", { planted: "2011", count: 2 }],
  ["aster", "aster-frikartii-monch", "north", { planted: "2013-05", count: 3 }],
];

const plantings: readonly Planting[] = planted.map(([id, kind, bed, fields]) => ({ id, ref: `planting/${id}`, kind, bed, identity: "confirmed", ...fields }));

let serial = 0;
const look = (planting: string | undefined, seen: string, fields: Partial<Observation> = {}): Observation => {
  const id = `seed-${++serial}`;
  return { id, ref: `observation/${id}`, seen: `${seen}:00-07:00`, by: "Wren", ...(planting ? { planting } : {}), ...fields };
};

const looks: readonly Observation[] = [
  look("iris", "2014-07-04T18:20", { stage: 55, note: "Buds fat but shut. Slugs about after the rain.", signs: ["slug"] }),
  look("iris", "2014-06-20T08:05", { notInFlower: true, heightCm: 76, vigour: 4, photos: ["a1"] }),
  look("iris", "2014-05-02T17:00", { up: "in-leaf", heightCm: 34 }),
  look("iris", "2013-06-14T09:00", { stage: 65, heightCm: 88, by: "Ash" }),
  look("nepeta", "2014-06-12T09:00", { stage: 61, vigour: 5 }),
  look("hydrangea", "2014-07-04T18:30", { heightCm: 92, photos: ["b1", "b2", "b3"], note: "Pale between the veins." }),
  look("hydrangea", "2014-05-11T18:30", { heightCm: 83 }),
  look("hydrangea", "2013-08-02T18:30", { heightCm: 66, stage: 61 }),
  look("hosta", "2014-07-11T09:30", { stage: 51, signs: ["slug"], vigour: 3 }),
  look(undefined, "2014-07-10T19:12", { photos: ["c1"] }),
  look(undefined, "2014-07-10T19:14", { photos: ["c2"] }),
];

const finding = (planting: string, verdict: Finding["verdict"], fields: Partial<Finding> = {}): Finding => ({
  planting, verdict, flush: 0, year: 2014, days: null, seasonDays: null, probability: null, worthALook: true, evidence: [], check: [], dismissed: null, ...fields,
});

const findings: readonly Finding[] = [
  finding("iris", "late", {
    days: [9, null], seasonDays: 6, probability: 0.012, check: ["buds", "sun", "water"],
    evidence: [
      { say: "expected-open", from: "2014-06-12", to: "2014-06-24" }, { say: "last-look", day: "2014-07-04", stage: 55, what: "bud" }, { say: "bud-on", day: "2014-07-04" },
      { say: "season", days: 6, sd: 2.8, plants: 14 }, { say: "own-habit", days: 2 },
    ],
  }),
  finding("hydrangea", "small-for-age", {
    flush: null, evidence: [{ say: "measured", day: "2014-07-04", cm: 92, loCm: 110, hiCm: 150 }, { say: "rate", rate: 0.52 }, { say: "grown", cm: 9, likelyCm: 24, from: "2014-05-11", day: "2014-07-04", measures: 2 }, { say: "reaches", year: 2021, yearLo: 2019, yearHi: 2024 }],
    check: ["light", "water", "roots"],
  }),
  finding("nepeta", "needs-a-look", { evidence: [{ say: "no-look-since", day: "2014-06-12" }] }),
  finding("aconite", "not-up", { flush: null, evidence: [{ say: "expected-up", from: "2014-03-20", to: "2014-04-18" }], check: ["dig-care", "slugs", "label"] }),
  finding("sage", "on-time", { worthALook: false, evidence: [{ say: "opened-between", from: "2014-06-03", to: "2014-06-09" }] }),
  finding("hydrangea", "due", { worthALook: false }),
];

const earlySummer = { from: "2014-06-01", to: "2014-06-30", days: 6, sd: 2.8, plants: 14 } as const;

const assessment: Assessment = {
  on: TODAY, skipped: [], tasks: [], findings,
  season: { days: 6, sd: 2.8, from: 14, now: earlySummer, parts: [earlySummer] },
};

const strip = (year: number, fields: Partial<Strip>, colours: readonly string[]): Strip => ({
  year, flush: 0, expected: [158, 182], openBand: [152, 166], certain: null, possible: null, looks: [122, 140, 152, 160, 171, 185], colours, verdict: "on-time", ...fields,
});

const pictures: Readonly<Record<string, Picture>> = {
  iris: {
    height: {
      unit: "cm", measured: [{ day: "2013-06-14", cm: 88 }, { day: "2014-05-02", cm: 34 }, { day: "2014-06-20", cm: 76 }],
      band: seasons(2013, 2014, 100, 70, 95),
    },
    strips: [
      strip(2012, { certain: [163, 176], possible: [158, 180] }, ["#5a4fa0"]), strip(2013, { certain: [160, 172], possible: [155, 178] }, ["#5a4fa0"]),
      strip(2014, { looks: [122, 140, 152, 160, 171, 185], verdict: "late" }, ["#5a4fa0"]),
    ],
  },
  hydrangea: {
    height: {
      unit: "cm", measured: [{ day: "2012-10-11", cm: 40 }, { day: "2013-04-02", cm: 46 }, { day: "2013-08-02", cm: 66 }, { day: "2014-05-11", cm: 83 }, { day: "2014-07-04", cm: 92 }],
      band: [
        { day: "2012-10-11", lo: 36, mid: 40, hi: 45 }, { day: "2013-04-15", lo: 38, mid: 43, hi: 48 }, { day: "2013-09-15", lo: 60, mid: 72, hi: 86 },
        { day: "2014-04-15", lo: 62, mid: 74, hi: 88 }, { day: "2014-09-15", lo: 100, mid: 128, hi: 152 }, { day: "2015-09-15", lo: 130, mid: 165, hi: 200 },
      ],
    },
    strips: [
      strip(2013, { expected: [212, 280], openBand: [204, 222], certain: [214, 262], possible: [206, 270], looks: [130, 180, 206, 214, 240, 262, 270] }, ["#f3efe2", "#d8a9b0"]),
      strip(2014, { expected: [216, 284], openBand: [210, 226], looks: [131, 150, 185], verdict: "due" }, ["#f3efe2", "#d8a9b0"]),
    ],
  },
  nepeta: { height: null, strips: [strip(2014, { expected: [158, 250], openBand: [150, 166], certain: [163, 163], possible: [155, 192], looks: [120, 140, 163], verdict: "needs-a-look" }, ["#7c6bb0"])] },
};

function seasons(from: number, to: number, start: number, lo: number, hi: number): NonNullable<Picture["height"]>["band"] {
  const day = (year: number, of: number): string => new Date(Date.UTC(year, 0, of)).toISOString().slice(0, 10);
  return Array.from({ length: to - from + 1 }, (_, at) => from + at).flatMap((year) => [
    { day: day(year, start - 10), lo: 0, mid: 0, hi: 2 }, { day: day(year, start + 20), lo: lo * 0.3, mid: (lo + hi) * 0.2, hi: hi * 0.5 },
    { day: day(year, start + 60), lo: lo * 0.85, mid: (lo + hi) * 0.46, hi: hi * 0.97 }, { day: day(year, start + 90), lo, mid: (lo + hi) / 2, hi }, { day: day(year, start + 200), lo, mid: (lo + hi) / 2, hi },
  ]);
}

class FixtureBook implements Book {
  readonly #kinds: ReadonlyMap<string, Kind>;
  readonly #entries = new SvelteMap<string, Observation>(looks.map((entry) => [entry.id, entry]));
  readonly #empty: boolean;
  readonly ready = true;
  readonly complete = true;
  readonly trouble = null;
  readonly today = TODAY;
  readonly clockFixed = true;
  readonly structures = [];
  readonly photosSeq = 0;
  readonly garden: Garden;

  constructor(kinds: readonly (Kind & { id: string })[], empty: boolean) {
    this.#kinds = new Map(kinds.map((kind) => [kind.id, { ...kind, ref: `kind/${kind.id}` as const }]));
    this.#empty = empty;
    const place = empty ? {} : { lat: 47.6, lon: -122.3, altitudeM: 20, timeZone: "America/Los_Angeles" };
    this.garden = { id: "demo", ref: "garden/demo", name: "Inlet Steps", units: "metric", ...place };
  }

  get beds(): readonly Bed[] { return this.#empty ? [] : beds; }
  get plantings(): readonly Planting[] { return this.#empty ? [] : plantings; }
  get untied(): readonly Observation[] { return this.#empty ? [] : this.#sorted().filter(({ planting }) => !planting); }

  kind(id: string | undefined): Kind | null { return this.#kinds.get(id ?? "") ?? null; }
  planting(id: string | undefined): Planting | null { return plantings.find((one) => one.id === id) ?? null; }
  bed(id: string | undefined): Bed | null { return beds.find((one) => one.id === id) ?? null; }
  observation(id: string | undefined): Observation | null { return this.#entries.get(id ?? "") ?? null; }
  task(): null { return null; }
  observations(planting: string): readonly Observation[] { return this.#sorted().filter((entry) => entry.planting === planting); }
  work(planting: string): readonly Work[] { return planting === "hydrangea" ? [{ id: "w", ref: "work/w", planting, what: "prune", day: "2014-03-08", heightLeftCm: 60 }] : []; }
  lastLook(planting: string): string | null { return this.observations(planting)[0]?.seen ?? null; }
  photosOf(planting: string): readonly Photo[] {
    return this.observations(planting).flatMap(({ id, seen, photos }) => (photos ?? []).map((sha) => ({ sha, seen: seen!, observation: id })));
  }
  also(ref: Ref): Readonly<Record<string, readonly Also[]>> {
    return ref === looks[0]!.ref ? { note: [{ value: "Still in bud, tight.", at: "2014-07-04", by: "Ash" }] } : {};
  }
  unsent(ref: Ref): boolean { return ref === looks[5]!.ref; }
  search(text: string): readonly Hit[] {
    const wanted = text.trim().toLowerCase();
    const names = (kind: Kind | null): string => [kind?.name, ...(kind?.common ?? [])].join(" ").toLowerCase();
    const here = plantings.filter(({ kind }) => names(this.kind(kind)).includes(wanted));
    const elsewhere = [...this.#kinds.values()].filter((kind) => names(kind).includes(wanted) && !here.some((one) => one.kind === kind.id));
    return [
      ...here.map((planting) => ({ what: "planting" as const, planting, kind: this.kind(planting.kind), score: 1, whole: true })),
      ...elsewhere.map((kind) => ({ what: "kind" as const, kind, score: 0.5, whole: true })),
    ];
  }

  async log(planting: string, fields: Patch<"observation">): Promise<Act> {
    const open = this.observations(planting).find(({ id }) => id.startsWith("new-"));
    return this.#set(open?.id ?? `new-${++serial}`, { planting, seen: now(), ...fields });
  }
  async write<K extends RecordKind>(ref: RefOf<K>, fields: Patch<K>): Promise<Act> {
    return this.#set(ref.slice(ref.indexOf("/") + 1), fields as Patch<"observation">);
  }
  async create<K extends RecordKind>(kind: K, fields: Patch<K>): Promise<Act> {
    return kind === "observation" ? this.#set(`new-${++serial}`, fields as Patch<"observation">) : act(`${kind}/new-${++serial}` as Ref, async () => undefined);
  }
  async remove(ref: Ref): Promise<Act> {
    const id = ref.slice(ref.indexOf("/") + 1);
    const before = this.#entries.get(id);
    this.#entries.delete(id);
    return act(ref, async () => { if (before) this.#entries.set(id, before); });
  }
  async photograph(_: Blob, about: { planting?: string } = {}): Promise<Photographed> {
    const made = this.#set(`new-${++serial}`, { seen: now(), photos: ["c1"], ...about });
    const tied = { planting: about.planting ?? null, sure: about.planting ? 1 : 0, by: null, candidates: [], lacking: null } as const;
    return { ...made, observation: made.ref.slice(12), sha: "c1", settled: Promise.resolve(tied) };
  }
  async moveEntry(observation: string, planting: string): Promise<Act> { return this.#set(observation, { planting, tiedBy: "person" }); }
  async candidates(): Promise<readonly Candidate[]> {
    return [{ planting: "astilbe", probability: 0.62, distanceM: 2.1 }, { planting: "iris", probability: 0.24, distanceM: 4.4 }];
  }
  async photoUrl(sha: string): Promise<string | null> { return sha.startsWith("b") || sha.startsWith("c") ? painted(sha) : null; }

  #sorted(): Observation[] { return [...this.#entries.values()].sort((a, b) => (a.seen! < b.seen! ? 1 : -1)); }
  #set(id: string, fields: Patch<"observation">): Act {
    const before = this.#entries.get(id);
    const set = Object.fromEntries(Object.entries({ ...before, ...fields }).filter(([, value]) => value !== null));
    this.#entries.set(id, { ...set, id, ref: `observation/${id}` } as Observation);
    return act(`observation/${id}`, async () => { if (before) this.#entries.set(id, before); else this.#entries.delete(id); });
  }
}

function act(ref: Ref, undo: () => Promise<void>): Act {
  return { ref, at: now(), undone: false, undo };
}

/** A stand-in picture: leaves and petals in soft light, painted here. */
async function painted(seed: string): Promise<string> {
  const canvas = new OffscreenCanvas(800, 600);
  const brush = canvas.getContext("2d")!;
  const shade = brush.createLinearGradient(0, 0, 0, 600);
  shade.addColorStop(0, "#6d7f5c");
  shade.addColorStop(1, "#2f3d2c");
  brush.fillStyle = shade;
  brush.fillRect(0, 0, 800, 600);
  const hue = seed.charCodeAt(0) === 98 ? "#e9dfd2" : "#b56a8c";
  for (let n = 0; n < 220; n++) {
    const at = (n * 97 + seed.charCodeAt(1) * 31) % 800;
    const down = (n * 53 + seed.charCodeAt(1) * 71) % 600;
    brush.fillStyle = n % 3 ? `hsl(${95 + (n % 30)} 25% ${22 + (n % 5) * 7}%)` : hue;
    brush.beginPath();
    brush.ellipse(at, down, 26 + (n % 22), 10 + (n % 9), n, 0, 7);
    brush.fill();
  }
  return URL.createObjectURL(await canvas.convertToBlob({ type: "image/jpeg", quality: 0.8 }));
}

class FixtureSending implements Sending {
  readonly #full: boolean;
  readonly known = true;
  readonly trouble = null;
  readonly nextTry = null;
  readonly lastAgreed = "2014-07-11T08:02:00-07:00";
  readonly cursor = "1.9411";
  anyLink = $state(false);
  refused = $state.raw<readonly Refused[]>([]);

  constructor(state: string) {
    this.#full = state === "inside" || state === "refused";
    if (state === "refused") {
      this.refused = [{ change: "x", ref: looks[0]!.ref, fields: { stage: 140, note: "first one open" }, code: "invalid_stage", why: "stage 140 is not allowed: it must be a whole number from 0 to 99", at: now() }];
    }
  }

  get notes(): number { return this.#full ? 3 : 0; }
  get photos(): number { return this.#full ? 2 : 0; }
  get line(): Sending["line"] { return this.#full ? "offline" : "resting"; }
  get online(): boolean { return !this.#full; }
  get items(): readonly SendingItem[] {
    if (!this.#full) return [];
    return [
      { id: "1", what: "note", ref: looks[0]!.ref, bytes: 412, sent: 0, since: now(), held: false, trouble: null },
      { id: "2", what: "preview", ref: looks[5]!.ref, bytes: 231_000, sent: 0, since: now(), held: false, trouble: { code: "no-answer" } },
      { id: "3", what: "original", ref: looks[5]!.ref, bytes: 3_640_000, sent: 1_200_000, since: now(), held: true, trouble: null },
    ];
  }
  async setAnyLink(on: boolean): Promise<void> { this.anyLink = on; }
  async sendNow(): Promise<void> { await Promise.resolve(); }
  async mend(change: string): Promise<void> { await this.discard(change); }
  async discard(change: string): Promise<void> { this.refused = this.refused.filter((one) => one.change !== change); }
}

class FixtureSession implements Session {
  state: Session["state"] = $state("inside");
  readonly trouble = null;
  readonly garden = "demo";
  readonly member = "wren";
  readonly role: Session["role"];
  readonly deviceName = "kitchen phone";
  readonly demo = true;
  readonly installed = false;
  readonly inviteCode: string | null;
  readonly install: Session["install"] = { offered: false, ask: async () => undefined };
  readonly update: Session["update"];
  readonly kept = true;
  readonly household: Session["household"] = {
    members: async () => [{ id: "wren", name: "Wren", role: "keeper" }, { id: "ash", name: "Ash", role: "helper" }],
    devices: async () => [{ id: "1", name: "kitchen phone", member: "wren", thisOne: true, joined: "2012-03-01T08:00:00-08:00" }, { id: "2", name: "shed tablet", member: "ash", thisOne: false, joined: "2013-07-09T08:00:00-07:00" }],
    lastMembers: async () => [{ id: "ash", name: "Ash", role: "helper" }],
    revoke: async () => undefined,
    invite: async () => ({ code: "9KQ2-TWM7-4XRD-HB5C-JN8P-VE3F-6A", url: `${location.origin}/join#9KQ2TWM74XRDHB5CJN8PVE3F6A`, expires: "2014-07-12T10:42:00-07:00" }),
  };

  constructor(state: string) {
    this.state = state === "outside" ? "outside" : "inside";
    this.role = state === "viewer" ? "viewer" : "keeper";
    this.inviteCode = state === "outside" ? "9KQ2TWM74XRDHB5CJN8PVE3F6A" : null;
    this.update = { waiting: state === "refused", apply: async () => undefined };
  }

  async join(): Promise<void> { this.state = "inside"; }
  async openDemo(): Promise<void> { this.state = "inside"; }
  async logout(): Promise<void> { this.state = "outside"; }
  async space(): Promise<{ used: number; allowed: number }> { return { used: 48e6, allowed: 9.6e9 }; }
}

class FixtureReckoning implements Reckoning {
  readonly assessment: Assessment | null;
  readonly on = TODAY;
  readonly busy = false;
  readonly trouble: Reckoning["trouble"];

  constructor(state: string) {
    this.assessment = state === "no-almanac" ? null : state === "empty" ? { ...assessment, findings: [], season: null } : assessment;
    this.trouble = state === "no-almanac" ? { code: "no-almanac" } : null;
  }

  async picture(planting: string): Promise<Picture> { return pictures[planting] ?? { strips: [], height: null }; }
}

/** The state of a phone: "inside", "refused", "viewer", "empty", "no-almanac" or "outside". */
export class FixtureHaulm implements Haulm {
  readonly book: FixtureBook;
  readonly session: FixtureSession;
  readonly sending: FixtureSending;
  readonly reckoning: FixtureReckoning;

  constructor(kinds: readonly (FieldsOf["kind"] & { id: string })[], state: string) {
    this.book = new FixtureBook(kinds as readonly Kind[], state === "empty");
    this.session = new FixtureSession(state);
    this.sending = new FixtureSending(state);
    this.reckoning = new FixtureReckoning(state);
  }
}
