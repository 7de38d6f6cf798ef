// A printed label is read by the camera, from a picture and by its letters, and
// opens its planting; what is none is told, and the camera never stays on.
import assert from "node:assert/strict";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { after, before, test } from "node:test";
import { patience, Phone } from "./support/browser.mjs";
import { cameraOf, filmOf } from "./support/film.mjs";
import { plantedGarden } from "./support/garden.mjs";
import { go, join, openDemo, see } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const folder = mkdtempSync(path.join(tmpdir(), "haulm-film-"));
const file = path.join(folder, "label.y4m");
const rose = { id: "", name: "Rosa ‘Ballerina’" };
let server, printed, letters;

/** Prints a label of the demo's rose and films it. */
before(async () => {
  server = await (await Server.make({ demo: true })).start();
  const phone = new Phone(server.address, { deviceScaleFactor: 2 });
  try {
    const page = await openDemo(phone);
    await go(page, "/plants");
    await page.getByRole("link", { name: /Ballerina/ }).click();
    await page.waitForURL(/\/planting\//, patience);
    rose.id = decodeURIComponent(new URL(page.url()).pathname.split("/")[2]);
    await go(page, `/labels?planting=${encodeURIComponent(rose.id)}`);
    const label = page.locator(".sheet li").first();
    await label.waitFor({ state: "visible", ...patience });
    letters = await label.locator(".code span").textContent();
    printed = await filmOf(page, label, file);
  } finally {
    await phone.remove();
  }
});

after(async () => {
  await server.remove();
  rmSync(folder, { recursive: true, force: true });
});

async function withPhone(options, use, prepare) {
  const phone = new Phone(server.address, options);
  try {
    await use(await openDemo(phone, prepare), phone);
    phone.behaved();
  } finally {
    await phone.remove();
  }
}

const filming = { switches: cameraOf(file), permissions: ["camera"] };

/** Keeps every film's tracks, so that a test can see whether they were stopped. */
const watchTracks = (context) => context.addInitScript(() => {
  globalThis.tracks = [];
  const ask = navigator.mediaDevices?.getUserMedia.bind(navigator.mediaDevices);
  if (ask) navigator.mediaDevices.getUserMedia = async (wanted) => {
    const stream = await ask(wanted);
    globalThis.tracks.push(...stream.getTracks());
    return stream;
  };
});

const allStopped = (page) => page.evaluate(() => globalThis.tracks.length > 0 && globalThis.tracks.every(({ readyState }) => readyState === "ended"));

const opened = async (page) => {
  await page.waitForURL(`**/planting/${rose.id}`, patience);
  await see(page, rose.name, page.locator("h1"));
};

for (const from of ["/", "/round", "/plants"]) {
  test(`the camera reads a label without the browser's detector, one tap from ${from}, and is off afterwards`, () =>
    withPhone(filming, async (page) => {
      assert.equal(await page.evaluate(() => "BarcodeDetector" in globalThis), false, "this browser has none: jsQR reads");
      await go(page, from);
      await page.getByRole("link", { name: "Read a label" }).click();
      await opened(page);
      assert.ok(await allStopped(page));
    }, watchTracks));
}

test("where the browser has a detector, that one reads", () =>
  withPhone(filming, async (page) => {
    await go(page, "/scan");
    await opened(page);
    assert.deepEqual(await page.evaluate(() => globalThis.asked), { formats: ["qr_code"], films: true });
  }, async (context) => {
    await watchTracks(context);
    // Debian's Chromium has no detector: this one answers as Android's does, of a film that really runs.
    await context.addInitScript((text) => {
      globalThis.BarcodeDetector = class {
        static getSupportedFormats = async () => ["ean_13", "qr_code"];
        constructor({ formats }) { globalThis.asked = { formats, films: false }; }
        async detect(picture) {
          globalThis.asked.films = picture instanceof HTMLVideoElement && picture.videoWidth > 0;
          return [{ rawValue: text }];
        }
      };
    }, `${server.address}/planting/${rose.id}`);
  }));

test("a refused camera is told with the ways out: the letters and a picture both open the planting", () =>
  withPhone({}, async (page) => {
    await go(page, "/scan");
    await see(page, /The camera was refused|This device has no camera/);
    await see(page, /type the letters under the code/);
    await page.getByLabel("The letters under the code").fill("zzz zz");
    await page.getByRole("button", { name: "Open", exact: true }).click();
    await see(page, /These are not the letters of a label/);
    await page.getByLabel("The letters under the code").fill("ZZZ ZZZ");
    await page.getByRole("button", { name: "Open", exact: true }).click();
    await see(page, /No planting of this garden has these letters/);
    await page.getByLabel("The letters under the code").fill(letters.replace(" ", "").toLowerCase());
    await page.getByRole("button", { name: "Open", exact: true }).click();
    await opened(page);
    await go(page, "/scan");
    await page.locator('input[type="file"]').setInputFiles({ name: "label.png", mimeType: "image/png", buffer: printed });
    await opened(page);
  }));

test("leaving the screen puts the camera out, and so does hiding the app", () =>
  withPhone({ ...filming, switches: ["--use-fake-device-for-media-stream"] }, async (page) => {
    await go(page, "/scan");
    await page.waitForFunction(() => document.querySelector("video")?.videoWidth > 0, null, patience);
    assert.equal(await allStopped(page), false);
    await page.evaluate(() => {
      Object.defineProperty(document, "hidden", { value: true, configurable: true });
      document.dispatchEvent(new Event("visibilitychange"));
    });
    await page.waitForFunction(() => globalThis.tracks.every(({ readyState }) => readyState === "ended"), null, patience);
    await page.evaluate(() => {
      delete document.hidden;
      document.dispatchEvent(new Event("visibilitychange"));
    });
    await page.waitForFunction(() => globalThis.tracks.some(({ readyState }) => readyState === "live"), null, patience);
    await go(page, "/plants");
    await page.waitForFunction(() => globalThis.tracks.every(({ readyState }) => readyState === "ended"), null, patience);
  }, watchTracks));

test("a label of another garden, and a code that is no label, are told as what they are", async () => {
  const other = await (await Server.make()).start();
  const phone = new Phone(other.address);
  try {
    const { keeper } = await plantedGarden(other, 1);
    const page = await join(phone, await keeper.invite("helper"), "kitchen phone", "Bo");
    await go(page, "/scan");
    await page.locator('input[type="file"]').setInputFiles({ name: "label.png", mimeType: "image/png", buffer: printed });
    await see(page, /This label is of another garden/);
    await page.locator('input[type="file"]').setInputFiles({ name: "page.png", mimeType: "image/png", buffer: await page.screenshot() });
    await see(page, /No square code was found in that picture/);
  } finally {
    await phone.remove();
    await other.remove();
  }
});

test("a label read before joining opens its planting once one has joined", async () => {
  const other = await (await Server.make()).start();
  const phone = new Phone(other.address);
  try {
    const { keeper, plantings } = await plantedGarden(other, 1);
    const code = new URL(await keeper.invite("helper")).hash.slice(1);
    const page = await phone.open(`/planting/${plantings[0]}`);
    await page.getByLabel("Code").fill(code);
    await page.getByLabel("Your name").fill("Bo");
    await page.getByLabel("This phone’s name").fill("kitchen phone");
    await page.getByRole("button", { name: "Join", exact: true }).click();
    await see(page, "Iris germanica", page.locator("h1"));
    assert.equal(new URL(page.url()).pathname, `/planting/${plantings[0]}`);
    phone.behaved();
  } finally {
    await phone.remove();
    await other.remove();
  }
});
