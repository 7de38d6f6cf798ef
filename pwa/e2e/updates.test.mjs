// A newer version is offered and never forced: the page goes on as it was until
// the person chooses, in each tab for itself, with unsent work untouched; and an
// update that comes only half leaves what there was.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { audit } from "./support/audit.mjs";
import { patience, Phone } from "./support/browser.mjs";
import { plantedGarden } from "./support/garden.mjs";
import { photograph as jpeg } from "./support/jpeg.mjs";
import { until } from "./support/outsider.mjs";
import { allSent, go, join, keptForOffline, photograph, savedRows, see, signalReturns, writeNote } from "./support/people.mjs";
import { Server } from "./support/server.mjs";
import { Versions, versionOf } from "./support/versions.mjs";

const visible = { state: "visible", ...patience };
const hidden = { state: "hidden", ...patience };

let versions, server, keeper, plantings;

before(async () => {
  versions = await Versions.make();
  server = await Server.make({ publicAddress: versions.address });
  versions.before(server);
  await server.start();
  ({ keeper, plantings } = await plantedGarden(server, 2));
});
after(async () => {
  await server?.remove();
  await versions?.close();
});

const offered = (page) => page.getByText("A newer version of Haulm waits.");
const useIt = (page) => page.getByRole("button", { name: "use it now" });

/** Asks the browser to look for a newer worker, as it does by itself when the app is opened, and waits until one rests or none came. */
const lookForNewer = (page) => page.evaluate(async () => {
  const registration = await navigator.serviceWorker.ready;
  await registration.update().catch(() => undefined);
  const { installing } = registration;
  if (installing) await new Promise((resolve) => installing.addEventListener("statechange", resolve, { once: true }));
});

const reloaded = (page) => page.waitForEvent("load", patience);

test("an update is offered in every tab, applied where it is chosen, and loses nothing that is unsent", async () => {
  const phone = new Phone(versions.address);
  try {
    const one = await join(phone, await keeper.invite("helper"), "kitchen phone", "Ben");
    await keptForOffline(one);
    const two = await phone.context.newPage();
    await two.goto(`${versions.address}/round/${plantings[0]}`);
    await see(two, "Long border");
    await two.waitForLoadState("networkidle"); // every screen is in memory

    versions.failing = /^\/assets\/|^\/index\.html$/;
    versions.publish();
    await lookForNewer(one);
    assert.equal(await offered(one).count(), 0, "half an update is none");
    versions.failing = /^$/;
    await lookForNewer(one);
    await offered(one).waitFor(visible);
    await offered(two).waitFor(visible);
    assert.deepEqual(await audit(one), []);

    await one.reload();
    await offered(one).waitFor(visible);
    assert.deepEqual([await versionOf(one), await versionOf(two)], [1, 1], "nobody chose yet");

    await phone.context.setOffline(true);
    await writeNote(two, "Bees all over it.");
    await savedRows(two, 1);
    await photograph(one, jpeg({ taken: "2026:06:10 10:05:00", offset: "+01:00" }));
    await go(one, "/");
    await one.locator("a.waits").waitFor(visible);
    await go(two, `/round/${plantings[1]}`);
    await two.getByRole("textbox", { name: "Note" }).fill("Half a thou");

    await Promise.all([reloaded(one), useIt(one).click()]);
    await one.getByRole("link", { name: "Today" }).waitFor(visible);
    await offered(one).waitFor(hidden);
    assert.equal(await versionOf(one), 2, "chosen, with no signal");
    assert.equal(await versionOf(two), 1, "not chosen there");
    assert.equal(await two.getByRole("textbox", { name: "Note" }).inputValue(), "Half a thou");
    await two.getByRole("textbox", { name: "Note" }).fill("Half a thought.");
    await two.getByRole("textbox", { name: "Note" }).blur();
    await savedRows(two, 1);
    for (const [path, name] of [["/plants", "Plants"], ["/about", "Reading, cautions, about"]]) {
      await go(two, path);
      await two.getByRole("heading", { level: 1, name }).waitFor(visible); // the old version's screens still open
    }
    await Promise.all([reloaded(two), useIt(two).click()]);
    await two.getByRole("link", { name: "Today" }).waitFor(visible);
    assert.equal(await versionOf(two), 2);
    await two.locator("a.waits").waitFor(visible);

    await phone.context.setOffline(false);
    await signalReturns(two);
    await allSent(two);
    const entries = await until(async () => {
      const found = [...(await keeper.pull()).values()].filter(({ record }) => record.startsWith("observation/")).map(({ fields }) => fields);
      return found.length >= 3 ? found : null;
    }, "the entries on the server");
    assert.deepEqual(entries.map(({ note }) => note ?? "").sort(), ["", "Bees all over it.", "Half a thought."]);
    assert.equal(entries.filter(({ photos }) => photos?.length === 1).length, 1);
    phone.behaved();
  } finally {
    await phone.remove();
  }
});

test("an app that is only brought back to the front hears of a newer version", async () => {
  const phone = new Phone(versions.address);
  try {
    const page = await join(phone, await keeper.invite("helper"), "hall tablet", "Cleo", (context) => context.clock.install());
    await keptForOffline(page);
    versions.publish();
    const comesBack = () => page.evaluate(() => document.dispatchEvent(new Event("visibilitychange")));
    await phone.context.clock.fastForward(2 * 3_600_000);
    await comesBack();
    await offered(page).waitFor(visible);
  } finally {
    await phone.remove();
  }
});
