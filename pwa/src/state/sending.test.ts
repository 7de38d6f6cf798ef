import "fake-indexeddb/auto";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { bytesKey, type HeldPhoto } from "../store/held";
import { Store } from "../store/store";
import { newId } from "../words/uuid";
import { HaulmSending } from "./sending.svelte";

const now = () => Date.parse("2026-06-02T09:15:00.000Z");
let store: Store;
let sending: HaulmSending;

beforeEach(async () => {
  store = new Store(newId(now()), now);
  sending = new HaulmSending();
  await sending.enter(store);
});
afterEach(async () => {
  sending.leave();
  await store.destroy();
  vi.unstubAllGlobals();
});

async function photograph(sha: string, change: Partial<HeldPhoto> = {}): Promise<void> {
  const photo: HeldPhoto = {
    sha, ref: "observation/o", type: "image/jpeg", size: 9, made: "2026-06-02T09:15:00+00:00",
    previews: [320], sentPreviews: [], sent: 0, done: 0, ...change,
  };
  await store.write([{ ref: "observation/o", set: { photos: [sha] } }], [{ photo, bytes: [{ key: bytesKey(sha, 320), type: "", bytes: new ArrayBuffer(1) }] }]);
}

const soon = (check: () => void) => vi.waitFor(check, { timeout: 2000, interval: 5 });

