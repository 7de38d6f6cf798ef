// The phone's almanac and the server's give the same answer to the byte, once the
// garden has come to the phone by the app's own way.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { patience, Phone } from "./support/browser.mjs";
import { late, today } from "./support/demo.mjs";
import { allSent, choose, go, openDemo, setHeight } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

let server, phone, page;
const almanacs = [];

before(async () => {
  server = await (await Server.make({ demo: true })).start();
  phone = new Phone(server.address);
  page = await openDemo(phone, (context) => {
    const heed = (opened) => opened.on("worker", (worker) => almanacs.push(worker));
    context.pages().forEach(heed);
    context.on("page", heed);
  });
});

after(async () => {
  await phone?.remove();
  await server?.remove();
});

/** The very text that the phone's WebAssembly answers with, of the records that the app has loaded into it. */
async function phoneSays(on) {
  const said = await almanacs.at(-1).evaluate((question) => globalThis.haulmAlmanac.ask("assess", question), JSON.stringify({ on }));
  const [, answer] = /^\{"answer":(.*)\}\s*$/s.exec(said) ?? [];
  assert.ok(answer, said.slice(0, 200));
  return answer.trim();
}

function serverSays(on) {
  return page.evaluate(async (day) => {
    const answer = await fetch(`/api/v1/gardens/demo/assessment?on=${day}`);
    return (await answer.text()).trim();
  }, on);
}

async function agree(on) {
  const [here, there] = [await phoneSays(on), await serverSays(on)];
  assert.ok(here.length > 1000, here.slice(0, 200));
  assert.equal(here, there);
  return here;
}

test("phone and server find the same in the demo garden, byte for byte", async (t) => {
  const found = await agree(today);
  t.diagnostic(`${found.length} bytes`);
  for (const on of ["2013-05-01", "2014-02-20", "2014-09-30", "2015-03-15"]) await agree(on);
});

test("and still after a look was noted and sent", async () => {
  const before = await phoneSays(today);
  await go(page, `/round/${late.id}`);
  await choose(page, "first");
  await setHeight(page, 128);
  await allSent(page);
  await go(page, `/planting/${late.id}`);
  await page.locator(".verdict").first().waitFor({ state: "visible", ...patience });
  let now = before;
  for (let tries = 0; now === before && tries < 200; tries++) {
    await page.waitForTimeout(100);
    now = await phoneSays(today);
  }
  assert.notEqual(now, before, "the look changed what is found");
  assert.equal(now, await serverSays(today));
  phone.behaved();
});
