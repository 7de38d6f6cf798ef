// Every screen of the app over the demo garden, in the order in which they can be
// visited without one changing what another shows, and the ways to light them.
import { patience } from "./browser.mjs";
import { caneJpeg, canePoints, tapPoints } from "./cane.mjs";
import { late } from "./demo.mjs";
import { photograph as jpeg } from "./jpeg.mjs";
import { choose, go, invite, openDemo, photograph, reckoned, see, seeHeading, tap, typeHeight, writeNote } from "./people.mjs";
import { outgrow } from "./refused.mjs";

const visible = { state: "visible", ...patience };
const shown = (page, selector) => page.locator(selector).first().waitFor(visible);

/** A planting's page is whole once its verdict and its charts are there. */
async function charted(page) {
  await shown(page, ".verdict");
  await shown(page, "main svg[role=img]");
}

/** A photograph from a place between many plants, as exact as phones are in the open: it waits in the tray. */
const unsure = jpeg({ taken: "2015:07:10 10:05:00", offset: "-07:00", ...late.at, accuracyM: 6 });

/** `ready` resolves when the screen shows all that it has; `from` is the heading that pictures begin at. */
export const screens = [
  { name: "today", path: "/", ready: reckoned },
  { name: "round", path: "/round", ready: (page) => shown(page, "main ul li") },
  { name: "stop", path: `/round/${late.id}`, ready: (page) => shown(page, ".ask svg") },
  { name: "plan", path: "/plan", ready: (page) => shown(page, ".pane .planting") },
  { name: "plan-near", path: "/plan", ready: async (page) => {
    await shown(page, ".pane .planting");
    await page.getByRole("combobox").selectOption({ label: "Long border" });
    await page.locator("table").getByRole("row", { name: /Choisya/ }).getByRole("button").click();
    await shown(page, "main .chosen a");
  } },
  { name: "plants", path: "/plants", ready: (page) => shown(page, "main ul li") },
  { name: "search", path: "/plants", ready: async (page) => {
    await page.getByRole("searchbox").fill("salvya");
    await shown(page, "main ul li");
  } },
  { name: "add-planting", path: "/plants/add/iris-sibirica", ready: (page) => shown(page, "form button") },
  { name: "planting", path: `/planting/${late.id}`, ready: async (page) => {
    await charted(page);
    await page.getByText("the numbers as a table").first().click();
  } },
  { name: "planting-charts", path: `/planting/${late.id}`, from: "Height", ready: charted },
  { name: "planting-cautions", path: "/planting/regal-lilies", ready: (page) => see(page, "Cautions") },
  { name: "planting-move", path: `/planting/${late.id}/move`, ready: (page) => shown(page, "main form button") },
  { name: "planting-divide", path: `/planting/${late.id}/divide`, ready: async (page) => {
    await page.getByRole("button", { name: "Another group of pieces" }).click();
    await see(page, "Pieces, group 2");
  } },
  { name: "planting-lift", path: "/planting/regal-lilies/lift", ready: (page) => shown(page, "main form button") },
  { name: "planting-end", path: `/planting/${late.id}/end`, ready: (page) => shown(page, "main form button") },
  { name: "kind", path: "/kind/salvia-nemorosa-ostfriesland", ready: (page) => shown(page, "main select") },
  { name: "planting-change", path: `/planting/${late.id}/change`, ready: (page) => shown(page, "main input") },
  { name: "add-by-label", path: `/plants/add?label=${encodeURIComponent("Salvia ‘Teasel Bank Blue’")}`, ready: async (page) => {
    for (const words of ["What the label says", "How it was planted"]) await page.getByText(words, { exact: true }).click();
    await shown(page, "main form details input");
  } },
  { name: "labels", path: "/labels", ready: (page) => shown(page, ".sheet li svg") },
  { name: "bed", path: "/bed/long", ready: async (page) => {
    await shown(page, "main input");
    await page.getByText("how to tell soils by hand").click();
  } },
  { name: "scan", path: "/scan", ready: (page) => shown(page, "main [role=alert] p") },
  { name: "garden", path: "/garden", ready: (page) => shown(page, "main input") },
  { name: "settings", path: "/settings", ready: (page) => shown(page, "main .form-row") },
  { name: "about", path: "/about", ready: (page) => shown(page, "main h1") },
  { name: "household", path: "/household", ready: async (page) => void (await invite(page, "helper")) },
  { name: "lost", path: "/nowhere", ready: (page) => shown(page, "main h1") },
  { name: "entry", path: "/", ready: async (page) => {
    await photograph(page, unsure);
    await shown(page, ".photos img");
    await shown(page, ".whose");
  } },
  { name: "tray", path: "/tray", ready: async (page) => {
    await shown(page, ".whose");
    await shown(page, "main li img");
  } },
  { name: "photos", path: "/tray", ready: async (page) => {
    await page.locator('section input[type="file"][multiple]').setInputFiles([
      { name: "border.jpg", mimeType: "image/jpeg", buffer: jpeg({ taken: "2015:07:09 19:20:00", offset: "-07:00", ...late.at, accuracyM: 6 }) },
      { name: "order list.pdf", mimeType: "application/pdf", buffer: Buffer.from("%PDF-1.7") },
    ]);
    await page.waitForURL(/\/photos/, patience);
    await shown(page, "main li img");
    await shown(page, ".whose");
    await see(page, "order list.pdf was not kept.");
  } },
  { name: "stop-noted", path: `/round/${late.id}`, ready: async (page) => {
    await choose(page, "bud");
    await choose(page, "good");
    await see(page, /^saved \d/);
  } },
  { name: "stop-rest-noted", path: `/round/${late.id}`, ready: async (page) => {
    const rest = page.getByRole("group", { name: "The rest of Long border" });
    await rest.getByRole("button", { name: /nothing to note$/ }).click();
    await rest.getByRole("button", { name: /^undo/ }).waitFor(visible);
  } },
  { name: "round-onward", path: "/round", ready: async (page) => {
    await page.getByRole("link", { name: /^Walk the / }).click();
    await shown(page, ".dock button");
    await go(page, "/round");
    await page.getByRole("link", { name: /^Go on: / }).waitFor(visible);
  } },
  { name: "stop-microphone-refused", path: "/round/regal-lilies", from: "Voice memo", ready: async (page) => {
    await page.evaluate(microphone, "refused");
    await tap(page, /^Say something/);
    await see(page, /does not let Haulm use its microphone/);
  } },
  { name: "stop-memo", path: "/round/regal-lilies", from: "Voice memo", ready: async (page) => {
    await page.evaluate(microphone, "humming");
    await tap(page, /^Say something/);
    await see(page, "0:01 of 3:00");
    await tap(page, /^Stop and keep/);
    await page.getByRole("button", { name: "Play the memo" }).waitFor(visible);
  } },
  { name: "planting-photo", path: `/planting/${late.id}`, ready: async (page) => {
    await photograph(page, jpeg({ taken: "2015:07:10 10:05:00", offset: "-07:00", ...late.at, accuracyM: 5 }));
    await go(page, `/planting/${late.id}`);
    await shown(page, "figure img");
    await charted(page);
  } },
  { name: "cane", path: `/planting/${late.id}`, ready: async (page) => {
    await photograph(page, await caneJpeg(page));
    await page.getByRole("link", { name: "Measure by a cane in the photograph" }).click();
    await page.getByLabel(/^Length of the cane/).fill("120");
    await page.getByLabel(/^Length of the cane/).blur();
    await shown(page, "main svg[role=application]");
    await tapPoints(page, Object.values(canePoints));
    await shown(page, ".height strong");
  } },
  { name: "sending", path: "/round/day-lily", ready: refusedAndWaiting },
  { name: "today-refused", path: "/", ready: reckoned },
];

