// The main road: photograph and log with no network, lose everything but the
// phone's own store, come back, send, and see it on a second phone.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { patience, Phone } from "./support/browser.mjs";
import { gardenName, late } from "./support/demo.mjs";
import { photograph as jpeg } from "./support/jpeg.mjs";
import {
  allSent, choose, go, invite, join, keptForOffline, openDemo, photograph, reckoned, savedRows, see, setHeight, signalReturns, writeNote,
} from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const visible = { state: "visible", ...patience };

let server, first, second;

before(async () => {
  server = await (await Server.make({ demo: true })).start();
  first = new Phone(server.address);
  second = new Phone(server.address);
});

after(async () => {
  await first?.remove();
  await second?.remove();
  await server?.remove();
});

/** The verdict on the flower of a planting, on its own page. */
async function verdictOf(page, id) {
  await go(page, `/planting/${id}`);
  const verdict = page.locator(".verdict").first();
  await verdict.waitFor(visible);
  return (await verdict.textContent()).trim();
}

test("from the bed without a signal to a second phone", async (t) => {
  let page = await openDemo(first);
  await keptForOffline(page);
  const picture = jpeg({ taken: "2015:07:10 10:05:00", offset: "-07:00", ...late.at, accuracyM: 0.5, bytes: 300_000 });
  let entry, verdict;

  await t.test("with the server gone the app opens from the phone and reckons", async () => {
    await server.stop();
    await page.reload();
    await see(page, gardenName);
    await reckoned(page);
    verdict = await verdictOf(page, late.id);
    assert.match(verdict, /late/);
  });

  await t.test("a photograph, a stage and a height are kept", async () => {
    entry = await photograph(page, picture);
    await choose(page, "full");
    await setHeight(page, 143);
    await savedRows(page, 2);
    await go(page, "/");
    await page.locator("a.waits").waitFor(visible);
    assert.match(await page.locator("a.waits").textContent(), /1 photo/);
  });

  await t.test("after quitting the browser the entry, its photo and the new findings are there", async () => {
    await first.quit();
    page = await first.open(`/entry/${entry}`);
    await page.locator(".photos img").first().waitFor(visible);
    await page.waitForFunction(() => document.querySelector(".photos img").naturalWidth > 0, null, patience);
    assert.equal(await page.getByRole("button", { name: "full", exact: true }).getAttribute("aria-pressed"), "true");
    assert.equal(await page.getByRole("textbox", { name: /^Height in (?!flower)/ }).inputValue(), "143");
    await go(page, `/planting/${late.id}`);
    await page.waitForFunction((was) => {
      const now = document.querySelector(".verdict")?.textContent.trim();
      return now && now !== was;
    }, verdict, patience);
    t.diagnostic(`“${verdict}” became “${(await page.locator(".verdict").first().textContent()).trim()}”`);
  });

  await t.test("with the server back the note goes before the photo", async () => {
    const sent = [];
    page.on("request", (request) => {
      const { pathname } = new URL(request.url());
      if (pathname.endsWith("/sync") && (request.postDataJSON()?.changes ?? []).length > 0) sent.push("note");
      if (pathname.includes("/media/") && ["PUT", "PATCH"].includes(request.method())) sent.push("photo");
    });
    await server.start();
    await signalReturns(page);
    await allSent(page);
    assert.equal(sent[0], "note", sent.join(", "));
    assert.ok(sent.lastIndexOf("note") < sent.indexOf("photo"), sent.join(", "));
  });

  await t.test("a second phone that joins by link has it, and sees the next entry as it is made", async () => {
    const streams = [];
    const other = await join(second, await invite(page), "potting shed", "Ilse", (context) =>
      context.on("response", (answer) => answer.headers()["content-type"] === "text/event-stream" && streams.push(answer.url())));
    await go(other, `/entry/${entry}`);
    await other.locator(".photos img").first().waitFor(visible);
    await go(other, `/planting/${late.id}`);
    await other.locator("h1").waitFor(visible);
    await go(page, `/round/${late.id}`);
    const note = "A second stem has opened.";
    const started = performance.now();
    await writeNote(page, note);
    await see(other, note);
    t.diagnostic(`the second phone showed it after ${Math.round(performance.now() - started)} ms`);
    assert.equal(streams.length, 1, "the second phone hears through one event stream");
  });

  await t.test("nothing but the app's own address was asked, and its content policy held", () => {
    first.behaved();
    second.behaved();
  });
});
