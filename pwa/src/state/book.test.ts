import "fake-indexeddb/auto";
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { TieAnswer, TieQuestion } from "../almanac/tie";
import { FakeServer, json } from "../send/fake-server";
import { Notes } from "../send/notes";
import { Server } from "../send/server";
import type { Previews } from "../previews/previews";
import { Store } from "../store/store";
import { newId } from "../words/uuid";
import { TroubleError } from "../words/trouble";
import { GardenBook } from "./book.svelte";

const catalogue = { version: 1, kinds: [
  { id: "nepeta-racemosa", name: "Nepeta racemosa", synonyms: ["Nepeta mussinii"], common: ["catmint"] },
  { id: "helleborus-orientalis", name: "Helleborus × hybridus", synonyms: ["Helleborus orientalis"], common: ["Lenten rose", "hellebore"] },
  { id: "rosa-felicite", name: "Rosa ‘Félicité Perpétue’", synonyms: [], common: ["rose"] },
] };

const start = Date.parse("2026-06-02T09:15:00.000Z");
let nowMs = start;
let fake: FakeServer;
let store: Store;
let book: GardenBook;
let tie: (question: TieQuestion) => Promise<TieAnswer>;
let questions: TieQuestion[];
let develop: (picture: Blob) => Promise<Previews>;

beforeEach(async () => {
  nowMs = start;
  fake = new FakeServer();
  questions = [];
  tie = () => Promise.reject(new Error("no almanac"));
  develop = () => Promise.reject(new TroubleError("unreadable-picture"));
  await reopen(newId(nowMs));
});
afterEach(async () => {
  book.leave();
  await store.destroy();
});

async function reopen(garden: string): Promise<void> {
  await reopening(garden).entered;
}

function reopening(garden: string): { entered: Promise<void> } {
  const now = () => nowMs;
  const fetcher: typeof fetch = async (input, init) => (String(input) === "/catalogue.json" ? json(catalogue) : fake.fetch(input, init));
  store = new Store(garden, now);
  book = new GardenBook({ now, fetch: fetcher, tie: (question) => (questions.push(question), tie(question)), previews: { of: (of) => develop(of) } });
  return { entered: book.enter(store, new Server("g", fetcher, now)) };
}

async function again(): Promise<void> {
  book.leave();
  store.close();
  await reopen(store.garden);
}

async function plant(id: string, kind: string, fields: object = {}): Promise<void> {
  await book.write(`planting/${id}`, { kind, ...fields });
}

const minutes = (n: number) => (nowMs += n * 60_000);
const waiting = async () => (await store.waiting()).length;