/** In the page: a microphone that hums, or one that is refused. */
function microphone(how) {
  navigator.mediaDevices.getUserMedia = async () => {
    if (how === "refused") throw new DOMException("Permission denied", "NotAllowedError");
    const sound = new AudioContext();
    const heard = sound.createMediaStreamDestination();
    const hum = new OscillatorNode(sound);
    hum.connect(heard);
    hum.start();
    return heard.stream;
  };
}

/** A height is refused; then, with no signal, a note and a photograph wait. */
async function refusedAndWaiting(page) {
  await page.context().route("**/sync", outgrow);
  await typeHeight(page, 90);
  await go(page, "/sending");
  await seeHeading(page, "Not taken");
  await page.context().unroute("**/sync", outgrow);
  await page.context().setOffline(true);
  await go(page, "/round/sea-holly");
  await writeNote(page, "Bees all over it.");
  await see(page, /^saved \d/);
  await go(page, "/");
  await photograph(page, jpeg({ taken: "2015:07:10 10:20:00", offset: "-07:00", ...late.at, accuracyM: 6 })); // not one that was sent before
  await shown(page, ".photos img"); // else its own screen comes after the one gone to
  await go(page, "/sending");
  await seeHeading(page, "Original photos");
}

/** How a phone is lit: its scheme, and the app's own contrast for full sun. */
export const lights = { light: ["light", "ordinary"], dark: ["dark", "ordinary"], sun: ["light", "sun"] };

export async function lit(page, [colorScheme, contrast]) {
  await page.emulateMedia({ colorScheme });
  await page.evaluate((wanted) => (document.documentElement.dataset.contrast = wanted), contrast);
  await page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => requestAnimationFrame(resolve))));
}

/** Opens the demo on a phone and visits every screen, calling `visit(screen, page)` on each. */
export async function visitAll(phone, visit) {
  const page = await openDemo(phone);
  for (const screen of screens) {
    await go(page, screen.path);
    await screen.ready(page);
    await visit(screen, page);
  }
  return page;
}
