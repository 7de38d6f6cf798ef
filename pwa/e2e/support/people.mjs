// What people do on a phone, in the words that stand on the screen.
import assert from "node:assert/strict";

/** Long enough for a loaded machine; what is measured is printed, not asserted. */
export const patience = { timeout: 20_000 };

export async function see(page, text, where = page) {
  await where.getByText(text).first().waitFor({ state: "visible", ...patience });
}

/** Opens the demo garden, which opens itself, and waits for what it reckons. */
export async function openDemo(phone) {
  const page = await phone.open("/");
  await see(page, "Teasel Bank");
  await reckoned(page);
  return page;
}

export async function reckoned(page) {
  await page.locator("ul.ledger .verdict").first().waitFor({ state: "visible", ...patience });
}

/** Waits until the service worker keeps the app for use without a network. */
export async function keptForOffline(page) {
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.waitForFunction(async () => {
    const names = await caches.keys();
    const kept = await Promise.all(names.map(async (name) => (await (await caches.open(name)).keys()).length));
    return navigator.serviceWorker.controller !== null && kept.some((count) => count > 3);
  }, null, patience);
}

export async function join(phone, link, device, name) {
  const page = await phone.open(new URL(link).pathname + new URL(link).hash);
  await page.getByLabel("Your name").fill(name);
  await page.getByLabel("This phone’s name").fill(device);
  await page.getByRole("button", { name: "Join", exact: true }).click();
  await see(page, "Today");
  return page;
}

/** Makes an invitation on a keeper's phone and gives its link. */
export async function invite(page, origin, role = "helper") {
  await page.goto(origin + "/household");
  await page.getByRole("radio", { name: new RegExp(`^${role}`, "i") }).check();
  await page.getByRole("button", { name: "Make an invitation" }).click();
  const link = page.locator(".link");
  await link.waitFor({ state: "visible", ...patience });
  return (await link.textContent()).trim();
}

/** Photographs with the camera bar and gives the new entry's id. */
export async function photograph(page, picture, name = "plant.jpg") {
  await page.locator('input[type="file"]').first().setInputFiles({ name, mimeType: "image/jpeg", buffer: picture });
  await page.waitForURL(/\/entry\//, patience);
  return decodeURIComponent(page.url().split("/entry/")[1]);
}

export async function choose(page, row, word) {
  const button = page.getByRole("button", { name: word, exact: true });
  await button.click();
  await page.waitForFunction((element) => element.getAttribute("aria-pressed") === "true", await button.elementHandle(), patience);
  assert.equal(await button.getAttribute("aria-pressed"), "true", `${row}: ${word}`);
}

export async function setHeight(page, cm) {
  const field = page.getByLabel(/^Height in/);
  await field.fill(String(cm));
  await field.blur();
  await page.locator(".noted").waitFor({ state: "visible", ...patience });
}

/** How many changes and pictures wait to be sent, by the phone's own line; 0 when there is none. */
export async function waitingLine(page) {
  const line = page.locator("a.waits");
  return (await line.count()) === 0 ? "" : (await line.textContent()).trim();
}

export async function allSent(page) {
  await page.waitForFunction(() => document.querySelector("a.waits") === null, null, { timeout: 60_000 });
}
