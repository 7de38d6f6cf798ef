// A voice memo: said at a plant with no signal, played back there, there again after
// the phone died, and heard on another phone. Where there is no microphone to be had,
// nothing is kept and a sentence says why.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { patience, Phone } from "./support/browser.mjs";
import { plantedGarden } from "./support/garden.mjs";
import { Keys } from "./support/keys.mjs";
import { allSent, go, join, keptForOffline, see, signalReturns, tap } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const visible = { state: "visible", ...patience };
const device = "--use-fake-device-for-media-stream", allowed = "--use-fake-ui-for-media-stream";
const microphone = [device, allowed, "--autoplay-policy=no-user-gesture-required"];

let server, phone, keeper, plantings, page;

before(async () => {
  server = await (await Server.make()).start();
  ({ keeper, plantings } = await plantedGarden(server));
  phone = new Phone(server.address, { switches: microphone });
});

after(async () => {
  await phone?.remove();
  await server?.remove();
});

const memos = async () => [...(await keeper.pull()).values()].flatMap(({ gone, fields }) => (gone ? [] : (fields.voice ?? [])));

/** A phone for as long as `use` takes, on the planting's stop. */
async function another(name, switches, use) {
  const other = new Phone(server.address, { switches });
  try {
    const shown = await join(other, await keeper.invite("helper"), name, name, (context) => context.addInitScript(listen));
    await go(shown, `/round/${plantings[0]}`);
    await use(shown, other);
    other.behaved();
  } finally {
    await other.remove();
  }
}

/** In the page: keeps what plays where a test can look at it. */
function listen() {
  globalThis.players = [];
  const Real = Audio;
  globalThis.Audio = function (...how) {
    const player = new Real(...how);
    players.push(player);
    return player;
  };
}

/** Waits until the last that was played has gone so far, in seconds. */
const heard = (page, s) => page.waitForFunction((far) => players.at(-1)?.currentTime >= far, s, patience);

test("two taps keep what was said, with no signal, and it is played where it was said", async () => {
  page = await join(phone, await keeper.invite("helper"), "kitchen phone", "Bo");
  await allSent(page);
  await keptForOffline(page);
  await phone.quit(); // the browser writes down who is signed in within half a minute, or now
  page = await phone.open("/", (context) => context.setOffline(true));
  await go(page, `/round/${plantings[0]}`);
  await tap(page, /^Say something/);
  await see(page, "0:01 of 3:00");
  await tap(page, /^Stop and keep/);
  await page.getByRole("button", { name: "Play the memo" }).waitFor(visible);
  await see(page, /^saved \d/);
  await tap(page, "Play the memo");
  await page.getByRole("button", { name: /^Stop, 0:0\d$/ }).waitFor(visible);
});

test("undo takes it back; what was said when the screen is left is kept; the phone dies and it is there", async () => {
  await tap(page, /^undo.*Voice memo/);
  await page.getByRole("button", { name: "Play the memo" }).waitFor({ state: "detached", ...patience });
  await tap(page, /^Say something/);
  await see(page, "0:02 of 3:00");
  await go(page, `/planting/${plantings[0]}`);
  await page.getByRole("button", { name: "Play the memo" }).first().waitFor(visible);
  await phone.kill();
  page = await phone.open(`/planting/${plantings[0]}`, (context) => context.setOffline(true));
  await page.getByRole("button", { name: "Play the memo" }).first().waitFor(visible);
  assert.deepEqual(await memos(), [], "nothing could be sent");
});

test("it is heard on another phone, and there again with no signal", async () => {
  await phone.context.setOffline(false);
  await signalReturns(page);
  await allSent(page);
  assert.equal((await memos()).length, 1, "what was taken back is gone");
  phone.behaved();
  await another("hall tablet", microphone, async (shown, { context }) => {
    await go(shown, `/planting/${plantings[0]}`);
    await tap(shown, "Play the memo");
    await heard(shown, 1);
    await shown.getByRole("button", { name: "Play the memo" }).waitFor(visible); // it came to its end
    await context.setOffline(true);
    await tap(shown, "Play the memo");
    await shown.waitForFunction(() => players.length === 2, null, patience);
    await heard(shown, 1);
  });
});

test("one key starts and ends it", () =>
  another("desk", microphone, async (shown) => {
    const keys = new Keys(shown);
    const before = await memos();
    await keys.on(shown.getByRole("button", { name: /^Say something/ }));
    await see(shown, "0:01 of 3:00");
    await keys.press("Enter");
    await shown.getByRole("button", { name: /^Say something/ }).waitFor(visible);
    await see(shown, /^saved \d/);
    await allSent(shown);
    assert.equal((await memos()).length, before.length + 1);
  }));

const without = [
  { what: "a microphone that is refused", switches: [device], says: /does not let Haulm use its microphone/ },
  { what: "a phone without a microphone", switches: [allowed], says: /No microphone answered/ },
];

for (const { what, switches, says } of without) {
  test(`${what} is told in a sentence, and nothing is kept`, () =>
    another(what, switches, async (shown, { context }) => {
      const before = await keeper.digest();
      await tap(shown, /^Say something/);
      await shown.getByRole("alert").filter({ hasText: says }).waitFor(visible);
      const start = shown.getByRole("button", { name: /^Say something/ });
      assert.equal(await start.getAttribute("aria-pressed"), "false");
      assert.equal(await shown.getByText("Recording").count(), 0, "nobody is told that it records");
      assert.equal(await shown.getByText(/^saved \d/).count(), 0);
      await allSent(shown);
      assert.equal(await keeper.digest(), before);
      if (!switches.includes(device)) return;
      await context.grantPermissions(["microphone"]);
      await go(shown, `/round/${plantings[0]}`);
      await tap(shown, /^Say something/);
      await see(shown, "0:01 of 3:00");
    }));
}
