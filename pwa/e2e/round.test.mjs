// A round walked with no signal: in the order in which one walks, asked for what is
// worth a look and why, what is left of a bed noted at one tap and taken back, and
// picked up where it was left after the page was killed.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { patience, Phone } from "./support/browser.mjs";
import { late, spotOf } from "./support/demo.mjs";
import { choose, go, keptForOffline, onward, openDemo, see } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const visible = { state: "visible", ...patience };

let server, phone, page;

before(async () => {
  server = await (await Server.make({ demo: true })).start();
  phone = new Phone(server.address);
  page = await openDemo(phone);
  await keptForOffline(page);
  await phone.context.setOffline(true);
});

after(async () => {
  await phone?.remove();
  await server?.remove();
});

/** The planting whose stop shows. */
const standing = () => decodeURIComponent(new URL(page.url()).pathname.split("/")[2] ?? "");

async function begin(name) {
  await go(page, "/round");
  await page.getByRole("link", { name }).first().click();
  await page.getByRole("button", { name: /^(Next: |End of the round)/ }).waitFor(visible);
}

const metres = (ids) => ids.slice(1).reduce((sum, id, i) => sum + Math.hypot(...spotOf(id).map((v, axis) => v - spotOf(ids[i])[axis])), 0);

function* orders(left) {
  if (left.length === 0) yield [];
  for (const first of left) for (const rest of orders(left.filter((one) => one !== first))) yield [first, ...rest];
}

const bedShown = async () => (await page.locator("main a.quiet-link").first().textContent()).split(" · ")[0].trim();

test("a bed is walked by the short way", async (t) => {
  await begin(/^Walk all/);
  const bed = await bedShown();
  const walked = [];
  while ((await bedShown()) === bed) {
    walked.push(standing());
    await onward(page);
  }
  const shortest = Math.min(...[...orders(walked)].map(metres));
  t.diagnostic(`${bed}: ${walked.join(", ")}: ${metres(walked).toFixed(1)} m, the shortest of all ways is ${shortest.toFixed(1)} m`);
  assert.ok(walked.length >= 5);
  assert.ok(metres(walked) < shortest * 1.1);
});

test("the round tells what is worth a look, and why; its stops pass what is not", async () => {
  await go(page, "/round");
  await page.locator("main ul.ledger a", { hasText: "Delphinium" }).filter({ hasText: /late by at least \d+ days/ }).waitFor(visible);
  const asked = await page.locator("section > ul.ledger a").evaluateAll((links) => links.map((link) => decodeURIComponent(link.pathname.split("/")[2])));
  await begin(/^Walk the \d+ worth a look/);
  const walked = [];
  while (standing()) {
    walked.push(standing());
    if (standing() === late.id) await see(page, "Is it in flower?");
    await onward(page);
  }
  assert.deepEqual(walked, asked);
});

test("nothing to note is a visit and tells nothing of flower; not in flower is a look", async () => {
  await go(page, "/round");
  const unseen = await page.locator("section > ul.ledger a", { hasText: /not looked at since/ }).first().getAttribute("href");
  const [stop] = unseen.split("?");
  await go(page, stop);
  await onward(page, "Nothing to note");
  await go(page, stop.replace("round", "planting"));
  await see(page, /its flower is still to be noted/);
  await go(page, "/round");
  await page.locator(`section > ul.ledger a[href^="${stop}"]`, { hasText: /looked at \d/ }).waitFor(visible);
  await go(page, `/round/${late.id}`);
  await choose(page, "not in flower");
  await go(page, `/planting/${late.id}`);
  await see(page, "On 10 July: not in flower.");
});

test("the rest of a bed is noted at one tap, and taken back at one", async () => {
  await go(page, `/round/${late.id}`);
  const rest = page.getByRole("group", { name: "The rest of Long border" });
  const nothing = rest.getByRole("button", { name: /^The other(?: \d+)?: nothing to note$/ });
  const count = Number((await nothing.textContent()).match(/\d+/)[0]);
  assert.ok(count > 5);
  const ticks = async (wanted) => {
    await go(page, "/round");
    const bed = page.locator("section", { hasText: "Long border" });
    if (!(await bed.locator("details").evaluate((details) => details.open))) await bed.locator("summary").click();
    await bed.locator("details .verdict", { hasText: /looked at/ }).nth(wanted - 1).waitFor(wanted ? visible : { state: "attached", ...patience });
    assert.equal(await bed.locator("details .verdict", { hasText: /looked at/ }).count(), wanted);
  };
  await nothing.dblclick();
  await see(page, `${count} noted`);
  await rest.getByRole("button", { name: /^undo/ }).click();
  await rest.getByRole("button", { name: `The other ${count}: nothing to note`, exact: true }).waitFor(visible); // all of them are to be noted again
  await rest.getByRole("button", { name: /^The other(?: \d+)?: not in flower$/ }).click();
  await see(page, `${count} noted`);
  await ticks(count);
});

test("killed in the middle, it goes on where it was left, with what was noted", async () => {
  await begin(/^Go on: |^Walk all/);
  await onward(page);
  await choose(page, "fair");
  await see(page, /^saved \d/);
  const left = standing();
  const devtools = await phone.context.newCDPSession(page);
  await Promise.race([devtools.send("Page.crash").catch(() => undefined), page.waitForEvent("crash")]);
  await phone.quit();
  page = await phone.open("/round", (context) => context.setOffline(true));
  await page.getByRole("link", { name: /^Go on: / }).waitFor(visible);
  await go(page, `/round/${left}`);
  await page.getByRole("button", { name: "fair", exact: true, pressed: true }).waitFor(visible);
  const next = (await page.getByRole("button", { name: /^Next: / }).getAttribute("aria-label")).replace("Next: ", "").trim();
  await go(page, "/round");
  await page.getByRole("link", { name: `Go on: ${next}` }).click();
  await see(page, next, page.locator("main h1"));
  phone.behaved();
});
