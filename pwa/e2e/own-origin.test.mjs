// Nothing but the app's own address is ever contacted: over every screen and what
// is done on it, by the page, its workers, its service worker and the browser on their behalf.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Phone } from "./support/browser.mjs";
import { keptForOffline, signalReturns } from "./support/people.mjs";
import { visitAll } from "./support/screens.mjs";
import { Server } from "./support/server.mjs";
import { Witness } from "./support/witness.mjs";

let server, witness, phone;

before(async () => {
  server = await (await Server.make({ demo: true })).start();
  witness = await Witness.make();
  phone = new Phone(server.address, witness.options);
});

after(async () => {
  await phone?.remove();
  await witness?.close();
  await server?.remove();
});

/** What is asked for on the way, by whom; had the witness not heard it, its silence would mean nothing. */
const heard = {
  "the page": /^GET \/$/,
  "a worker, for the almanac": /^GET \/almanac\.wasm/,
  "the browser, for the service worker": /^GET \/service-worker\.js$/,
  "the service worker, for what it keeps": /^GET \/catalogue\.json/,
  "the line": /^POST \/api\/v1\/gardens\/demo\/sync$/,
  "the stream": /^GET \/api\/v1\/gardens\/demo\/live$/,
  "a photograph's preview": /^PUT \/api\/v1\/gardens\/demo\/media\/[0-9a-f]{64}\/preview\/320$/,
  "a photograph": /^PATCH \/api\/v1\/gardens\/demo\/media\/[0-9a-f]{64}$/,
};

test("over every screen nothing but the app's own address is contacted", async (t) => {
  const page = await visitAll(phone, async () => {});
  await page.context().setOffline(false);
  await signalReturns(page);
  await page.getByText("Everything on this phone is sent.").or(page.getByText("Not taken")).first().waitFor();
  await keptForOffline(page);
  await page.reload();
  await page.locator("main h1").waitFor();

  const { host } = new URL(server.address);
  assert.deepEqual(witness.spokenTo(), [host]);
  for (const [who, asked] of Object.entries(heard)) assert.ok(witness.asked.some((line) => asked.test(line)), `the witness heard ${who}`);
  t.diagnostic(`${witness.asked.length} requests, all of them to ${host}`);
  phone.behaved();

  await t.test("the content policy keeps a page from speaking to another, and the witness would hear one that did", async () => {
    const stopped = await page.evaluate(() => fetch("http://elsewhere.example/").then(() => "answered", ({ name }) => name));
    assert.equal(stopped, "TypeError");
    assert.deepEqual(witness.spokenTo(), [host]);
    await page.goto("http://elsewhere.example/").catch(() => undefined);
    assert.deepEqual(witness.spokenTo(), [host, "elsewhere.example"]);
  });
});