describe("logging", () => {
  it("extends one observation through a visit, and begins another after half an hour", async () => {
    await book.log("cat", { stage: 61 });
    minutes(10);
    await book.log("cat", { heightCm: 40 });
    expect(book.observations("cat")).toMatchObject([{ stage: 61, heightCm: 40 }]);
    minutes(31);
    await book.log("cat", { stage: 65 });
    expect(book.observations("cat").map(({ stage }) => stage)).toEqual([65, 61]);
    expect(Date.parse(book.lastLook("cat")!)).toBe(nowMs);
  });

  it("makes one observation of two taps at once", async () => {
    await Promise.all([book.log("cat", { stage: 61 }), book.log("cat", { heightCm: 40 })]);
    expect(book.observations("cat").length).toBe(1);
  });

  it("never extends what another phone saw", async () => {
    fake.put("observation/theirs", { planting: "cat", seen: "2026-06-02T09:10:00+00:00", stage: 60 });
    await new Notes(store, new Server("g", fake.fetch, () => nowMs)).run();
    await book.log("cat", { stage: 61 });
    expect(book.observations("cat").map(({ id }) => id === "theirs")).toEqual([false, true]);
  });

  it("extends the visit also after it was sent and the page was opened again", async () => {
    await book.log("cat", { stage: 61 });
    await new Notes(store, new Server("g", fake.fetch, () => nowMs)).run();
    await again();
    await book.log("cat", { heightCm: 40 });
    expect(book.observations("cat")).toMatchObject([{ stage: 61, heightCm: 40 }]);
  });

  it("extends the visit of a moment ago while years of other looks are still being read", async () => {
    await book.log("cat", { stage: 61 });
    await book.log("dog", { stage: 61 });
    minutes(20);
    book.leave();
    const never = vi.spyOn(Store.prototype, "shownPiecewise").mockImplementation(async function* () { await new Promise(() => {}); });
    store.close();
    reopening(store.garden);
    await book.log("cat", { heightCm: 40 });
    expect(book.observations("cat")).toMatchObject([{ stage: 61, heightCm: 40 }]);
    minutes(11);
    await book.log("dog", { heightCm: 40 });
    expect(book.observations("dog").map(({ stage, heightCm }) => [stage, heightCm])).toEqual([[undefined, 40], [61, undefined]]);
    never.mockRestore();
  });

  it("undoes the last entry alone, then the observation", async () => {
    const first = await book.log("cat", { stage: 61 });
    const second = await book.log("cat", { stage: 65, heightCm: 40 });
    await second.undo();
    expect([book.observations("cat")[0]!.stage, book.observations("cat")[0]!.heightCm, second.undone]).toEqual([61, undefined, true]);
    await first.undo();
    expect([book.observations("cat"), await waiting()]).toEqual([[], 0]);
  });

  it("writes several records as one act, and takes them all back at once", async () => {
    await plant("cat", "nepeta-racemosa", { count: 5 });
    const part = book.newRef("planting");
    const act = await book.together([
      { ref: part, set: { kind: "nepeta-racemosa", count: 2 } },
      { ref: "planting/cat", set: { count: 3 } },
    ]);
    expect([act.ref, book.plantings.map(({ count }) => count).sort()]).toEqual([part, [2, 3]]);
    await act.undo();
    expect(book.plantings.map(({ count }) => count)).toEqual([5]);
  });

  it("notes the same at several plantings as one act, extending the visits that are open", async () => {
    await book.log("cat", { heightCm: 40 });
    minutes(10);
    const act = await book.logAll(["cat", "sage", "rose"], { notInFlower: true });
    const noted = (id: string) => book.observations(id).map(({ heightCm, notInFlower }) => [heightCm, notInFlower]);
    expect(["cat", "sage", "rose"].map(noted)).toEqual([[[40, true]], [[undefined, true]], [[undefined, true]]]);
    await act.undo();
    expect(["cat", "sage", "rose"].map(noted)).toEqual([[[40, undefined]], [], []]);
    expect(await waiting()).toBe(1);
  });

  it("takes back what was noted at several plantings also after it was sent", async () => {
    const act = await book.logAll(["cat", "sage"], {});
    await new Notes(store, new Server("g", fake.fetch, () => nowMs)).run();
    await act.undo();
    expect([book.observations("cat"), book.observations("sage"), await waiting()]).toEqual([[], [], 2]);
  });

  it("makes no second observation of two taps on the rest of a bed", async () => {
    await Promise.all([book.logAll(["cat", "sage"], {}), book.logAll(["sage", "rose"], {})]);
    expect(["cat", "sage", "rose"].map((id) => book.observations(id).length)).toEqual([1, 1, 1]);
  });

  it("writes nothing when nothing is added to a visit that is open", async () => {
    await book.log("cat", { stage: 61 });
    const act = await book.log("cat", {});
    expect([act.ref, await waiting()]).toEqual([book.observations("cat")[0]!.ref, 1]);
    await act.undo();
    expect([book.observations("cat")[0]!.stage, await waiting()]).toEqual([61, 1]);
  });

  it("undoes twice as if once", async () => {
    const act = await book.log("cat", { stage: 61 });
    await Promise.all([act.undo(), act.undo()]);
    expect(await waiting()).toBe(0);
  });

  it("can be taken back once more where it could not be, whole and in its order", async () => {
    const act = await book.photograph(picture("gps_nw.jpg"));
    await act.settled;
    const failing = vi.spyOn(store, "takeBack").mockRejectedValueOnce(new TroubleError("no-room"));
    await expect(act.undo()).rejects.toThrow("no-room");
    expect([act.undone, book.untied.length]).toEqual([false, 1]);
    await act.undo();
    expect([act.undone, book.untied.length, failing.mock.calls.length]).toEqual([true, 0, 3]);
  });

  it("notes the garden's own date where it stands still", async () => {
    await book.write("garden/g", { name: "Inlet Steps", clock: "2015-07-10" });
    await book.log("cat", { stage: 61 });
    expect([book.today, book.clockFixed, book.observations("cat")[0]!.seen!.slice(0, 10)]).toEqual(["2015-07-10", true, "2015-07-10"]);
  });

  it("is there after the page was closed", async () => {
    await book.log("cat", { stage: 61 });
    await again();
    expect([book.ready, book.complete, book.observations("cat")[0]!.stage]).toEqual([true, true, 61]);
    expect(book.unsent(book.observations("cat")[0]!.ref)).toBe(true);
  });
});

