// The main screens in French, on a phone set to it: none of the catalogue's English
// is left, axe finds nothing, and the longer words make nothing scroll sideways.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { audit } from "./support/audit.mjs";
import { patience, Phone } from "./support/browser.mjs";
import { gardenName, late } from "./support/demo.mjs";
import { photograph as jpeg } from "./support/jpeg.mjs";
import { go, keptForOffline, photograph, reckoned, see } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const texts = (language) => JSON.parse(readFileSync(new URL(`../messages/${language}.json`, import.meta.url), "utf8"));
const variants = (entry) => (typeof entry === "string" ? [entry] : entry.flatMap(({ match }) => Object.values(match)));
const fixed = (text) => text.replaceAll(/\{\w+\}/g, "").match(/\p{L}/gu)?.length ?? 0;

/** An English text as it may stand on the screen, with whatever is filled in; short ones are left out that French may share. */
const LEAST_LETTERS = 4;
const french = new Set(Object.values(texts("fr")).flatMap(variants));
const english = Object.values(texts("en")).flatMap(variants)
  .filter((text) => fixed(text) >= LEAST_LETTERS && !french.has(text))
  .map((text) => new RegExp(`^${text.replaceAll(/[.*+?^$()|[\]\\]/g, "\\$&").replaceAll(/\{\w+\}/g, ".+?")}$`, "u"));

/** The months and days of the week that both languages do not share. */
const dates = /\b(?:January|February|March|April|May|June|July|August|September|October|November|December|Monday|Tuesday|Wednesday|Thursday|Friday|Saturday|Sunday)\b/u;

/** In the page: all that is read on it or read out, apart from what people wrote. */
function readOn() {
  const read = [document.title];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) if (!node.parentElement.closest("script, style, q, .note, noscript")) read.push(node.data);
  for (const name of ["aria-label", "placeholder", "alt", "title"]) {
    for (const element of document.querySelectorAll(`[${name}]`)) read.push(element.getAttribute(name));
  }
  return read.map((text) => text.replaceAll(/\s+/g, " ").trim()).filter(Boolean);
}

/** A cultivar is called what it is called, ‘February Gold’. */
const withoutCultivars = (text) => text.replaceAll(/‘[^’]*’/gu, "");

const leftIn = (read) => read.filter((text) => dates.test(withoutCultivars(text)) || english.some((pattern) => pattern.test(text)));

const visible = { state: "visible", ...patience };
const shown = (page, selector) => page.locator(selector).first().waitFor(visible);
const unsure = jpeg({ taken: "2015:07:10 10:05:00", offset: "-07:00", ...late.at, accuracyM: 6 });

const screens = [
  ["/", reckoned],
  ["/round", (page) => shown(page, "main ul li")],
  [`/round/${late.id}`, (page) => shown(page, ".ask svg")],
  ["/plants", (page) => shown(page, "main ul li")],
  ["/plan", (page) => shown(page, "main svg")],
  ["/plants/add/iris-sibirica", (page) => shown(page, "form button")],
  [`/planting/${late.id}`, async (page) => {
    await shown(page, ".verdict");
    await shown(page, "main svg[role=img]");
  }],
  ["/planting/regal-lilies", (page) => see(page, "Précautions")],
  [`/planting/${late.id}/change`, (page) => shown(page, "main input")],
  ["/labels", (page) => shown(page, ".sheet li svg")],
  ["/garden", (page) => shown(page, "main input")],
  ["/household", (page) => shown(page, "main li")],
  ["/settings", (page) => shown(page, "main .form-row")],
  ["/about", (page) => shown(page, "main h1")],
  ["/sending", (page) => shown(page, "main h1")],
  ["/nowhere", (page) => shown(page, "main h1")],
];

let server, phone, page;

before(async () => {
  server = await (await Server.make({ demo: true })).start();
  phone = new Phone(server.address, { locale: "fr-FR", timezoneId: "Europe/Paris" });
  page = await phone.open("/");
  await see(page, gardenName);
  await reckoned(page);
});
after(async () => {
  await phone?.remove();
  await server?.remove();
});

async function hold(path) {
  const found = leftIn(await page.evaluate(readOn)).map((text) => `English: ${text}`);
  const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  if (wide > 0) found.push(`${wide} px too wide`);
  for (const finding of await audit(page)) found.push(finding);
  return found.map((what) => `${path}: ${what}`);
}

test("English would be found", async () => {
  assert.deepEqual(leftIn(["late by 9 to 14 days", "Photograph a plant", "vendredi 10 juillet", "10 July", "Photographier une plante", "3 photos"]), ["late by 9 to 14 days", "Photograph a plant", "10 July"]);
});

test("every main screen is French, fits a phone and is clean for a screen reader", async () => {
  const found = [];
  for (const [path, ready] of screens) {
    await go(page, path);
    await ready(page);
    found.push(...(await hold(path)));
  }
  assert.deepEqual(found, []);
});

test("so are an entry with its photograph, and the tray", async () => {
  await go(page, "/");
  await photograph(page, unsure);
  await shown(page, ".photos img, main img");
  const found = await hold("/entry");
  await go(page, "/tray");
  await shown(page, "main li img");
  found.push(...(await hold("/tray")));
  assert.deepEqual(found, []);
  phone.behaved();
});

test("a plant's cautions are French, with no signal too", async () => {
  await keptForOffline(page);
  await phone.context.setOffline(true);
  await go(page, "/planting/regal-lilies");
  await see(page, "Chaque partie peut détruire les reins d’un chat");
  await phone.context.setOffline(false);
});

test("what a stop says is said as French gardeners say it", async () => {
  await go(page, `/round/${late.id}`);
  await page.getByRole("button", { name: "bouton", exact: true }).waitFor(visible);
  const read = (await page.evaluate(readOn)).join("\n");
  assert.match(read, /en retard d(?:e|’au moins) \d/iu);
  assert.match(read, /juin|juillet/u);
});
