import "fake-indexeddb/auto";
import { createHash, randomBytes } from "node:crypto";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { bytesKey, type HeldPhoto, type Width } from "../store/held";
import { Store } from "../store/store";
import { newId } from "../words/uuid";
import { FakeServer, json } from "./fake-server";
import { unmetered } from "./link";
import { pieceBytes, Pictures } from "./pictures";
import { Server } from "./server";

const now = () => Date.parse("2026-06-02T09:15:00.000Z");
let fake: FakeServer;
let store: Store;
let allowed = true;
let pictures: Pictures;
let quiet = 0;

beforeEach(() => {
  fake = new FakeServer();
  store = new Store(newId(now()), now);
  allowed = true;
  quiet = 0;
  pictures = new Pictures(store, new Server("g", fake.fetch, now), {
    notesFirst: async () => void quiet++,
    linkAllows: async () => allowed,
  });
});
afterEach(() => store.destroy());

async function take(size: number, name: string = newId(now()), previews = true, type = "image/jpeg"): Promise<{ sha: string; bytes: Buffer }> {
  const bytes = randomBytes(size);
  const sha = createHash("sha256").update(bytes).digest("hex");
  const ref = `observation/${name}` as const;
  const photo: HeldPhoto = {
    sha, ref, type, size, made: "2026-06-02T09:15:00+00:00", previews: [], sentPreviews: [], sent: 0, done: 0,
  };
  const original = { key: bytesKey(sha, "original"), type, bytes: new Uint8Array(bytes).buffer };
  await store.write([{ ref, set: { photos: [sha] } }], [{ photo, bytes: [original] }]);
  const small = new Map<Width, ArrayBuffer>([[320, new Uint8Array([3]).buffer], [1600, new Uint8Array([1, 6]).buffer]]);
  if (previews) await store.addPreviews(sha, small);
  return { sha, bytes };
}

const arrived = (sha: string) => Buffer.from(fake.files.get(sha)?.bytes ?? []);

async function insist(limit = 400): Promise<void> {
  for (let tries = 0; tries < limit; tries++) {
    if (await pictures.run().then(() => true, () => false)) return;
  }
  throw new Error("never went through");
}

describe("pictures", () => {
  it("send all previews before any original, then the originals whole, and let their bytes go", async () => {
    const [one, two] = [await take(700_000), await take(3)];
    await pictures.run();
    const puts = fake.requests.map((request) => request.split(" ")[0]);
    expect(puts.lastIndexOf("PUT")).toBeLessThan(puts.indexOf("PATCH"));
    expect([arrived(one.sha).equals(one.bytes), arrived(two.sha).equals(two.bytes)]).toEqual([true, true]);
    expect([fake.previews.size, await store.unsentPhotos(), await store.bytesOf(one.sha, "original")]).toEqual([4, [], undefined]);
    expect((await store.bytesOf(one.sha, 320))!.bytes.byteLength).toBe(1);
  });

  it("resend at most a piece for each of 50 lost connections", async () => {
    const size = 3 * 1024 * 1024;
    const { sha, bytes } = await take(size);
    let [patches, cuts] = [0, 0];
    fake.interfere = (request) => {
      if (request.method !== "PATCH" || cuts === 50 || patches++ % 2 === 1) return null;
      cuts += 1;
      return cuts % 2 ? "before" : "after";
    };
    await insist();
    expect(arrived(sha).equals(bytes)).toBe(true);
    expect(fake.received - size).toBeLessThanOrEqual(cuts * pieceBytes);
  });

  it("never resend a piece that arrived though its answer was lost", async () => {
    const size = pieceBytes * 4;
    const { sha, bytes } = await take(size);
    fake.interfere = (request) => (request.method === "PATCH" ? "after" : null);
    await insist();
    expect([arrived(sha).equals(bytes), fake.received]).toEqual([true, size]);
  });

  it("ask for quiet before every piece, so that notes go first", async () => {
    await take(pieceBytes * 3);
    await pictures.run();
    expect(quiet).toBeGreaterThanOrEqual(2 + 3);
  });

  it("keep originals back on a metered link, previews not", async () => {
    allowed = false;
    const { sha, bytes } = await take(500);
    await pictures.run();
    expect([fake.previews.size, fake.files.size]).toEqual([2, 0]);
    allowed = true;
    await pictures.run();
    expect(arrived(sha).equals(bytes)).toBe(true);
  });

  it("send a memo over any link, before originals, and keep it to be played", async () => {
    allowed = false;
    await take(500);
    const { sha, bytes } = await take(900, newId(now()), false, "audio/webm");
    await pictures.run();
    expect(arrived(sha).equals(bytes)).toBe(true);
    expect([fake.files.size, (await store.bytesOf(sha, "original"))!.bytes.byteLength]).toEqual([1, 900]);
  });

  it("send an empty piece when all bytes are there but not proven whole", async () => {
    const { sha, bytes } = await take(500);
    fake.files.set(sha, { bytes: [...bytes], complete: false });
    await pictures.run();
    expect([fake.files.get(sha)!.complete, fake.received, await store.unsentPhotos()]).toEqual([true, 0, []]);
  });

  it("begin anew when what arrived was wrong", async () => {
    const { sha, bytes } = await take(pieceBytes + 5);
    fake.files.set(sha, { bytes: new Array<number>(pieceBytes).fill(7), complete: false });
    await pictures.run();
    expect(arrived(sha).equals(bytes)).toBe(true);
  });

  it.each([["unknown_type", 415], ["not_a_picture", 422], ["too_many_pixels", 422]])("leave a file that the server will not have with its reason, and go on: %s", async (code, status) => {
    const [bad, good] = [await take(500), await take(600)];
    let asked = 0;
    fake.interfere = (request) => {
      if (!request.url.includes(bad.sha) || request.method !== "PATCH") return null;
      asked++;
      return json({ code, why: "This is not a picture." }, status);
    };
    await pictures.run();
    expect(asked).toBe(1);
    expect((await store.unsentPhotos()).map(({ sha, failed }) => [sha, failed?.detail])).toEqual([[bad.sha, "This is not a picture."]]);
    expect(arrived(good.sha).equals(good.bytes)).toBe(true);
  });

  it("send the original although a preview is refused", async () => {
    const { sha, bytes } = await take(500);
    fake.interfere = (request) => (request.method === "PUT" ? json({ code: "wrong_type", why: "No." }, 415) : null);
    await pictures.run();
    expect([arrived(sha).equals(bytes), fake.previews.size]).toEqual([true, 0]);
  });

  it("stop between pieces for the previews of a picture taken meanwhile", async () => {
    await take(pieceBytes * 4);
    let taken: Promise<unknown> | null = null;
    fake.interfere = (request) => {
      if (request.method === "PATCH") taken ??= take(10);
      return null;
    };
    await pictures.run();
    const methods = fake.requests.map((request) => request.split(" ")[0]);
    const first = methods.indexOf("PATCH");
    const firstPutAfter = methods.indexOf("PUT", first);
    expect(firstPutAfter).toBeGreaterThan(first);
    expect(methods.lastIndexOf("PATCH")).toBeGreaterThan(firstPutAfter);
    expect(await store.unsentPhotos()).toEqual([]);
  });
});

describe("an unmetered link", () => {
  it.each([
    [undefined, true], [{}, true], [{ type: "wifi" }, true], [{ type: "cellular" }, false], [{ type: "wifi", saveData: true }, false],
  ])("%j: %s", (connection, expected) => expect(unmetered(connection ?? undefined)).toBe(expected));
});
