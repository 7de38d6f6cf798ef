// Everything that can go wrong between a phone, its storage and its server, one
// after the other, on the real app: nothing is lost, nothing is there twice, and
// each is told in a sentence.
import assert from "node:assert/strict";
import { setTimeout as pause } from "node:timers/promises";
import { after, before, beforeEach, test } from "node:test";
import { patience, Phone } from "./support/browser.mjs";
import { plantedGarden } from "./support/garden.mjs";
import { photograph as jpeg } from "./support/jpeg.mjs";
import { sha256, until } from "./support/outsider.mjs";
import { allSent, go, join, keptForOffline, photograph, see, seeHeading, signalReturns, writeNote } from "./support/people.mjs";
import { Proxy } from "./support/proxy.mjs";
import { Server } from "./support/server.mjs";

const KILOBYTE = 1 << 10, MEGABYTE = 1 << 20;
const PIECE = 256 * KILOBYTE; // what the phone sends at a time

const BETWEEN_TAPS_MS = 600; // a second tap sooner counts as a wet finger's
const ASKING = 200; // a request that only reads is shorter, and one with a change longer, bytes

const taken = { taken: "2026:06:02 09:15:00", offset: "+01:00", lat: 52.2, lon: 0.1, accuracyM: 5 };
const pictureOf = (bytes) => jpeg({ ...taken, bytes });

let line, server, phone, keeper, plantings, page;
let planting = 0, written = 0;

/** Keeps hold of the page's connections to its store, so that they can be lost, and of its disk, so that it can be full. */
function holdStorage() {
  const { open } = IDBFactory.prototype;
  const { add, put } = IDBObjectStore.prototype;
  IDBObjectStore.prototype.add = function (...asked) {
    if (window.nothingStored && this.name === "changes") {
      window.refusals++;
      throw new DOMException("no room", "QuotaExceededError");
    }
    return add.apply(this, asked);
  };
  IDBObjectStore.prototype.put = function (...asked) {
    if (window.diskFull && this.name === "bytes") throw new DOMException("no room", "QuotaExceededError");
    return put.apply(this, asked);
  };
  window.refusals = 0;
  window.connections = new Set();
  IDBFactory.prototype.open = function (...asked) {
    const request = open.apply(this, asked);
    request.addEventListener("success", () => window.connections.add(request.result));
    return request;
  };
}

before(async () => {
  line = await Proxy.make();
  server = await (await Server.make({ publicAddress: line.address })).start();
  line.to(server.port);
  ({ keeper, plantings } = await plantedGarden(server, 24));
  phone = new Phone(server.address);
  page = await join(phone, await keeper.invite("helper"), "kitchen phone", "Bo", (context) => context.addInitScript(holdStorage));
  await keptForOffline(page);
  await go(page, "/plants");
  await see(page, "Long border");
});

beforeEach(() => {
  line.answers = () => null;
  line.breaks = () => false;
  line.bytesPerSecond = null;
});

after(async () => {
  await phone?.remove();
  await line?.close();
  await server?.remove();
});

/** Writes a note at a planting that nobody has looked at yet, and gives its text once the phone says that it is kept. */
async function note(where = page) {
  const text = `Note ${++written}: buds as big as a thumb.`;
  await go(where, `/round/${plantings[planting++]}`);
  await writeNote(where, text);
  await see(where, /^saved \d/);
  return text;
}

async function snap(picture, where = page) {
  await go(where, `/planting/${plantings[planting++]}`);
  await photograph(where, picture);
  return sha256(picture);
}

const observations = async () => [...(await keeper.pull()).values()].filter(({ record }) => record.startsWith("observation/")).map(({ fields }) => fields);

/** Everything goes, and what was written is in the garden, once. */
async function arrives({ notes = [], photos = [] }) {
  await signalReturns(page);
  await allSent(page);
  const seen = await observations();
  for (const text of notes) assert.equal(seen.filter((fields) => fields.note === text).length, 1, text);
  for (const sha of photos) {
    assert.equal(seen.filter((fields) => fields.photos?.includes(sha)).length, 1, `the entry of ${sha}`);
    assert.equal(sha256(await keeper.media(sha)), sha);
  }
  assert.equal(seen.length, planting, "entries in all");
}

const syncs = (head) => head.target.endsWith("/sync");

async function waitsWith(sentence) {
  await go(page, "/sending");
  await see(page, sentence);
}

for (const [what, answer, sentence] of [
  ["500", { status: 500, body: '{"code":"fault","why":"something went wrong"}' }, "The server failed. It will be tried again; nothing is lost."],
  ["500 and a page", { status: 502, type: "text/html", body: "<h1>Bad gateway</h1>" }, "The server failed. It will be tried again; nothing is lost."],
  ["another network's page", { status: 200, type: "text/html", body: "<h1>Sign in</h1>" }, "Something other than Haulm answered"],
  ["JSON that means nothing", { status: 200, body: '{"applied":7,"records":"none"}' }, "Something other than Haulm answered"],
  ["half an answer", { status: 200, body: '{"applied":[],"refused":[],"records":[],"cursor":"x.1","more":fal' }, "Something other than Haulm answered"],
  ["too many requests", { status: 429, body: '{"code":"too_often","why":"wait a minute"}' }, "Asked too often. Wait a minute and try again."],
]) {
  test(`the server answers a note with ${what}`, async () => {
    line.answers = (head) => (syncs(head) ? answer : null);
    const text = await note();
    await waitsWith(sentence);
    await see(page, "1 note");
    line.answers = () => null;
    await arrives({ notes: [text] });
  });
}

