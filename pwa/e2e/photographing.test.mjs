// What can go wrong while someone photographs: the phone dies between any two
// steps, its store is full or lost in the middle. Nothing is lost, nothing is there
// twice, and each is told in a sentence.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { patience, Phone } from "./support/browser.mjs";
import { photograph as jpeg } from "./support/jpeg.mjs";
import { late, today } from "./support/demo.mjs";
import { go, keptForOffline, openDemo, see } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const visible = { state: "visible", ...patience };
const taken = { taken: "2015:07:10 10:05:00", offset: "-07:00", ...late.at, accuracyM: 6 }; // between many plants: nothing is sure
const file = (name, buffer, mimeType = "image/jpeg") => ({ name, mimeType, buffer });

let server, phone, page;

before(async () => {
  server = await (await Server.make({ demo: true })).start();
  phone = new Phone(server.address);
  await keptForOffline(await openDemo(phone));
  await phone.quit();
  await server.stop();
});

after(async () => {
  await phone?.remove();
  await server?.remove();
});

/** Starts the phone anew where there is no signal; `spoil` runs in the page before the app does. */
async function start(spoil = () => {}, about = null) {
  if (phone.context) await phone.quit();
  page = await phone.open("/", async (context) => {
    await context.setOffline(true);
    await context.addInitScript(spoil, about);
  });
  await page.locator('input[type="file"][capture]').first().waitFor({ state: "attached", ...patience });
}

