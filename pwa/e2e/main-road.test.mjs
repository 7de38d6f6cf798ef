// The main road: photograph and log with no network, lose everything but the
// phone's own store, come back, send, and see it on a second phone.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Phone } from "./support/browser.mjs";
import { photograph as jpeg } from "./support/jpeg.mjs";
import { choose, invite, join, keptForOffline, openDemo, patience, photograph, reckoned, see, setHeight, waitingLine, allSent } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

// A planting that the demo garden's story calls late, and where it stands.
const late = { id: "helenium-low", at: { lat: 47.6, lon: -122.6 } };

let server, first, second;

before(async () => {
  server = await (await Server.make("--demo")).start();
  first = new Phone(server.address);
  second = new Phone(server.address);
});

after(async () => {
  await first?.remove();
  await second?.remove();
  await server?.remove();
});

test("from the bed without a signal to a second phone", async (t) => {
  let page = await openDemo(first);
  await keptForOffline(page);
  const picture = jpeg({ taken: "2015:07:10 10:05:00", offset: "-07:00", ...late.at, accuracyM: 0.5, bytes: 300_000 });
  let entry, before;

  await t.test("with the server gone the app opens from the phone and reckons", async () => {
    await server.stop();
    await page.reload();
    await see(page, "Teasel Bank");
    await reckoned(page);
    await page.goto(`${server.address}/planting/${late.id}`);
    await page.locator(".verdict").first().waitFor({ state: "visible", ...patience });
    before = await page.locator(".verdict").first().textContent();
  });

  await t.test("a photograph, a stage and a height are kept", async () => {
    entry = await photograph(page, picture);
    await choose(page, "Flower", "full");
    await setHeight(page, 83);
    await see(page, /saved/);
    assert.match(await waitingLine(page) || (await page.goto(server.address + "/"), await waitingLine(page)), /wait/);
  });

  await t.test("after quitting the browser the entry, its photo and the new findings are there", async () => {
    await first.quit();
    page = await first.open(`/entry/${entry}`);
    await page.locator(".photos img").first().waitFor({ state: "visible", ...patience });
    assert.ok(await page.locator(".photos img").first().evaluate((img) => img.naturalWidth > 0), "the picture is drawn");
    assert.equal(await page.getByRole("button", { name: "full", exact: true }).getAttribute("aria-pressed"), "true");
    assert.equal(await page.getByLabel(/^Height in/).inputValue(), "83");
    await page.goto(`${server.address}/planting/${late.id}`);
    await page.waitForFunction((was) => {
      const now = document.querySelector(".verdict")?.textContent;
      return now && now !== was;
    }, before, patience);
  });

  await t.test("with the server back the note goes before the photo", async () => {
    const sent = [];
    page.on("request", (request) => {
      const { pathname } = new URL(request.url());
      if (pathname.endsWith("/sync") && (request.postDataJSON()?.changes ?? []).length > 0) sent.push("note");
      if (pathname.includes("/media/") && ["PUT", "PATCH"].includes(request.method())) sent.push("photo");
    });
    await server.start();
    await page.evaluate(() => window.dispatchEvent(new Event("online")));
    await allSent(page);
    assert.equal(sent[0], "note", sent.join(", "));
    assert.ok(sent.includes("photo"), sent.join(", "));
  });

  await t.test("a second phone that joins by link has it, and sees the next entry as it is made", async () => {
    const link = await invite(page, server.address, "helper");
    const other = await join(second, link, "potting shed", "Ilse");
    await other.goto(`${server.address}/entry/${entry}`);
    await other.locator(".photos img").first().waitFor({ state: "visible", ...patience });
    await other.goto(`${server.address}/planting/${late.id}`);
    await other.locator("h1").waitFor(patience);
    await page.goto(`${server.address}/round/${late.id}`);
    const note = `A second stem has opened ${Date.now()}`;
    await page.getByLabel("Note").fill(note);
    const started = performance.now();
    await page.getByLabel("Note").blur();
    await see(other, note);
    t.diagnostic(`the second phone showed it after ${Math.round(performance.now() - started)} ms`);
  });

  await t.test("nothing but the app's own address was asked, and its content policy held", () => {
    assert.deepEqual([...first.strays, ...second.strays], []);
  });
});