describe("a store that does not give the garden", () => {
  it("is told, also when the catalogue comes after it, and the garden is read again when asked", async () => {
    await plant("cat", "nepeta-racemosa");
    await book.log("cat", { stage: 61 });
    const broken = vi.spyOn(Store.prototype, "shownOf").mockRejectedValue(new Error("locked"));
    await again();
    expect([book.trouble?.code, book.ready, book.complete]).toEqual(["store-failed", false, false]);
    broken.mockRestore();
    await book.retry();
    expect([book.trouble, book.complete, book.observations("cat").length]).toEqual([null, true, 1]);
  });

  it("is told in the middle of years of entries, and what was there stays", async () => {
    await plant("cat", "nepeta-racemosa");
    const broken = vi.spyOn(Store.prototype, "shownPiecewise").mockImplementation(async function* () { throw new Error("locked"); });
    await again();
    expect([book.trouble?.code, book.ready, book.complete, book.planting("cat")?.kind]).toEqual(["store-failed", true, false, "nepeta-racemosa"]);
    broken.mockRestore();
    await book.retry();
    expect([book.trouble, book.complete]).toEqual([null, true]);
  });

  it("puts nothing of a garden that was left on the next one's shelf", async () => {
    await plant("cat", "nepeta-racemosa");
    const [old, oldStore] = [book, store];
    old.leave();
    const entering = old.enter(oldStore, new Server("g", fake.fetch, () => nowMs));
    old.leave();
    const other = new Store(newId(nowMs + 1), () => nowMs);
    await old.enter(other, new Server("g", fake.fetch, () => nowMs));
    await entering;
    expect(old.planting("cat")).toBeNull();
    old.leave();
    await other.destroy();
  });
});

describe("the round", () => {
  it("lists living plantings bed by bed, from west to east", async () => {
    await book.write("bed/wall", { name: "Top wall", order: 2 });
    await book.write("bed/wet", { name: "Wet bed", order: 1 });
    await plant("a", "nepeta-racemosa", { bed: "wall", at: [1, 0] });
    await plant("b", "nepeta-racemosa", { bed: "wet", at: [5, 0] });
    await plant("c", "nepeta-racemosa", { bed: "wet", at: [2, 0] });
    await plant("dead", "nepeta-racemosa", { bed: "wet", at: [1, 0], ended: "2025-11-01" });
    expect([book.beds.map(({ id }) => id), book.plantings.map(({ id }) => id)]).toEqual([["wet", "wall"], ["c", "b", "a"]]);
  });

  it("is kept where it was left, through the end of the page, until the day is over", async () => {
    const round = { at: "cat", askedOnly: true, asked: ["cat", "sage"] };
    await book.keepRound(round);
    await again();
    expect(book.round).toMatchObject(round);
    nowMs += 24 * 3_600_000;
    await again();
    expect(book.round).toBeNull();
  });

  it("shows what this phone has noted in a visit that is open, also after the page was closed, and not what is long past or another's", async () => {
    await book.log("cat", { stage: 61 });
    expect(book.visit("cat")).toMatchObject({ stage: 61 });
    await again();
    expect(book.visit("cat")).toMatchObject({ stage: 61 });
    minutes(31);
    expect(book.visit("cat")).toBeNull();
    fake.put("observation/theirs", { planting: "sage", seen: "2026-06-02T09:45:00+00:00", stage: 60 });
    await new Notes(store, new Server("g", fake.fetch, () => nowMs)).run();
    expect([book.observations("sage").length, book.visit("sage")]).toEqual([1, null]);
  });

  it("lays the garden's own kind over the catalogue's", async () => {
    await book.write("kind/nepeta-racemosa", { heightCm: [40, 60] });
    expect(book.kind("nepeta-racemosa")).toMatchObject({ name: "Nepeta racemosa", heightCm: [40, 60] });
    expect(book.kind("unheard-of")).toBeNull();
  });
});