test("the server says 401: the phone keeps all, says what to do, and goes on when it is let in again", async () => {
  line.answers = (head) => (head.target.includes("/gardens/") ? { status: 401, body: '{"code":"unknown_device","why":"this device is not known here"}' } : null);
  const text = await note();
  await waitsWith("This phone was signed out of the garden. What it holds is kept");
  await see(page, "Join again");
  line.answers = () => null;
  await arrives({ notes: [text] });
  await page.getByRole("link", { name: "Join again", exact: true }).waitFor({ state: "hidden", ...patience });
});

test("the server says 413 to a note: it is put aside with its reason, and goes when it is sent again", async () => {
  line.answers = (head) => (syncs(head) && head.length > ASKING ? { status: 413, body: '{"code":"too_large","why":"this takes at most 10 bytes"}' } : null);
  const text = await note();
  await go(page, "/sending");
  await seeHeading(page, "Not taken");
  await see(page, "It is larger than the server takes.");
  line.answers = () => null;
  await page.getByRole("button", { name: "Send it mended" }).click();
  await page.getByRole("heading", { name: "Not taken", exact: true }).waitFor({ state: "hidden", ...patience });
  await arrives({ notes: [text] });
});

test("the server says 413 to a photograph: it is given up, taken up again, and tried again", async () => {
  line.answers = (head) => (head.method === "PATCH" ? { status: 413, body: '{"code":"too_large","why":"at most 1 MB are kept"}' } : null);
  const sha = await snap(pictureOf(300 * KILOBYTE));
  await waitsWith("It is larger than the server takes.");
  await page.getByRole("button", { name: "Give it up" }).click();
  await see(page, /^Given up:/);
  await page.getByRole("button", { name: /^undo/i }).click();
  await see(page, "It is larger than the server takes.");
  line.answers = () => null;
  await page.getByRole("button", { name: "Try it again" }).click();
  await arrives({ photos: [sha] });
});

test("a photograph's upload is cut in every piece", async () => {
  const picture = pictureOf(2 * MEGABYTE);
  const cut = new Set();
  const [first, bytes] = [line.pieces.length, picture.length];
  line.breaks = ({ offset }) => {
    if (cut.has(offset)) return false;
    cut.add(offset);
    void signalReturns(page).catch(() => undefined); // or it would wait by itself, longer each time
    return true;
  };
  const sha = await snap(picture);
  await until(() => (signalReturns(page), keeper.hasOriginal(sha)), "the whole picture on the server", { pauseMs: 500 });
  assert.ok(cut.size >= bytes / PIECE, `${cut.size} pieces were cut`);
  const sent = line.pieces.slice(first).reduce((sum, { passed }) => sum + passed, 0);
  assert.ok(sent - bytes <= cut.size * PIECE, `${sent - bytes} bytes were sent twice`);
  await arrives({ photos: [sha] });
});

test("the connection to the phone's store is lost while it writes and while it sends", async () => {
  const lose = () => page.evaluate(() => window.connections.forEach((connection) => connection.close()));
  await lose();
  const text = await note();
  line.answers = (head) => {
    if (head.method === "PATCH") void lose();
    return null;
  };
  const sha = await snap(pictureOf(MEGABYTE));
  await lose();
  await arrives({ notes: [text], photos: [sha] });
});

test("the phone has no room: it says so, loses nothing, and goes on when there is some", async () => {
  await phone.context.setOffline(true);
  const text = await note();
  await page.evaluate(() => (window.diskFull = true));
  await go(page, `/planting/${plantings[planting]}`);
  const picture = pictureOf(MEGABYTE);
  await page.locator('input[type="file"][capture]').first().setInputFiles({ name: "plant.jpg", mimeType: "image/jpeg", buffer: picture });
  await page.getByText("This phone has no room left").first().waitFor(patience);
  await page.evaluate(() => (window.diskFull = false));
  const sha = await snap(picture);
  await phone.context.setOffline(false);
  await arrives({ notes: [text], photos: [sha] });
});

test("a note that cannot be stored is kept in view on every screen until it can", async () => {
  const text = `Note ${++written}: leaves like leather.`;
  await go(page, `/round/${plantings[planting++]}`);
  await page.evaluate(() => (window.nothingStored = true));
  await writeNote(page, text);
  const again = page.getByRole("button", { name: /^Try it again/ });
  await again.waitFor(patience);
  await go(page, "/plants");
  await see(page, /^Note · .* is not stored on this phone\. This phone has no room left/);
  await page.getByText(text).waitFor(patience);
  const refused = await page.evaluate(() => window.refusals);
  await again.click();
  await page.waitForFunction((before) => window.refusals > before, refused, patience);
  await pause(BETWEEN_TAPS_MS);
  await page.evaluate(() => (window.nothingStored = false));
  await again.click();
  await again.waitFor({ state: "detached", ...patience });
  await arrives({ notes: [text] });
});

test("two tabs write at once, one closes, and the other sends what is left", async () => {
  const other = await phone.context.newPage();
  await other.goto(`${server.address}/`);
  await other.getByRole("link", { name: "Today" }).waitFor(patience);
  const both = [await note(page), await note(other)];
  await arrives({ notes: both });
  await phone.context.setOffline(true);
  const late = [await note(page), await note(other)];
  await page.close();
  page = phone.page = other;
  await phone.context.setOffline(false);
  await arrives({ notes: late });
});

test("the page is killed while a photograph goes out", async () => {
  const started = line.pieces.length;
  line.bytesPerSecond = 400 * KILOBYTE;
  const sha = await snap(pictureOf(2 * MEGABYTE));
  const text = await note();
  await until(() => line.pieces.length > started + 1, "some pieces on their way");
  await phone.quit();
  line.bytesPerSecond = null;
  page = await phone.open("/", (context) => context.addInitScript(holdStorage));
  await page.getByRole("link", { name: "Today" }).waitFor(patience);
  await arrives({ notes: [text], photos: [sha] });
  phone.behaved();
});
