import "fake-indexeddb/auto";
import { createHash, randomBytes } from "node:crypto";
import { strFromU8, unzipSync } from "fflate";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { bytesKey, type HeldPhoto } from "../store/held";
import { Store } from "../store/store";
import { newId } from "../words/uuid";
import { SavedFiles } from "./saved-files";

let nowMs = Date.parse("2026-06-02T09:15:00.000Z");
const whose = { member: "bo", deviceName: "kitchen phone" };
let store: Store;

beforeEach(() => (store = new Store(newId(nowMs), () => nowMs)));
afterEach(() => store.destroy());

async function photograph(bytes: Buffer, size = bytes.length, type = "image/jpeg"): Promise<string> {
  const sha = createHash("sha256").update(bytes).digest("hex");
  const ref = `observation/${sha.slice(0, 8)}` as const;
  const photo: HeldPhoto = { sha, ref, type, size, made: "2026-06-02T09:15:00+00:00", previews: [320], sentPreviews: [], sent: 0, done: 0 };
  const row = (version: "original" | 320, content: Uint8Array) => ({ key: bytesKey(sha, version), type, bytes: new Uint8Array(content).buffer });
  await store.write([{ ref, set: { photos: [sha] } }], [{ photo, bytes: [row("original", bytes), row(320, new Uint8Array([3, 2, 0]))] }]);
  return sha;
}

async function opened(files: SavedFiles, part = 1): Promise<Record<string, Uint8Array>> {
  return unzipSync(new Uint8Array(await (await files.make(part)).content.arrayBuffer()));
}

const linesOf = (bytes: Uint8Array) => strFromU8(bytes).trim().split("\n").filter(Boolean).map((line) => JSON.parse(line));

describe("files of what waits", () => {
  it("hold every change as the server takes it, the refused ones apart, and the photos' bytes", async () => {
    const bytes = randomBytes(5000);
    const sha = await photograph(bytes);
    await store.write([{ ref: "bed/b", set: {}, gone: true }]);
    const [photo, bed] = await store.waiting();
    await store.refuse(bed!, "role_helper", "A helper may not.");
    const files = await SavedFiles.of(store, whose, nowMs);
    const inside = await opened(files);
    expect(files.parts).toBe(1);
    expect(linesOf(inside["changes.jsonl"]!)).toEqual([{ id: photo!.id, record: photo!.ref, base: 0, at: photo!.at, set: { photos: [sha] } }]);
    expect(linesOf(inside["refused.jsonl"]!)).toEqual(
      [{ change: { id: bed!.id, record: "bed/b", base: 0, at: bed!.at, gone: true }, code: "role_helper", why: "A helper may not." }]);
    expect(Buffer.from(inside[`media/${sha}/original.jpg`]!).equals(bytes)).toBe(true);
    expect([...inside[`media/${sha}/320.jpg`]!]).toEqual([3, 2, 0]);
    expect(JSON.parse(strFromU8(inside["manifest.json"]!))).toMatchObject({
      format: "haulm-unsent", version: 1, garden: store.garden, member: "bo", device: "kitchen phone", part: 1, parts: 1,
      photos: [{ sha256: sha, record: photo!.ref, type: "image/jpeg", bytes: 5000 }],
    });
  });

  it("take nothing off the phone", async () => {
    const sha = await photograph(randomBytes(50));
    await opened(await SavedFiles.of(store, whose, nowMs));
    expect([(await store.waiting()).length, (await store.unsentPhotos()).length, (await store.bytesOf(sha, "original"))?.bytes.byteLength]).toEqual([1, 1, 50]);
  });

  it("are several when they are large, each with all changes and its part of the photos", async () => {
    const shas = [];
    for (let i = 0; i < 5; i++) shas.push(await photograph(randomBytes(10), 60 << 20));
    const files = await SavedFiles.of(store, whose, nowMs);
    expect(files.parts).toBe(3);
    const seen = [];
    for (let part = 1; part <= files.parts; part++) {
      const inside = await opened(files, part);
      expect(linesOf(inside["changes.jsonl"]!)).toHaveLength(5);
      seen.push(...JSON.parse(strFromU8(inside["manifest.json"]!)).photos.map((photo: { sha256: string }) => photo.sha256));
    }
    expect(seen.sort()).toEqual(shas.sort());
    expect((await files.make(2)).name).toBe("haulm-unsent-2026-06-02-2-of-3.zip");
  });

  it("are made by a phone whose clock stands in 1970, too", async () => {
    nowMs = 0;
    await photograph(randomBytes(10));
    expect(Object.keys(await opened(await SavedFiles.of(store, whose, nowMs)))).toContain("manifest.json");
    nowMs = Date.parse("2026-06-02T09:15:00.000Z");
  });

  it("name a memo by what it is, and leave out bytes that the phone has lost", async () => {
    const memo = await photograph(randomBytes(20), 20, "audio/webm;codecs=opus");
    const photo: HeldPhoto = { sha: "f".repeat(64), ref: "observation/x", type: "image/jpeg", size: 9, made: "", previews: [], sentPreviews: [], sent: 0, done: 0 };
    await store.write([{ ref: "observation/x", set: {} }], [{ photo, bytes: [] }]);
    const inside = await opened(await SavedFiles.of(store, whose, nowMs));
    expect(Object.keys(inside)).toContain(`media/${memo}/original.webm`);
    expect(JSON.parse(strFromU8(inside["manifest.json"]!)).photos).toHaveLength(1);
  });
});
