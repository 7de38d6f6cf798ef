// Every screen of the real app, with the demo garden and without one, held to axe
// in every light, to what a thumb, large text and a keyboard need, to its content
// policy and to its own address, as phone and desk.
import assert from "node:assert/strict";
import { test } from "node:test";
import { audit, colours, everything, sunColours } from "./support/audit.mjs";
import { deskSize, patience, phoneSize, withPhone } from "./support/browser.mjs";
import { plantedGarden } from "./support/garden.mjs";
import { go, join, see } from "./support/people.mjs";
import * as measures from "./support/measures.mjs";
import { lights, lit, visitAll } from "./support/screens.mjs";
import { Server } from "./support/server.mjs";

const sizes = { phone: phoneSize, desk: deskSize };

/** Another light changes no more than colours. */
const rules = { light: everything, dark: colours, sun: sunColours };

/** What is wrong with the screen that shows: by axe in every light, and as measured; targets are measured where thumbs are. */
async function auditLit(page, label) {
  const found = [];
  for (const [light, how] of Object.entries(lights)) {
    await lit(page, how);
    for (const finding of await audit(page, rules[light])) found.push(`${label}, ${light}: ${finding}`);
  }
  await lit(page, lights.light);
  for (const [name, measure] of Object.entries(measures)) {
    if (name === "targets" && page.viewportSize().width > phoneSize.width) continue;
    for (const finding of await measure(page)) found.push(`${label}, ${name}: ${finding}`);
  }
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

/** In the page: one of everything that is measured, done wrongly. */
function spoil() {
  const main = document.querySelector("main");
  main.insertAdjacentHTML("beforeend", `
    <button id="small">too small</button><button id="near">too near</button>
    <p id="cut">what is written here is cut where it is set larger</p>
    <p id="wide">wide as a phone</p>
    <button id="bare">no ring</button><button id="under">behind the dock</button>
    <p id="moving">comes slowly</p>`);
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(`
    #small { width: 30px; height: 30px; padding: 0 } #near { width: 56px; height: 60px; padding: 0 }
    #cut { height: 1.4em; overflow: hidden; font-size: 17px; max-width: 20em }
    #wide { width: 20rem }
    #bare:focus { outline: none } #under { position: fixed; left: -300px; width: 90px }
    #moving { transition: opacity 1s !important }`);
  document.adoptedStyleSheets.push(sheet);
}

test("what is measured would be found", () =>
  withServer({}, (server) => withPhone(server, { size: phoneSize }, async (phone) => {
    const page = await phone.open("/join");
    await page.getByLabel("Your name").waitFor(patience);
    await page.evaluate(spoil);
    const found = {};
    for (const [name, measure] of Object.entries(measures)) found[name] = (await measure(page)).join("\n");
    assert.match(found.targets, /target of 30×30: too small/);
    assert.match(found.targets, /too small and too near are too near/);
    assert.match(found.room, /^twice the type: \d+ px wide in 390: .*wide as a phone/m);
    assert.match(found.room, /^text set apart: cut: .*what is written here/m);
    assert.match(found.room, /^320 wide: .*wide as a phone/m);
    assert.match(found.focus, /no ring around button no ring/);
    assert.match(found.focus, /out of sight: button behind the dock/);
    assert.match(found.rest, /moves: p/);
  })));

for (const [name, size] of Object.entries(sizes)) {
  test(`nothing is wrong with any screen of the demo garden at ${size.width}×${size.height}`, () =>
    withServer({ demo: true }, (server) => withPhone(server, { size }, async (phone) => {
      const found = [];
      await visitAll(phone, async (screen, page) => found.push(...(await auditLit(page, `${screen.name} ${name}`))));
      assert.deepEqual(found, []);
    })));

  test(`nothing is wrong on the way in, and for a viewer at ${size.width}×${size.height}`, () =>
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

  test(`nothing is wrong in a garden with nothing in it at ${size.width}×${size.height}`, () =>
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