describe("search", () => {
  const found = (text: string) => book.search(text).map((hit) => (hit.what === "planting" ? hit.planting.id : hit.kind.id));

  it.each([
    ["catmint", "cat"], ["mussinii", "cat"], ["nepata", "cat"], ["Nepeta rac", "cat"], ["wall", "cat"],
    ["hellebrus", "helleborus-orientalis"], ["lenten", "helleborus-orientalis"], ["felicite", "rosa-felicite"],
  ])("%s finds %s first", async (text, id) => {
    await book.write("bed/wall", { name: "Top wall" });
    await plant("cat", "nepeta-racemosa", { bed: "wall" });
    expect(found(text)[0]).toBe(id);
  });

  it("puts what grows here before what does not", async () => {
    await plant("cat", "nepeta-racemosa", { label: "under the hellebore" });
    expect(found("hellebore")).toEqual(["cat", "helleborus-orientalis"]);
    expect(found("catmint")).toEqual(["cat", "nepeta-racemosa"]);
  });

  it("finds what has one of the words where nothing has all", () => expect(found("lenten fountain")[0]).toBe("helleborus-orientalis"));

  it("finds nothing where nothing is near", () => expect(found("zzzzz")).toEqual([]));

  it("follows what is planted, renamed, ended and taken back", async () => {
    await plant("cat", "nepeta-racemosa", { label: "Barn Blue" });
    expect(found("barn")).toEqual(["cat"]);
    const renamed = await book.write("planting/cat", { label: "Gate Blue" });
    expect([found("barn"), found("gate")]).toEqual([[], ["cat"]]);
    await renamed.undo();
    const ended = await book.write("planting/cat", { ended: "2026-05-01" });
    expect(found("barn")).toEqual([]);
    await ended.undo();
    expect(found("barn")).toEqual(["cat"]);
  });

  it("finds the garden's own kinds, and is whole again after the garden was left and entered", async () => {
    await book.write("kind/own", { name: "Geranium ‘Barn Dance’", common: ["cranesbill"] });
    await again();
    expect([found("barn dance"), found("catmint")]).toEqual([["own"], ["nepeta-racemosa"]]);
    book.prepareSearch();
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(found("cranesbill")).toEqual(["own"]);
  });
});

const folder = join(import.meta.dirname, "../../../testdata/images");
const picture = (name: string, lastModified = nowMs) => new File([readFileSync(join(folder, name))], name, { type: "image/jpeg", lastModified });

