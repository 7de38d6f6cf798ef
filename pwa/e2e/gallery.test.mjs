// Several files at once from the phone's gallery, not all of them good: what is a
// picture is kept to the byte, also one that this phone cannot show; what is none, or
// finds no room, is told by its name with its own reason.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { patience, Phone } from "./support/browser.mjs";
import { plantedGarden } from "./support/garden.mjs";
import { photograph as jpeg } from "./support/jpeg.mjs";
import { sha256 } from "./support/outsider.mjs";
import { go, join, keptForOffline, see, seeHeading, signalReturns } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const visible = { state: "visible", ...patience };
const sample = (name) => readFileSync(new URL(`../../testdata/images/${name}`, import.meta.url));
const taken = { taken: "2026:06:02 09:15:00", offset: "+01:00", lat: 52.2, lon: 0.1, accuracyM: 5 };

const heic = Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from("ftypheic\0\0\0\0mif1heic", "latin1"), Buffer.alloc(4000, 7)]); // Chromium has no decoder for it
const good = { name: "border.jpg", mimeType: "image/jpeg", buffer: jpeg({ ...taken, bytes: 200_000 }) };
const cut = { name: "cut short.jpg", mimeType: "image/jpeg", buffer: sample("truncated_in_exif.jpg") };
const foreign = { name: "IMG_0421.HEIC", mimeType: "image/heic", buffer: heic };
const list = { name: "order list.pdf", mimeType: "application/pdf", buffer: Buffer.from("%PDF-1.7") };
const web = { name: "rose.jpg", mimeType: "image/jpeg", buffer: sample("hostile_html_named.jpg") }; // a page under a picture's name
const empty = { name: "empty.jpg", mimeType: "image/jpeg", buffer: Buffer.alloc(0) };
const huge = { name: "panorama.jpg", mimeType: "image/jpeg", buffer: jpeg({ ...taken, taken: "2026:06:02 10:40:00", bytes: 2_000_000 }) };

let server, phone, keeper, plantings, page;

before(async () => {
  server = await (await Server.make()).start();
  ({ keeper, plantings } = await plantedGarden(server));
  phone = new Phone(server.address);
  page = await join(phone, await keeper.invite("helper"), "kitchen phone", "Bo", (context) => context.addInitScript(narrow));
  await keptForOffline(page);
  await phone.context.setOffline(true);
});

after(async () => {
  await phone?.remove();
  await server?.remove();
});

/** In the page: there is room for pictures up to a megabyte. */
function narrow() {
  const put = IDBObjectStore.prototype.put;
  IDBObjectStore.prototype.put = function (value, ...key) {
    if (this.name === "bytes" && value.bytes.byteLength > 1_000_000) {
      this.transaction.abort();
      throw new DOMException("The quota has been exceeded.", "QuotaExceededError");
    }
    return put.call(this, value, ...key);
  };
}

const told = () => page.locator("[role=alert] li").allInnerTexts();
const NO_PICTURE = "This phone cannot read that picture. Try another, or take it with the camera here.";
const NO_ROOM = /^panorama\.jpg was not kept\. This phone has no room left/;

test("from the dock, the good are kept and shown, and each of the others is named with its reason", async () => {
  await page.locator('section input[type="file"][multiple]').setInputFiles([list, good, huge, foreign, web, cut, empty]);
  await page.waitForURL(/\/photos/, patience);
  await page.locator("main article").nth(2).waitFor(visible);
  assert.equal(await page.locator("main article").count(), 3);
  await page.waitForFunction(() => document.querySelector("main article img")?.naturalWidth > 0, null, patience);
  await page.locator("main article .missing").nth(1).waitFor(visible);
  assert.deepEqual([...new Set(await page.locator("main article .missing").allInnerTexts())], ["This phone cannot show this picture. It is kept, and phones that can will."]);
  const [first, panorama, ...rest] = await told();
  assert.equal(first, `order list.pdf was not kept. ${NO_PICTURE}`);
  assert.match(panorama, NO_ROOM);
  assert.deepEqual(rest, [`rose.jpg was not kept. ${NO_PICTURE}`, `empty.jpg was not kept. ${NO_PICTURE}`]);
});

test("on a planting's own page they stay there, and so does what is told", async () => {
  await go(page, `/planting/${plantings[0]}`);
  await page.locator('main input[type="file"][multiple]').setInputFiles([list, { ...good, buffer: jpeg({ ...taken, bytes: 150_000 }) }]);
  await see(page, "order list.pdf was not kept.");
  await page.waitForFunction(() => document.querySelector("main figure img")?.naturalWidth > 0, null, patience);
  assert.equal(new URL(page.url()).pathname, `/planting/${plantings[0]}`);
  assert.deepEqual(await told(), [`order list.pdf was not kept. ${NO_PICTURE}`]);
});

test("where none is good nothing is kept, and one stays where one is", async () => {
  await go(page, "/tray");
  await page.locator("main article").nth(2).waitFor(visible);
  await page.locator('section input[type="file"][multiple]').setInputFiles([empty, huge]);
  await see(page, "empty.jpg was not kept.");
  await see(page, "panorama.jpg was not kept.");
  assert.equal(new URL(page.url()).pathname, "/tray");
  assert.equal(await page.locator("main article").count(), 3);
});

test("with a signal what was kept goes to the garden as it was; what the server cannot read either is told with its sentence, sent once, and stays", async () => {
  const sent = [];
  page.on("request", (request) => request.method() === "PATCH" && sent.push(new URL(request.url()).pathname));
  await phone.context.setOffline(false);
  await signalReturns(page);
  await go(page, "/sending");
  await seeHeading(page, "Not taken");
  await see(page, /the file begins like a picture but is none that can be read/);
  await page.getByRole("heading", { name: "Original photos" }).waitFor({ state: "detached", ...patience });
  const entries = [...(await keeper.pull()).values()].filter(({ record }) => record.startsWith("observation/"));
  const shas = entries.flatMap(({ fields }) => fields.photos);
  assert.equal(entries.length, 4);
  assert.equal(new Set(shas).size, 4);
  for (const { name, buffer } of [good, foreign, cut]) assert.ok(shas.includes(sha256(buffer)), name);
  for (const { name, buffer } of [good, foreign]) assert.equal(sha256(await keeper.media(sha256(buffer))), sha256(buffer), name);
  assert.equal(sent.filter((path) => path.includes(sha256(cut.buffer))).length, 1);
  phone.behaved();
});