describe("what waits to be sent", () => {
  it("is not known before the store was read", async () => {
    expect(sending.known).toBe(true);
    const unread = new HaulmSending();
    expect(unread.known).toBe(false);
    const reading = unread.enter(store);
    expect(unread.known).toBe(false);
    await reading;
    expect(unread.known).toBe(true);
    unread.leave();
    expect(unread.known).toBe(false);
  });

  it("is not known where the store does not give it, which is told, until it does", async () => {
    const waiting = vi.spyOn(Store.prototype, "waiting").mockRejectedValue(new Error("locked"));
    const unread = new HaulmSending();
    await unread.enter(store);
    expect([unread.known, unread.trouble?.code, unread.notes]).toEqual([false, "store-failed", 0]);
    waiting.mockRestore();
    await store.write([{ ref: "bed/a", set: { order: 1 } }]);
    await soon(() => expect([unread.known, unread.trouble, unread.notes]).toEqual([true, null, 1]));
    unread.leave();
  });

  it("of one garden is not told of the next", async () => {
    await photograph("a");
    const other = new Store(newId(now()), now);
    const moving = new HaulmSending();
    const first = moving.enter(store);
    moving.leave();
    await moving.enter(other);
    await first;
    await soon(() => expect([moving.known, moving.photos]).toEqual([true, 0]));
    moving.leave();
    await other.destroy();
  });

  it("follows the link as it changes", async () => {
    const link = Object.assign(new EventTarget(), { type: "cellular" });
    vi.stubGlobal("navigator", { connection: link, onLine: true });
    const roaming = new HaulmSending();
    await roaming.enter(store);
    await photograph("a", { sentPreviews: [320] });
    await soon(() => expect(roaming.items.at(-1)?.held).toBe(true));
    link.type = "wifi";
    link.dispatchEvent(new Event("change"));
    expect(roaming.items.at(-1)?.held).toBe(false);
    roaming.leave();
  });

  it("is counted as it is written", async () => {
    expect([sending.notes, sending.photos, sending.line]).toEqual([0, 0, "resting"]);
    await photograph("a");
    await soon(() => expect([sending.notes, sending.photos]).toEqual([0, 1])); // its entry is the photo
    await store.write([{ ref: "observation/p", set: { note: "a bud" } }]);
    await store.write([{ ref: "observation/p", set: { note: "two buds" } }]);
    await soon(() => expect([sending.notes, sending.photos]).toEqual([1, 1])); // one entry, however often it is changed
    expect(sending.items.map(({ what }) => what)).toEqual(["note", "preview", "original"]);
  });

  it("says what the line says", async () => {
    await photograph("a");
    await soon(() => expect(sending.line).toBe("waiting"));
    store.tellLine({ state: "sending", trouble: null, nextTry: null });
    expect(sending.line).toBe("sending");
    store.tellLine({ state: "waiting", trouble: { code: "no-answer" }, nextTry: "2026-06-02T09:16:00+00:00" });
    expect([sending.line, sending.trouble?.code, sending.nextTry]).toEqual(["waiting", "no-answer", "2026-06-02T09:16:00+00:00"]);
    store.tellLine({ state: "stopped", trouble: { code: "shut-out" }, nextTry: null });
    expect(sending.line).toBe("stopped");
  });

  it("is held while only originals wait on a metered link, unless any link will do", async () => {
    vi.stubGlobal("navigator", { connection: { type: "cellular" }, onLine: true });
    await photograph("a", { sentPreviews: [320] });
    await store.take(500, 1e6);
    const [change] = await store.waiting();
    await store.settle({ applied: [{ id: change!.id, seq: 1, at: change!.at }], refused: [], records: [], cursor: "a.1", more: false, now: "", heardMs: 0 });
    await soon(() => expect([sending.notes, sending.line, sending.items[0]!.held]).toEqual([0, "held", true]));
    await sending.setAnyLink(true);
    await soon(() => expect([sending.line, sending.items[0]!.held]).toEqual(["waiting", false]));
  });

  it("keeps a failed photo in the list with its reason, and tries it again when asked", async () => {
    await photograph("a", { failed: { code: "too-large", detail: "More than 64 MB." } });
    await soon(() => expect(sending.items.at(-1)!.trouble).toEqual({ code: "too-large", detail: "More than 64 MB." }));
    const tried = sending.sendNow();
    await soon(() => expect(sending.items.at(-1)!.trouble).toBeNull());
    store.tellLine({ state: "resting", trouble: null, nextTry: null });
    await tried;
  });

  it("keeps refusals in view until they are mended or discarded", async () => {
    const { changes } = await store.write([{ ref: "planting/p", set: { count: -1 } }]);
    await store.refuse(changes[0]!, "invalid_count", "count -1 is below 0");
    await soon(() => expect(sending.refused).toMatchObject([{ change: changes[0]!.id, ref: "planting/p", why: "count -1 is below 0" }]));
    await sending.mend(changes[0]!.id, { count: 1 });
    await soon(() => expect([sending.refused, sending.notes]).toEqual([[], 1]));
  });

  it("tells of a preview's size, and of what will never go as it is", async () => {
    await photograph("a", { failed: { code: "too-large" } });
    await photograph("b");
    await photograph("c", { type: "audio/webm", previews: [] });
    await soon(() => expect(sending.items).toHaveLength(4));
    expect(sending.items.map(({ id, what, bytes, final }) => [id, what, bytes, final])).toEqual([
      ["a", "original", 9, true], ["b/320", "preview", 1, false], ["b", "original", 9, false], ["c", "memo", 9, false],
    ]);
  });

  it("gives a photo up, and takes it up again, with its bytes", async () => {
    await photograph("a", { failed: { code: "too-large" } });
    await soon(() => expect(sending.photos).toBe(1));
    const act = await sending.giveUp("a");
    await soon(() => expect(sending.items.map(({ what }) => what)).toEqual(["note"])); // its entry waits all the same
    await store.progress("a", {});
    expect((await store.bytesOf("a", 320))?.bytes.byteLength).toBe(1);
    await act.undo();
    await soon(() => expect(sending.items.map(({ id, final }) => [id, final])).toEqual([["a", true]]));
  });

  it("gives a refused change up, and takes it up again", async () => {
    await store.write([{ ref: "bed/b", set: { name: "Long" } }]);
    await store.refuse((await store.waiting())[0]!, "role_helper", "A helper may not.");
    await soon(() => expect(sending.refused).toHaveLength(1));
    const act = await sending.discard(sending.refused[0]!.change);
    await soon(() => expect(sending.refused).toEqual([]));
    vi.spyOn(store, "refuseAgain").mockRejectedValueOnce(new Error("no disk"));
    await expect(act.undo()).rejects.toThrow("no disk");
    expect(act.undone).toBe(false);
    await act.undo();
    await act.undo();
    await soon(() => expect(sending.refused.map(({ ref, why }) => [ref, why])).toEqual([["bed/b", "A helper may not."]]));
  });
});