describe("photographing", () => {
  it("makes no entry of a file that is no picture", async () => {
    await expect(book.photograph(new File(["a list of plants"], "notes.txt"))).rejects.toMatchObject({ trouble: { code: "unreadable-picture" } });
    expect(book.untied).toEqual([]);
  });

  it("keeps picture and entry before it does anything else", async () => {
    const { sha, observation } = await book.photograph(picture("no_exif.jpg"));
    expect([(await store.unsentPhotos())[0]!.sha, book.observation(observation)!.photos, book.untied.length]).toEqual([sha, [sha], 1]);
    expect((await store.bytesOf(sha, "original"))!.bytes.byteLength).toBe(picture("no_exif.jpg").size);
  });

  it("survives the page closing right after it", async () => {
    const { sha } = await book.photograph(picture("no_exif.jpg"));
    await again();
    expect([book.untied[0]!.photos, (await store.unsentPhotos()).length]).toEqual([[sha], 1]);
  });

  const sure = async (): Promise<TieAnswer> =>
    ({ tied: "cat", sure: 0.94, lacking: "", candidates: [{ planting: "cat", probability: 0.94, distanceM: 0.8 }], others: 0, none: 0.06 });

  it("finds out at the next start whose a picture is, when the page closed right after it", async () => {
    await plant("cat", "nepeta-racemosa", { at: [3, 2] });
    tie = () => new Promise(() => undefined);
    const { observation } = await book.photograph(picture("gps_nw.jpg"));
    tie = sure;
    await again();
    await vi.waitFor(() => expect(book.observation(observation)).toMatchObject(
      { planting: "cat", lat: 40.5, seen: "2024-07-01T06:00:00-06:00", tiedBy: "place", tiedSure: 0.94 }));
    await vi.waitFor(async () => expect(await store.unsettled()).toEqual([]));
  });

  it("finds out as soon as the almanac answers, once, and undoes it with the picture", async () => {
    const act = await book.photograph(picture("gps_nw.jpg"));
    expect((await act.settled).lacking).toBe("almanac");
    expect(book.observation(act.observation)).toMatchObject({ lat: 40.5, seen: "2024-07-01T06:00:00-06:00" });
    tie = sure;
    await book.settlePhotos();
    expect([book.observation(act.observation)!.planting, await store.unsettled()]).toEqual(["cat", []]);
    const asked = questions.length;
    await book.settlePhotos();
    expect(questions.length).toBe(asked);
    await act.undo();
    expect([await waiting(), await store.unsentPhotos(), book.untied]).toEqual([0, [], []]);
  });

  it("never ties anew what a person gave to a planting meanwhile", async () => {
    const { observation, settled } = await book.photograph(picture("gps_nw.jpg"));
    await settled;
    await book.moveEntry(observation, "right");
    tie = sure;
    await book.settlePhotos();
    expect([book.observation(observation)!.planting, await store.unsettled()]).toEqual(["right", []]);
  });

  it("leaves nothing to find out about a picture that was undone", async () => {
    const { undo, settled } = await book.photograph(picture("gps_nw.jpg")).then((act) => ({ undo: () => act.undo(), settled: act.settled }));
    await settled;
    await undo();
    expect([await store.unsettled(), await waiting()]).toEqual([[], 0]);
  });

  it("makes at the next start the previews that a lost worker did not make, and blames no picture", async () => {
    develop = () => Promise.reject(new Error("the worker stopped"));
    const { sha, settled } = await book.photograph(picture("no_exif.jpg"));
    await settled;
    expect((await store.unsentPhotos())[0]).toMatchObject({ previews: [] });
    expect((await store.unsentPhotos())[0]!.unreadable).toBeUndefined();
    develop = async () => new Map([[320, new Uint8Array([1]).buffer]]);
    await again();
    await vi.waitFor(async () => expect((await store.bytesOf(sha, 320))?.bytes.byteLength).toBe(1));
  });

  it("keeps the original of a picture that is sent until its time and place are read", async () => {
    tie = () => new Promise(() => undefined);
    const { sha, ref } = await book.photograph(picture("gps_nw.jpg"));
    await store.progress(sha, { done: 1 });
    expect(await store.bytesOf(sha, "original")).toBeDefined();
    tie = sure;
    await again();
    await vi.waitFor(async () => expect(await store.bytesOf(sha, "original")).toBeUndefined());
    expect((await store.shown([ref]))[0]!.fields["lat"]).toBe(40.5);
  });

  it("keeps a picture once that is given to two entries, and undoes the second alone", async () => {
    const [first, second] = [await book.photograph(picture("no_exif.jpg")), await book.photograph(picture("no_exif.jpg"))];
    await Promise.all([first.settled, second.settled]);
    await second.undo();
    expect([book.untied.map(({ id }) => id), (await store.unsentPhotos()).length]).toEqual([[first.observation], 1]);
    expect((await store.bytesOf(first.sha, "original"))!.bytes.byteLength).toBe(picture("no_exif.jpg").size);
  });

  it("joins the visit of the planting that was chosen", async () => {
    await book.log("cat", { stage: 61 });
    const { settled, sha } = await book.photograph(picture("no_exif.jpg"), { planting: "cat" });
    expect(await settled).toMatchObject({ planting: "cat", sure: 1, by: "person" });
    expect(book.observations("cat")).toMatchObject([{ stage: 61, photos: [sha] }]);
    expect(book.photosOf("cat")).toMatchObject([{ sha }]);
  });

  it("reads time and place of an older picture, and asks the almanac with them", async () => {
    tie = async () => ({ tied: "cat", sure: 0.94, lacking: "", candidates: [{ planting: "cat", probability: 0.94, distanceM: 0.8 }], others: 0, none: 0.06 });
    await plant("cat", "nepeta-racemosa", { at: [3, 2] });
    const { settled, observation } = await book.photograph(picture("gps_nw.jpg"));
    expect(await settled).toMatchObject({ planting: "cat", sure: 0.94, by: "place", lacking: null });
    expect(questions[0]).toMatchObject({ photo: { lat: 40.5, lon: -105.25, seen: "2024-07-01T06:00:00-06:00" }, plantings: [{ id: "cat", at: [3, 2] }] });
    expect(book.observation(observation)).toMatchObject(
      { planting: "cat", lat: 40.5, seen: "2024-07-01T06:00:00-06:00", tiedBy: "place", tiedSure: 0.94 });
  });

  it("leaves an unsure picture in the tray, with candidates", async () => {
    tie = async () => ({ tied: null, sure: 0.5, lacking: "", candidates: [{ planting: "cat", probability: 0.5, distanceM: null }], others: 0.4, none: 0.1 });
    const { settled, observation } = await book.photograph(picture("gps_nw.jpg"));
    expect((await settled).planting).toBeNull();
    expect(book.untied.map(({ id }) => id)).toEqual([observation]);
    expect(await book.candidates(observation)).toEqual([{ planting: "cat", probability: 0.5 }]);
    await book.moveEntry(observation, "cat");
    expect([book.untied, book.observations("cat")[0]!.tiedBy]).toEqual([[], "person"]);
  });

  it("offers the planting logged last while there is no almanac, and ties nothing", async () => {
    await book.log("cat", { stage: 61 });
    const { settled } = await book.photograph(picture("no_exif.jpg"));
    expect(await settled).toEqual(
      { planting: null, sure: 0, by: null, candidates: [{ planting: "cat", probability: null }], lacking: "almanac" });
  });

  it("puts pictures of other days that are given to a planting on their own days", async () => {
    const aWeekAgo = nowMs - 7 * 86_400_000;
    const about = { planting: "cat", fromGallery: true };
    const now = await book.photograph(picture("date_blank.jpg"), about);
    const dated = await book.photograph(picture("gps_nw.jpg"), about); // some galleries give every file the age of now
    const undated = await book.photograph(picture("no_exif.jpg", aWeekAgo), about);
    await Promise.all([dated.settled, undated.settled, now.settled]);
    expect(book.observations("cat").map(({ seen }) => Date.parse(seen!))).toEqual([nowMs, aWeekAgo, Date.parse("2024-07-01T06:00:00-06:00")]);
  });

  it("adds another picture of the same visit to its entry, tied or not, and undoes it alone", async () => {
    const first = await book.photograph(picture("no_exif.jpg"));
    await first.settled;
    minutes(5);
    const second = await book.photograph(picture("little_endian.jpg"), { entry: first.observation });
    await second.settled;
    expect(book.untied.map(({ photos }) => photos)).toEqual([[first.sha, second.sha]]);
    await second.undo();
    expect(book.untied.map(({ photos }) => photos)).toEqual([[first.sha]]);
  });

  it("begins another entry of the same planting when the first is of another visit", async () => {
    const first = await book.photograph(picture("no_exif.jpg"), { planting: "cat" });
    await first.settled;
    minutes(31);
    const second = await book.photograph(picture("date_blank.jpg"), { entry: first.observation });
    await second.settled;
    expect(book.observations("cat").map(({ photos }) => photos)).toEqual([[second.sha], [first.sha]]);
  });

  it("ties nothing that a person said is of no planting, and undoes that", async () => {
    const { observation, settled } = await book.photograph(picture("gps_nw.jpg"));
    await settled;
    const act = await book.setApart(observation);
    expect([book.untied, book.apart.map(({ id }) => id)]).toEqual([[], [observation]]);
    tie = sure;
    await book.settlePhotos();
    expect(book.observation(observation)!.planting).toBeUndefined();
    await act.undo();
    expect([book.untied.map(({ id }) => id), book.apart]).toEqual([[observation], []]);
  });

  it("says that the phone has no room, and keeps nothing by halves", async () => {
    const full = Object.assign(new Error("full"), { name: "AbortError", inner: { name: "QuotaExceededError" } });
    vi.spyOn(store, "write").mockRejectedValueOnce(full);
    await expect(book.photograph(picture("no_exif.jpg"))).rejects.toMatchObject({ trouble: { code: "no-room" } });
    expect([book.untied, await waiting()]).toEqual([[], 0]);
  });

  it("does not overrule a person who was quicker than the almanac", async () => {
    tie = async () => ({ tied: "wrong", sure: 0.95, lacking: "", candidates: [], others: 0, none: 0.05 });
    const { settled, observation } = await book.photograph(picture("gps_nw.jpg"));
    await book.moveEntry(observation, "right");
    await settled;
    expect(book.observation(observation)!.planting).toBe("right");
  });

  it("is undone whole, tie and picture with it", async () => {
    tie = async () => ({ tied: "cat", sure: 0.94, lacking: "", candidates: [], others: 0, none: 0.06 });
    const act = await book.photograph(picture("gps_nw.jpg"));
    await act.settled;
    await act.undo();
    expect([await waiting(), await store.unsentPhotos(), book.observations("cat"), book.untied]).toEqual([0, [], [], []]);
  });

  it("gives the address of what the phone holds, and fetches and keeps what it does not", async () => {
    const { sha } = await book.photograph(picture("no_exif.jpg"));
    const ofOriginal = await book.photoUrl(sha, 320);
    await store.addPreviews(sha, new Map([[320, new Uint8Array([1]).buffer]]));
    const ofPreview = await book.photoUrl(sha, 320);
    expect([ofOriginal === ofPreview, await book.photoUrl(sha, 320) === ofPreview]).toEqual([false, true]);
    fake.interfere = (request) => (request.url.includes("theirs") ? new Response("jpeg", { headers: { "Content-Type": "image/jpeg" } }) : null);
    expect(await book.photoUrl("theirs", 320)).toMatch(/^blob:/);
    expect((await store.bytesOf("theirs", 320))!.bytes.byteLength).toBe(4);
    fake.interfere = () => "before";
    expect(await book.photoUrl("nobodys", 320)).toBeNull();
  });
});

