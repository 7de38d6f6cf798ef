// Pictures of every screen, from the real binary with the demo garden: each in
// every light, as phone and desk, into shots/, and three of them into docs/ for
// the README. Whoever changes a screen looks at them.
import { copyFileSync, mkdirSync, rmSync } from "node:fs";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { unroll } from "./support/audit.mjs";
import { deskSize, patience, Phone, phoneSize } from "./support/browser.mjs";
import { go, join, reckoned } from "./support/people.mjs";
import { placesGarden } from "./support/places.mjs";
import { lights, lit, visitAll } from "./support/screens.mjs";
import { Server } from "./support/server.mjs";

const root = fileURLToPath(new URL("../..", import.meta.url));
const folder = path.join(root, "shots");
const docs = path.join(root, "docs");
const sizes = { phone: phoneSize, desk: deskSize };
const forReaders = { today: "today", "stop-noted": "stop", "planting-charts": "planting" };

let taken = 0;

/** The screen in every light as it first shows, or from a heading on, and once all of it. */
async function shoot(page, { name, from }, size) {
  await page.mouse.move(0, 0);
  await page.evaluate(() => scrollTo(0, 0));
  if (from) await page.getByRole("heading", { name: from }).evaluate((heading) => heading.scrollIntoView({ block: "start" }));
  for (const [light, how] of Object.entries(lights)) {
    await lit(page, how);
    await page.screenshot({ path: path.join(folder, `${name}-${size}-${light}.png`) });
    taken++;
  }
  await lit(page, lights.light);
  await unroll(page);
  await page.screenshot({ path: path.join(folder, `${name}-${size}-whole.png`) });
  await page.setViewportSize(sizes[size]);
}

async function withPhone(options, size, use) {
  const server = await (await Server.make(options)).start();
  const phone = new Phone(server.address, { size: sizes[size] });
  try {
    await use(phone, server);
  } finally {
    await phone.remove();
    await server.remove();
  }
}

async function outside(phone, server, size) {
  const page = await phone.open("/join");
  await page.getByLabel("Your name").waitFor(patience);
  await shoot(page, { name: "join" }, size);
  await phone.quit();
  const inside = await join(phone, server.joinLink, "kitchen phone", "Ada");
  await go(inside, "/");
  await inside.locator("main h1").waitFor(patience);
  await shoot(inside, { name: "today-empty" }, size);
}

/** What places do to plants, on the pages of those that have most to say. */
async function places(phone, server, size) {
  const keeper = await placesGarden(server);
  const page = await join(phone, await keeper.invite("helper"), "kitchen phone", "Bo");
  await reckoned(page);
  await shoot(page, { name: "places" }, size);
  for (const planting of ["under", "lavender", "rose", "agapanthus"]) {
    await go(page, `/planting/${planting}`);
    await page.locator("main h3 .verdict").first().waitFor(patience);
    await shoot(page, { name: `place-${planting}` }, size);
  }
}

rmSync(folder, { recursive: true, force: true });
for (const made of [folder, docs]) mkdirSync(made, { recursive: true });
for (const size of Object.keys(sizes)) {
  await withPhone({ demo: true }, size, (phone) => visitAll(phone, (screen, page) => shoot(page, screen, size)));
  await withPhone({}, size, (phone, server) => outside(phone, server, size));
  await withPhone({}, size, (phone, server) => places(phone, server, size));
}
for (const [name, forReader] of Object.entries(forReaders)) {
  copyFileSync(path.join(folder, `${name}-phone-light.png`), path.join(docs, `${forReader}.png`));
}
console.log(`${taken} pictures in ${path.relative(process.cwd(), folder)}`);
