// A voice memo: said at a plant with no signal, played back there, and there again
// after the phone died.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { patience, Phone } from "./support/browser.mjs";
import { plantedGarden } from "./support/garden.mjs";
import { allSent, go, join, keptForOffline, see } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const visible = { state: "visible", ...patience };
const microphone = ["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream", "--autoplay-policy=no-user-gesture-required"];

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

const memos = async () => [...(await keeper.pull()).values()].flatMap(({ fields }) => fields.voice ?? []);

/** A button of the memo's row, tapped after the pause that people make. */
async function tap(page, name) {
  const button = page.getByRole("button", { name });
  await button.waitFor(visible);
  await page.waitForTimeout(600);
  await button.click();
}

test("two taps keep what was said, with no signal, and it is played where it was said", async () => {
  page = await join(phone, await keeper.invite("helper"), "kitchen phone", "Bo");
  await allSent(page);
  await keptForOffline(page);
  await phone.context.setOffline(true);
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
  phone.behaved();
});