const webm = "1a45dfa39f4286810142f7810142f2810442f381084282847765626d42878104";
const sound = (said: number) => new Blob([Buffer.from(webm, "hex"), new Uint8Array([said])], { type: "audio/webm" });

describe("memos", () => {
  it("are kept with the visit to a planting, sound and entry at once, and undone whole", async () => {
    await book.log("cat", { stage: 61 });
    const act = await book.keepMemo(sound(1), { planting: "cat" });
    const [entry] = book.observations("cat");
    const [sha] = entry!.voice!;
    expect([book.observations("cat").length, entry!.stage, await waiting()]).toEqual([1, 61, 2]);
    expect((await book.memo(sha!))!.size).toBe(sound(1).size);
    await act.undo();
    expect([book.observations("cat")[0]!.voice, await store.unsentPhotos(), await store.bytesOf(sha!, "original")]).toEqual([undefined, [], undefined]);
  });

  it("follow each other in an entry of any age, and are no photographs", async () => {
    const { observation, settled } = await book.photograph(picture("no_exif.jpg"));
    await settled;
    minutes(90);
    await book.keepMemo(sound(1), { entry: observation });
    await book.keepMemo(sound(2), { entry: observation });
    expect(book.observation(observation)).toMatchObject({ photos: [expect.anything()], voice: [expect.anything(), expect.anything()] });
    expect((await store.withoutPreviews()).map(({ type }) => type)).toEqual([]);
  });

  it("refuse what is no sound, and make no entry of it", async () => {
    await expect(book.keepMemo(new Blob(["silence"]), { planting: "cat" })).rejects.toMatchObject({ trouble: { code: "unreadable-sound" } });
    expect(book.observations("cat")).toEqual([]);
  });

  it("stay on the phone when they are sent, and come from the server where they are not", async () => {
    await book.keepMemo(sound(1), { planting: "cat" });
    const [sha] = book.observations("cat")[0]!.voice!;
    await store.progress(sha!, { done: 1 });
    expect((await book.memo(sha!))!.size).toBe(sound(1).size);
    const theirs = createHash("sha256").update("heard").digest("hex");
    fake.interfere = (request) => (request.url.includes(theirs) ? new Response("heard", { headers: { "Content-Type": "audio/webm" } }) : "before");
    expect((await book.memo(theirs))!.size).toBe(5);
    fake.interfere = () => "before";
    expect((await book.memo(theirs))!.size).toBe(5);
    expect(await book.memo("nobodys")).toBeNull();
  });
});
