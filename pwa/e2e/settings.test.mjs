// The settings of a phone: one tap from Today, at once in force, and still so when
// the app is opened again with no signal.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { patience, Phone, withPhone } from "./support/browser.mjs";
import { go, join, keptForOffline, openDemo, reckoned, see } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

let server;

before(async () => (server = await (await Server.make({ demo: true })).start()));
after(() => server?.remove());

const pressed = (page, row, word) => page.getByRole("group", { name: row }).getByRole("button", { name: word, exact: true });
/** Waits until a choice shows as taken: some are read from the phone's store first. */
const taken = (page, row, word) => page.getByRole("group", { name: row }).getByRole("button", { name: word, exact: true, pressed: true }).waitFor({ state: "visible", ...patience });
const ground = (page) => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
const paper = { light: "rgb(251, 248, 241)", dark: "rgb(22, 26, 24)", sun: "rgb(255, 255, 255)" };

test("light, dark and full sun are chosen in one place and kept", () =>
  withPhone(server, { colorScheme: "dark" }, async (phone) => {
    const page = await openDemo(phone);
    await page.getByRole("link", { name: "Settings" }).click();
    assert.equal(await ground(page), paper.dark, "as the phone asks");
    await pressed(page, "Light or dark", "light").click();
    assert.equal(await ground(page), paper.light);
    assert.equal(await page.locator('meta[name="theme-color"][media*="dark"]').getAttribute("content"), "#fbf8f1");
    await pressed(page, "Contrast", "full sun").click();
    assert.equal(await ground(page), paper.sun);
    await pressed(page, "Keep the screen on during a round", "no").click();
    await pressed(page, "Send original photographs over a metered link too", "yes").click();
    await taken(page, "Send original photographs over a metered link too", "yes"); // it is on disk
    await page.reload();
    await see(page, "Settings");
    assert.equal(await ground(page), paper.sun);
    await pressed(page, "Contrast", "ordinary").click();
    assert.equal(await ground(page), paper.light, "the choice under the sun's");
    for (const [row, word] of [["Keep the screen on during a round", "no"], ["Send original photographs over a metered link too", "yes"]]) {
      await taken(page, row, word);
    }
  }));

test("the language is the phone's, is chosen here, and is there with no signal", () =>
  withPhone(server, { locale: "fr-FR" }, async (phone) => {
    const texts = [];
    const page = await openDemo(phone, async (context) =>
      context.on("request", (request) => /\/assets\/(en|fr)-[^/]+\.js$/.exec(request.url()) && !request.serviceWorker() && texts.push(RegExp.$1)));
    assert.deepEqual(texts, ["fr"], "one language's texts are fetched for the first screen");
    assert.equal(await page.evaluate(() => document.documentElement.lang), "fr");
    assert.equal(await page.locator("link[rel=manifest]").getAttribute("href"), "/manifest.fr.webmanifest");
    await see(page, "vendredi 10 juillet");
    await keptForOffline(page);
    await phone.context.setOffline(true);
    await page.getByRole("link", { name: "Réglages" }).click();
    await page.getByRole("button", { name: "English", exact: true }).click();
    await page.locator("main h1").filter({ hasText: "Settings" }).waitFor({ state: "visible", ...patience });
    assert.equal(await page.evaluate(() => document.documentElement.lang), "en");
    await go(page, "/");
    await reckoned(page);
    await see(page, /Friday,? (10 July|July 10)/);
    await page.getByRole("link", { name: "Settings" }).click();
    await page.getByRole("button", { name: "as this phone is set", exact: true }).last().click();
    await page.locator("main h1").filter({ hasText: "Réglages" }).waitFor({ state: "visible", ...patience });
  }));

test("the phone is called something else, which the household sees", async () => {
  const own = await (await Server.make()).start();
  const phone = new Phone(own.address);
  try {
    const page = await join(phone, own.joinLink, "kitchen phone", "Ada");
    await go(page, "/settings");
    const name = page.getByLabel("This phone’s name");
    await name.fill("Ada’s old phone");
    await name.blur();
    await page.getByRole("button", { name: "undo This phone’s name" }).waitFor({ state: "visible", ...patience });
    await go(page, "/household");
    await see(page, "Ada’s old phone");
    await go(page, "/settings");
    assert.equal(await name.inputValue(), "Ada’s old phone");
    await phone.context.setOffline(true);
    await name.fill("no signal");
    await name.blur();
    await see(page, "This needs a signal");
    await phone.context.setOffline(false);
    phone.behaved();
  } finally {
    await phone.remove();
    await own.remove();
  }
});

test("the garden's measures are chosen there by its keeper", () =>
  withPhone(server, {}, async (phone) => {
    const page = await openDemo(phone);
    await go(page, "/settings");
    await page.getByLabel("Measures").selectOption("imperial");
    await see(page, /^saved \d/);
    await page.getByRole("button", { name: /^undo/ }).click();
    await page.waitForFunction(() => document.querySelector("main select")?.value === "metric", null, patience);
  }));
