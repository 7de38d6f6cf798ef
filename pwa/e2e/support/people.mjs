// What people do on a phone, in the words that stand on the screen.
import { setTimeout as pause } from "node:timers/promises";
import { patience } from "./browser.mjs";
import { gardenName } from "./demo.mjs";

const visible = { state: "visible", ...patience };

const BETWEEN_TAPS_MS = 600; // a second tap in the same place within 450 ms counts as a wet finger's

export async function see(page, text, where = page) {
  await where.getByText(text).first().waitFor(visible);
}

/** Sees a heading of just these words: sentences may hold them too. */
export async function seeHeading(page, words) {
  await page.getByRole("heading", { name: words, exact: true }).first().waitFor(visible);
}

/** Goes to another screen as tapping a link to it does, without loading the page again. */
export async function go(page, path) {
  await page.evaluate((href) => {
    const link = Object.assign(document.createElement("a"), { href });
    document.body.append(link);
    link.click();
    link.remove();
  }, path);
}

/** Opens the demo garden, which opens itself, and waits for what it reckons. */
export async function openDemo(phone, prepare) {
  const page = await phone.open("/", prepare);
  await see(page, gardenName);
  await reckoned(page);
  return page;
}

export async function reckoned(page) {
  await page.locator("ul.ledger .verdict").first().waitFor(visible);
}

/** Waits until the service worker keeps the app, the almanac with it, for use without a network. */
export async function keptForOffline(page) {
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await page.waitForFunction(async () => {
    const kept = await Promise.all(["/index.html", "/almanac.wasm"].map((path) => caches.match(path, { ignoreSearch: true })));
    return navigator.serviceWorker.controller !== null && kept.every(Boolean);
  }, null, patience);
}

export async function join(phone, link, device, name, prepare) {
  const page = await phone.open(new URL(link).pathname + new URL(link).hash, prepare);
  await page.getByLabel("Your name").fill(name);
  await page.getByLabel("This phone’s name").fill(device);
  await page.getByRole("button", { name: "Join", exact: true }).click();
  await page.waitForURL(`${phone.origin}/`, patience);
  await page.getByRole("link", { name: "Today" }).waitFor(visible);
  return page;
}

/** Makes an invitation on a keeper's phone and gives its link. */
export async function invite(page, role = "helper") {
  await go(page, "/household");
  await page.getByRole("radio", { name: new RegExp(`^${role}`, "i") }).check();
  await page.getByRole("button", { name: "Make an invitation" }).click();
  const link = page.locator(".link");
  await link.waitFor(visible);
  return (await link.textContent()).trim();
}

/** Photographs with the camera bar and gives the new entry's id. */
export async function photograph(page, picture, name = "plant.jpg") {
  const camera = page.locator('input[type="file"][capture]').first();
  await camera.waitFor({ state: "attached", ...patience });
  await camera.setInputFiles({ name, mimeType: "image/jpeg", buffer: picture });
  await page.waitForURL(/\/entry\//, patience);
  return decodeURIComponent(page.url().split("/entry/")[1]);
}

/** Adds pictures from the phone's gallery on a planting's page, and waits until `waiting` in all wait for a signal. */
export async function addPictures(page, pictures, waiting) {
  const files = pictures.map((buffer, i) => ({ name: `${i}.jpg`, mimeType: "image/jpeg", buffer }));
  await page.locator('main input[type="file"][multiple]').setInputFiles(files);
  await page.locator("a.waits", { hasText: `${waiting} photos` }).waitFor(visible);
  await page.getByText("Keeping it …").waitFor({ state: "hidden", ...patience });
}

/** Waits until as many rows of a look say when they were saved. */
export async function savedRows(page, count) {
  await page.getByText(/^saved \d/).nth(count - 1).waitFor(visible);
}

/** Goes on at a stop by one of its buttons, to the next stop or back to the round. */
export async function onward(page, name = /^(Next: |End of the round)/) {
  const from = page.url();
  await pause(BETWEEN_TAPS_MS);
  await page.locator(".dock").getByRole("button", { name }).click();
  await page.waitForURL((url) => url.href !== from, { ...patience, waitUntil: "commit" });
  await page.locator("main h1").waitFor(visible);
}

/** Taps a button after the pause that people make. */
export async function tap(page, name) {
  const button = page.getByRole("button", { name });
  await button.waitFor(visible);
  await pause(BETWEEN_TAPS_MS);
  await button.click();
}

/** Taps one of the words of a look and sees that it is taken. */
export async function choose(page, word) {
  const button = page.getByRole("button", { name: word, exact: true });
  await button.waitFor(visible);
  await pause(BETWEEN_TAPS_MS);
  await button.click();
  await page.waitForFunction((element) => element.getAttribute("aria-pressed") === "true", await button.elementHandle(), patience);
}

/** Types a height and leaves the field, which keeps it. */
export async function typeHeight(page, cm) {
  const field = page.getByRole("textbox", { name: /^Height in/ });
  await field.fill(String(cm));
  await field.blur();
}

export async function setHeight(page, cm) {
  await typeHeight(page, cm);
  await page.locator(".noted").waitFor(visible);
}

/** Writes a note and leaves the field, which keeps it. */
export async function writeNote(page, text) {
  const field = page.getByRole("textbox", { name: "Note" });
  await field.fill(text);
  await field.blur();
}

const AFTER_ANSWER_MS = 400; // what was written is counted among what waits 100 ms after it shows

/** The screen of what waits says that nothing does. */
export async function allSent(page) {
  await pause(AFTER_ANSWER_MS);
  await go(page, "/sending");
  await see(page, "Everything on this phone is sent.");
}

/** The signal comes back: the phone hears of it and tries at once. */
export async function signalReturns(page) {
  await page.evaluate(() => dispatchEvent(new Event("online")));
}
