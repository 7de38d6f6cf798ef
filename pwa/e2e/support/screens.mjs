// Every screen of the app over the demo garden, in the order in which they can be
// visited without one changing what another shows, and the ways to light them.
import { patience } from "./browser.mjs";
import { late } from "./demo.mjs";
import { photograph as jpeg } from "./jpeg.mjs";
import { choose, go, invite, openDemo, photograph, reckoned, see, typeHeight, writeNote } from "./people.mjs";

const visible = { state: "visible", ...patience };
const shown = (page, selector) => page.locator(selector).first().waitFor(visible);

/** A photograph from a place between many plants, as exact as phones are in the open: it waits in the tray. */
const unsure = jpeg({ taken: "2015:07:10 10:05:00", offset: "-07:00", ...late.at, accuracyM: 6 });

const TOO_TALL = 9000; // cm; more than the server takes

/** `ready` resolves when the screen shows all that it has; `from` is the heading that pictures begin at. */
export const screens = [
  { name: "today", path: "/", ready: reckoned },
  { name: "round", path: "/round", ready: (page) => shown(page, "main ul li") },
  { name: "stop", path: `/round/${late.id}`, ready: (page) => shown(page, ".ask svg") },
  { name: "plants", path: "/plants", ready: (page) => shown(page, "main ul li") },
  { name: "search", path: "/plants", ready: async (page) => {
    await page.getByRole("searchbox").fill("salvya");
    await shown(page, "main ul li");
  } },
  { name: "add-planting", path: "/plants/add/iris-sibirica", ready: (page) => shown(page, "form button") },
  { name: "planting", path: `/planting/${late.id}`, ready: async (page) => {
    await shown(page, ".verdict");
    await page.getByText("the numbers as a table").first().click();
  } },
  { name: "planting-charts", path: `/planting/${late.id}`, from: "Height", ready: (page) => shown(page, "main figure svg, main svg[role=img]") },
  { name: "planting-cautions", path: "/planting/regal-lilies", ready: (page) => see(page, "Cautions") },
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
  { name: "stop-noted", path: `/round/${late.id}`, ready: async (page) => {
    await choose(page, "bud");
    await choose(page, "good");
    await see(page, /^saved \d/);
  } },
  { name: "planting-photo", path: `/planting/${late.id}`, ready: async (page) => {
    await photograph(page, jpeg({ taken: "2015:07:10 10:05:00", offset: "-07:00", ...late.at, accuracyM: 5 }));
    await go(page, `/planting/${late.id}`);
    await shown(page, "figure img");
  } },
  { name: "sending", path: "/round/day-lily", ready: refusedAndWaiting },
  { name: "today-refused", path: "/", ready: reckoned },
];

/** A height that no plant has is refused; then, with no signal, a note and a photograph wait. */
async function refusedAndWaiting(page) {
  await typeHeight(page, TOO_TALL);
  await go(page, "/sending");
  await see(page, "Not taken");
  await page.context().setOffline(true);
  await go(page, "/round/sea-holly");
  await writeNote(page, "Bees all over it.");
  await see(page, /^saved \d/);
  await go(page, "/");
  await photograph(page, unsure);
  await go(page, "/sending");
  await see(page, "Waiting");
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
