// On an iPhone the home screen comes first, before a code is used up, and the code
// is entered there; elsewhere the browser's own offer waits in the settings.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { audit } from "./support/audit.mjs";
import { patience, withPhone } from "./support/browser.mjs";
import { plantedGarden } from "./support/garden.mjs";
import { go, join, see } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const iPhone = "Mozilla/5.0 (iPhone; CPU iPhone OS 18_5 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/18.5 Mobile/15E148 Safari/604.1";
const visible = { state: "visible", ...patience };

let server, keeper;

before(async () => {
  server = await (await Server.make()).start();
  ({ keeper } = await plantedGarden(server, 1));
});
after(() => server?.remove());

/** Chromium offers by itself, when it sees fit: here the tests alone do. */
const noOffers = () => addEventListener("beforeinstallprompt", (event) => event.isTrusted && event.stopImmediatePropagation());

/** As Safari says it of an app opened from the home screen. */
const fromHomeScreen = (context) => context.addInitScript(() => Object.defineProperty(navigator, "standalone", { value: true }));

test("an iPhone's browser says to install first, and leaves the code for the app on the home screen", async () => {
  const link = new URL(await keeper.invite("helper"));
  const code = decodeURIComponent(link.hash.slice(1));
  const asked = [];
  await withPhone(server, { userAgent: iPhone }, async (phone) => {
    const page = await phone.open(link.pathname + link.hash, async (context) => context.on("request", (request) => asked.push(new URL(request.url()).pathname)));
    await see(page, "Put Haulm on the home screen first.");
    await see(page, code);
    assert.equal(await page.getByRole("button", { name: "Join", exact: true }).isVisible(), false);
    assert.deepEqual(await audit(page), []);
  });
  assert.ok(!asked.includes("/api/v1/join"), "the code was not used up");
  await withPhone(server, { userAgent: iPhone }, async (phone) => {
    const page = await phone.open("/", fromHomeScreen);
    await page.getByLabel("Code").waitFor(visible);
    assert.equal(await page.getByText("home screen").count(), 0);
    await page.getByLabel("Code").fill(code);
    await page.getByLabel("Your name").fill("Ben");
    await page.getByLabel("This phone’s name").fill("Ben’s phone");
    await page.getByRole("button", { name: "Join", exact: true }).click();
    await page.getByRole("link", { name: "Today" }).waitFor(visible);
  });
});

test("who wants it in the iPhone's browser all the same can join there, and is told how to install later", () =>
  withPhone(server, { userAgent: iPhone }, async (phone) => {
    const link = new URL(await keeper.invite("helper"));
    const page = await phone.open(link.pathname + link.hash, (context) => context.addInitScript(noOffers));
    await page.getByText("Use it in this browser all the same").click();
    await page.getByLabel("Your name").fill("Cleo");
    await page.getByLabel("This phone’s name").fill("tablet");
    await page.getByRole("button", { name: "Join", exact: true }).click();
    await page.getByRole("link", { name: "Put Haulm on the home screen" }).click();
    await see(page, "make an invitation under “Household and phones”");
  }));

test("elsewhere the browser's offer is held back, and made when it is asked for", () =>
  withPhone(server, {}, async (phone) => {
    const page = await join(phone, await keeper.invite("helper"), "old phone", "Dan", (context) => context.addInitScript(noOffers));
    assert.equal(await page.getByRole("link", { name: "Put Haulm on the home screen" }).count(), 0);
    const heldBack = await page.evaluate(() => {
      const offer = Object.assign(new Event("beforeinstallprompt", { cancelable: true }), { prompt: async () => void (globalThis.prompted = true) });
      return !dispatchEvent(offer);
    });
    assert.ok(heldBack, "no bar of the browser's own over the dock");
    await page.getByRole("link", { name: "Put Haulm on the home screen" }).click();
    await page.getByRole("button", { name: "Put Haulm on the home screen" }).click();
    assert.equal(await page.evaluate(() => globalThis.prompted), true);
    await go(page, "/");
    await page.locator("main h1").waitFor(visible);
    assert.equal(await page.getByRole("link", { name: "Put Haulm on the home screen" }).count(), 0);
  }));