/** Waits for the entry of a picture just taken; what the phone says instead fails at once. */
async function kept() {
  const told = page.locator(".bar + div li");
  await Promise.race([page.waitForURL(/\/entry\//, patience), told.first().waitFor(visible)]);
  assert.ok(page.url().includes("/entry/"), (await told.allTextContents()).join());
}

const camera = () => page.locator('input[type="file"][capture]').first();

/** In the page: what the store holds of pictures and of the entries that were made on this phone. */
const readStore = () => new Promise((resolve, reject) => {
  const opening = indexedDB.open("haulm-demo");
  opening.onerror = () => reject(opening.error);
  opening.onsuccess = () => {
    const reading = opening.result.transaction(["changes", "bytes", "photos", "unsettled"]);
    const all = (table) => reading.objectStore(table).getAll();
    const [changes, photos, unsettled, keys] = [all("changes"), all("photos"), all("unsettled"), reading.objectStore("bytes").getAllKeys()];
    reading.oncomplete = () => {
      opening.result.close();
      const entries = {};
      for (const { ref, set } of changes.result) if (ref.startsWith("observation/")) entries[ref] = { ...entries[ref], ...set };
      resolve({ entries: Object.values(entries), photos: photos.result, open: unsettled.result.length, bytes: keys.result });
    };
  };
});

const inTheStore = () => page.evaluate(readStore);

const ofPicture = ({ bytes }, sha) => bytes.filter((key) => key.startsWith(sha)).map((key) => key.slice(sha.length + 1)).sort();

/** Waits until the store holds what `holds` looks for, and gives it. */
async function stored(holds) {
  for (const until = Date.now() + patience.timeout; ; await page.waitForTimeout(100)) {
    const now = await inTheStore();
    if (holds(now)) return now;
    assert.ok(Date.now() < until, JSON.stringify(now));
  }
}

/** In the page: one step of photographing never ends. */
function hold(step) {
  const forever = () => new Promise(() => {});
  if (step === "bytes") File.prototype.arrayBuffer = forever;
  const post = Worker.prototype.postMessage;
  Worker.prototype.postMessage = function (message, ...rest) {
    if (step === "previews" && message.picture) return;
    if (step === "tie" && message.verb === "tie") return;
    return post.call(this, message, ...rest);
  };
}

const steps = [
  { name: "before its bytes are read", step: "bytes", isKept: false, held: (now) => now.photos.length === 0 },
  { name: "when it is kept and has no previews", step: "previews", isKept: true, held: ({ photos }) => photos.length === 1 && photos[0].previews.length === 0 },
  { name: "when it has previews and nothing is known of it", step: "tie", isKept: true, held: ({ photos, open }) => photos[0]?.previews.length === 2 && open === 1 },
];

for (const { name, step, isKept, held } of steps) {
  test(`the phone dies while a photograph is taken, ${name}`, async () => {
    const picture = jpeg({ ...taken, bytes: 3_000_000 });
    await start(hold, step);
    const before = await inTheStore();
    const fresh = (now) => ({ ...now, entries: now.entries.slice(before.entries.length), photos: now.photos.filter(({ sha }) => !before.photos.some((old) => old.sha === sha)) });
    await camera().setInputFiles(file("plant.jpg", picture));
    if (isKept) await kept();
    await stored((now) => held(fresh(now)));
    await phone.kill();

    await start();
    if (!isKept) {
      assert.deepEqual(fresh(await inTheStore()).entries, [], "nothing by halves: the camera's picture is still the camera's");
      return;
    }
    const after = fresh(await stored((now) => now.open === 0 && fresh(now).photos[0]?.previews.length === 2));
    assert.equal(after.photos.length, 1);
    const { sha } = after.photos[0];
    assert.deepEqual(ofPicture(after, sha), ["1600", "320", "original"]);
    const speaking = after.entries.filter(({ photos }) => photos?.includes(sha));
    assert.equal(speaking.length, 1, "one entry speaks of it");
    assert.equal(speaking[0].lat?.toFixed(5), late.at.lat.toFixed(5), "and its place is read as if nothing had happened");
    assert.equal(speaking[0].seen.slice(0, 10), today);
  });
}

test("the phone dies when all is found out about a photograph, and nothing is found out twice", async () => {
  await start();
  await camera().setInputFiles(file("plant.jpg", jpeg({ ...taken, bytes: 400_000 })));
  await kept();
  const before = await stored(({ open, photos }) => open === 0 && photos.every(({ previews }) => previews.length === 2));
  await phone.kill();
  await start();
  await page.locator("main h1").waitFor(visible);
  assert.deepEqual(await inTheStore(), before);
});

/** In the page: the disk is full for anything of the size of a picture, until told otherwise. */
function fill() {
  const add = IDBObjectStore.prototype.put;
  window.full = true;
  IDBObjectStore.prototype.put = function (value, ...key) {
    if (window.full && this.name === "bytes") {
      this.transaction.abort();
      throw new DOMException("The quota has been exceeded.", "QuotaExceededError");
    }
    return add.call(this, value, ...key);
  };
}

test("a full phone says so, keeps nothing by halves, and keeps the picture once there is room", async () => {
  await start(fill);
  const before = await inTheStore();
  const picture = file("plant.jpg", jpeg({ ...taken, bytes: 900_000 }));
  await camera().setInputFiles(picture);
  await see(page, /This phone has no room left/);
  await see(page, "plant.jpg was not kept.");
  assert.deepEqual(await inTheStore(), before);
  await page.evaluate(() => (window.full = false));
  await camera().setInputFiles(picture);
  await kept();
  await page.locator(".photos img").first().waitFor(visible);
});

/** In the page: no connection to the store can be had any more. */
function lose() {
  const transaction = IDBDatabase.prototype.transaction;
  IDBDatabase.prototype.transaction = function (...args) {
    if (window.lost) throw new DOMException("The database connection is closing.", "InvalidStateError");
    return transaction.apply(this, args);
  };
}

test("a store that does not come back is told in a sentence", async () => {
  await start(lose);
  await page.evaluate(() => (window.lost = true));
  await camera().setInputFiles(file("plant.jpg", jpeg({ ...taken, bytes: 500_000 })));
  await see(page, "plant.jpg was not kept.");
  await see(page, "The phone could not store or read it.");
});

test("in the tray a photograph is given, said to be of no planting, and both taken back where it stands", async () => {
  await start();
  await go(page, "/tray");
  const article = page.locator("article", { hasText: "Whose is it?" }).first();
  await article.waitFor(visible);
  await page.waitForTimeout(600);
  const mark = await article.locator("a").first().getAttribute("href");
  const told = page.locator("article", { has: page.locator(`a[href="${mark}"]`) });
  await told.getByRole("button", { name: "Of no planting" }).click();
  await told.getByRole("heading", { name: "Of no planting" }).waitFor(visible);
  await page.getByRole("heading", { name: "Of no planting", level: 2 }).first().waitFor(visible);
  await told.getByRole("button", { name: "undo" }).click();
  await told.getByRole("heading", { name: "Whose is it?" }).waitFor(visible);
  await page.waitForTimeout(600);
  await told.locator(".whose li button").first().click();
  await told.getByRole("button", { name: "Not this one" }).waitFor(visible);
  phone.behaved();
});
