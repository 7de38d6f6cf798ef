// The screens that come after the first: all of them are in memory once the page
// is idle, and one that cannot be fetched says so.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { audit } from "./support/audit.mjs";
import { patience, Phone } from "./support/browser.mjs";
import { go, openDemo, reckoned, see } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const chunk = /\/assets\/(?!index-|Page-)[^/]+\.(?:js|css)$/;

let server;

before(async () => (server = await (await Server.make({ demo: true })).start()));
after(() => server?.remove());

async function withPhone(use) {
  const phone = new Phone(server.address, { serviceWorkers: "block" });
  try {
    await use(phone);
  } finally {
    await phone.remove();
  }
}

test("once idle every screen opens with nothing left to fetch from", () =>
  withPhone(async (phone) => {
    const page = await openDemo(phone);
    await page.waitForFunction(() =>
      ["Plants", "Planting", "About", "Sending", "Household"].every((name) =>
        performance.getEntriesByType("resource").some(({ name: url, responseEnd }) => url.includes(`/assets/${name}-`) && responseEnd > 0)), null, patience);
    await page.waitForLoadState("networkidle");
    await phone.context.route(chunk, (route) => route.abort());
    for (const [path, words] of [["/plants", /./], ["/about", "Reading, cautions, about"], ["/sending", /./], ["/household", /./]]) {
      await go(page, path);
      await page.waitForURL(phone.origin + path, patience);
    const heading = page.locator("main h1");
      await heading.filter({ hasText: words }).waitFor({ state: "visible", ...patience });
      assert.equal(await page.getByText("Not on this phone yet").count(), 0, path);
    }
    phone.behaved();
  }));

test("a screen that cannot be fetched says so and what to do, and the others go on", () =>
  withPhone(async (phone) => {
    const page = await openDemo(phone, (context) => context.route(/\/assets\/About-/, (route) => route.abort()));
    await go(page, "/about");
    await see(page, "Not on this phone yet");
    assert.deepEqual(await audit(page), []);
    await go(page, "/");
    await reckoned(page);
    await go(page, "/about");
    await see(page, "What you noted is kept on this phone.");
    await phone.context.unroute(/\/assets\/About-/);
    await page.getByRole("button", { name: "Load Haulm again" }).click();
    await page.locator("main h1").filter({ hasText: "Reading, cautions, about" }).waitFor({ state: "visible", ...patience });
  }));
