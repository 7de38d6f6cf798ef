// What its place does to a plant is told where one stands before it: on its own
// page and at its stop of the round, within the screen's width and to axe's liking.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { audit } from "./support/audit.mjs";
import { deskSize, patience, Phone, phoneSize } from "./support/browser.mjs";
import { go, join, reckoned, see } from "./support/people.mjs";
import { placesGarden, told } from "./support/places.mjs";
import { Server } from "./support/server.mjs";

let server, keeper;

before(async () => {
  server = await (await Server.make({})).start();
  keeper = await placesGarden(server);
});

after(() => server?.remove());

async function withPhone(size, use) {
  const phone = new Phone(server.address, { size });
  try {
    const page = await join(phone, await keeper.invite("helper"), `phone of ${size.width}`, "Bo");
    await reckoned(page);
    await use(page);
    phone.behaved();
  } finally {
    await phone.remove();
  }
}

/** The screen is no wider than it is, and axe finds nothing on it. */
async function reads(page, label) {
  assert.equal(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), 0, `${label} is wider than the screen`);
  assert.deepEqual(await audit(page), [], label);
}

for (const size of [phoneSize, deskSize]) {
  test(`each is told on its page, with why, at ${size.width}×${size.height}`, () =>
    withPhone(size, async (page) => {
      for (const [planting, words] of Object.entries(told)) {
        await go(page, `/planting/${planting}`);
        const verdict = page.locator("main h3 .verdict").filter({ hasText: words });
        await verdict.waitFor({ state: "visible", ...patience });
        for (const why of await page.locator("main summary", { hasText: /^why$/ }).all()) await why.click();
        await reads(page, planting);
      }
    }));
}

test("where something sleeps the warning not to dig says until when", () =>
  withPhone(phoneSize, async (page) => {
    for (const path of ["/planting/snowdrops", "/round/snowdrops"]) {
      await go(page, path);
      await see(page, /^Something sleeps here: no spade, no fork before \d+ \w+ 2016\.$/);
    }
  }));

test("the stop of a dry planting asks whether it is, and says how much it wants", () =>
  withPhone(phoneSize, async (page) => {
    await go(page, "/round/rose");
    await see(page, "Is it dry a finger deep?");
    await see(page, /^Dry at the root; \d+ litres for each plant, \d+ for all\. By 1 July, \d+ % of the water/);
    await reads(page, "stop of the rose");
  }));
