// Every screen of the real app, with the demo garden and without one, held to axe,
// to its content policy and to its own address, as phone and desk, in every light.
import assert from "node:assert/strict";
import { test } from "node:test";
import { audit } from "./support/audit.mjs";
import { deskSize, patience, phoneSize, withPhone } from "./support/browser.mjs";
import { plantedGarden } from "./support/garden.mjs";
import { go, join, see } from "./support/people.mjs";
import { lights, lit, visitAll } from "./support/screens.mjs";
import { Server } from "./support/server.mjs";

const sizes = { phone: phoneSize, desk: deskSize };

/** What axe finds on the screen that shows, in every light. */
async function auditLit(page, label) {
  const found = [];
  for (const [light, how] of Object.entries(lights)) {
    await lit(page, how);
    for (const finding of await audit(page)) found.push(`${label}, ${light}: ${finding}`);
  }
  await lit(page, lights.light);
  return found;
}

async function withServer(options, use) {
  const server = await (await Server.make(options)).start();
  try {
    await use(server);
  } finally {
    await server.remove();
  }
}

test("axe is there and would find something", () =>
  withServer({}, (server) => withPhone(server, { size: phoneSize }, async (phone) => {
    const page = await phone.open("/join");
    await page.getByLabel("Your name").waitFor(patience);
    await page.evaluate(() => document.querySelector("main form").append(document.createElement("button")));
    assert.match((await audit(page)).join(), /button-name/);
  })));

for (const [name, size] of Object.entries(sizes)) {
  test(`axe finds nothing on any screen of the demo garden at ${size.width}×${size.height}`, () =>
    withServer({ demo: true }, (server) => withPhone(server, { size }, async (phone) => {
      const found = [];
      await visitAll(phone, async (screen, page) => found.push(...(await auditLit(page, `${screen.name} ${name}`))));
      assert.deepEqual(found, []);
    })));

  test(`axe finds nothing on the way in, in an empty garden and for a viewer at ${size.width}×${size.height}`, () =>
    withServer({}, async (server) => {
      const found = [];
      await withPhone(server, { size }, async (phone) => {
        const outside = await phone.open("/join");
        await outside.getByLabel("Your name").waitFor(patience);
        found.push(...(await auditLit(outside, `join ${name}`)));
      });
      const { keeper, plantings } = await plantedGarden(server, 1);
      await withPhone(server, { size }, async (phone) => {
        const page = await join(phone, await keeper.invite("viewer"), "hall tablet", "Visitor");
        await go(page, `/round/${plantings[0]}`);
        await see(page, "Long border");
        found.push(...(await auditLit(page, `stop of a viewer ${name}`)));
        await go(page, "/plants");
        await page.getByRole("searchbox").waitFor(patience);
        found.push(...(await auditLit(page, `plants of a viewer ${name}`)));
      });
      assert.deepEqual(found, []);
    }));

  test(`axe finds nothing in a garden with nothing in it at ${size.width}×${size.height}`, () =>
    withServer({}, (server) => withPhone(server, { size }, async (phone) => {
      const page = await join(phone, server.joinLink, "kitchen phone", "Ada");
      const found = [];
      for (const path of ["/", "/round", "/plan", "/plants", "/tray", "/sending"]) {
        await go(page, path);
        await page.locator("main h1").waitFor(patience);
        found.push(...(await auditLit(page, `empty ${path} ${name}`)));
      }
      assert.deepEqual(found, []);
    })));
}
