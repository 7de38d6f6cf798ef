// From a phone that was off, with no signal, to a photograph and a stage that are
// kept: no more than four taps, two of which the phone's own camera takes, and nothing
// is scrolled on the way.
import assert from "node:assert/strict";
import { test } from "node:test";
import { late } from "./support/demo.mjs";
import { patience, Phone, phoneSize } from "./support/browser.mjs";
import { photograph as jpeg } from "./support/jpeg.mjs";
import { keptForOffline, openDemo } from "./support/people.mjs";
import { Server } from "./support/server.mjs";
import { Thumb } from "./support/touch.mjs";

const MOST = 4;
const CAMERA = 2; // the shutter, and "use this photo": the phone's own camera asks for both

const visible = { state: "visible", ...patience };
const picture = jpeg({ taken: "2015:07:10 10:05:00", offset: "-07:00", ...late.at, accuracyM: 0.5, bytes: 3_600_000 });

/** Of a phone with Haulm on its home screen, and of what the browser's bars leave on two common ones. */
const sizes = [phoneSize, { width: 360, height: 740 }, { width: 390, height: 664 }];

/** In the page: what the phone's store holds of the entries that were made on it. */
const inTheStore = () => new Promise((resolve, reject) => {
  const opening = indexedDB.open("haulm-demo");
  opening.onerror = () => reject(opening.error);
  opening.onsuccess = () => {
    const reading = opening.result.transaction(["changes", "bytes"]);
    const [changes, originals] = [reading.objectStore("changes").getAll(), reading.objectStore("bytes").getAllKeys()];
    reading.oncomplete = () => {
      opening.result.close();
      const looks = changes.result.filter(({ ref }) => ref.startsWith("observation/"));
      const set = Object.assign({}, ...looks.map(({ set }) => set));
      resolve({ looks: new Set(looks.map(({ ref }) => ref)).size, ...set, bytes: originals.result.filter((key) => key.endsWith("/original")) });
    };
  };
});

/** Starts the phone anew where there is no signal. */
function coldStart(phone, thumb) {
  return phone.open("/", async (context) => {
    await context.setOffline(true);
    await thumb.watch(context);
  });
}

async function fourTaps(t, server, phone) {
  await keptForOffline(await openDemo(phone));
  await phone.quit();
  await server.stop();

  const thumb = new Thumb();
  let page = await coldStart(phone, thumb);
  const camera = page.waitForEvent("filechooser", patience);
  await thumb.touch(page, page.locator("label", { has: page.locator('input[type="file"][capture]') }));
  await (await camera).setFiles({ name: "plant.jpg", mimeType: "image/jpeg", buffer: picture });
  const stage = () => page.getByRole("button", { name: "full", exact: true });
  await page.locator(".whose li").first().waitFor(visible); // the question has its answers: from here on nothing moves
  await thumb.touch(page, stage());
  await page.getByText(/^saved \d/).first().waitFor(visible);
  const entry = new URL(page.url()).pathname;

  const kept = await page.evaluate(inTheStore);
  assert.ok(thumb.touches + CAMERA <= MOST, `${thumb.touches} taps in the app and ${CAMERA} in the camera`);
  assert.equal(thumb.touches, 2, "the count feels touches");
  assert.equal(kept.looks, 1, "one look");
  assert.equal(typeof kept.stage, "number");
  assert.deepEqual(kept.bytes, kept.photos.map((sha) => `${sha}/original`));

  await t.test("and are there after the phone died at that moment", async () => {
    await phone.kill();
    page = await coldStart(phone, new Thumb());
    await page.goto(phone.origin + entry);
    await page.waitForFunction(() => document.querySelector(".photos img")?.naturalWidth > 0, null, patience);
    assert.equal(await stage().getAttribute("aria-pressed"), "true");
    assert.deepEqual(await page.evaluate(inTheStore), kept);
  });
  phone.behaved();
}

for (const size of sizes) {
  test(`a photograph and its stage are kept in four taps from a cold start without a signal at ${size.width}×${size.height}`, async (t) => {
    const server = await (await Server.make({ demo: true })).start();
    const phone = new Phone(server.address, { size });
    try {
      await fourTaps(t, server, phone);
    } finally {
      await phone.remove();
      await server.remove();
    }
  });
}
