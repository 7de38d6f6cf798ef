// A server that is gone for good: the phone saves what waits to a file, another
// server takes it in, and the phone, which forgot nothing, sends the same later.
// Nothing is lost, and nothing is there twice.
import assert from "node:assert/strict";
import path from "node:path";
import { after, before, test } from "node:test";
import { patience, Phone } from "./support/browser.mjs";
import { plantedGarden } from "./support/garden.mjs";
import { photograph as jpeg } from "./support/jpeg.mjs";
import { sha256 } from "./support/outsider.mjs";
import { allSent, go, join, keptForOffline, photograph, see, seeHeading, signalReturns, typeHeight, writeNote } from "./support/people.mjs";
import { outgrow } from "./support/refused.mjs";
import { Server } from "./support/server.mjs";

const picture = jpeg({ taken: "2026:06:02 09:15:00", offset: "+01:00", lat: 52.2, lon: 0.1, accuracyM: 5, bytes: 3 << 20 });
const sha = sha256(picture);
const NOTE = "Blackfly on the south side.";

let lost, server, phone, keepersPhone, page, keeper, plantings;

before(async () => {
  lost = await (await Server.make()).start();
  ({ keeper, plantings } = await plantedGarden(lost));
  phone = new Phone(lost.address);
  keepersPhone = new Phone(lost.address);
});

after(async () => {
  for (const one of [phone, keepersPhone, lost, server]) await one?.remove();
});

const observations = (records) => [...records.values()].filter(({ record }) => record.startsWith("observation/"));

test("what waits goes by hand to another server, and by itself later, once", async (t) => {
  page = await join(phone, await keeper.invite("helper"), "kitchen phone", "Bo");
  await keptForOffline(page);
  await go(page, "/plants");
  await see(page, "Long border"); // the garden has come
  await go(page, `/round/${plantings[0]}`);
  await phone.context.route("**/sync", outgrow);
  await typeHeight(page, 90);
  await see(page, /^saved \d/);
  await go(page, "/sending");
  await seeHeading(page, "Not taken");
  await phone.context.unroute("**/sync", outgrow);

  await lost.stop();
  await go(page, `/round/${plantings[1]}`);
  await writeNote(page, NOTE);
  await see(page, /^saved \d/);
  await go(page, `/planting/${plantings[2]}`);
  await photograph(page, picture);

  await go(page, "/sending");
  const coming = page.waitForEvent("download", patience);
  await page.getByRole("button", { name: "Save to a file" }).click();
  const download = await coming;
  const file = path.join(lost.data, download.suggestedFilename());
  await download.saveAs(file);
  assert.match(download.suggestedFilename(), /^haulm-unsent-\d{4}-\d\d-\d\d\.zip$/);
  await see(page, "Nothing was taken off this phone");
  await seeHeading(page, "Original photos");

  server = lost.copy();
  await server.start();
  keeper.server = server;
  const looked = await server.command("import", "--check", file);
  assert.match(looked, /nothing was written/);
  assert.equal(observations(await keeper.pull()).length, 0);

  const said = await server.command("import", file);
  t.diagnostic(said.trim().replaceAll("\n", "; "));
  const changes = Number(/changes: +(\d+) taken, 0 here before, 0 left aside/.exec(said)?.[1]);
  assert.ok(changes >= 3, said); // a note, a photograph, and the height, which is not too great as it was written
  assert.match(said, /previews: +2 taken/);
  assert.match(said, /originals: +1 taken/);
  assert.equal(sha256(await keeper.media(sha)), sha);
  const taken = observations(await keeper.pull());
  assert.deepEqual(taken.map(({ fields }) => fields.planting).sort(), [...plantings].sort());
  assert.equal(taken.filter(({ fields }) => fields.note === NOTE).length, 1);
  const [digest, again] = [await keeper.digest(), await server.command("import", file)];
  assert.ok(again.includes(`0 taken, ${changes} here before`), again);

  await signalReturns(page);
  await page.getByRole("heading", { name: "Original photos" }).waitFor({ state: "hidden", ...patience });
  assert.equal(await keeper.digest(), digest, "the phone sent the same and the garden is as it was");
  assert.equal(observations(await keeper.pull()).length, 3);
  await seeHeading(page, "Not taken"); // it stays in view for the person who wrote it

  await t.test("a keeper takes the file in by phone as well, and it is all there", async () => {
    const other = await join(keepersPhone, await keeper.invite("keeper"), "desk", "Cleo");
    await go(other, "/sending");
    await other.getByText("Take in a file").click();
    await other.locator('input[type="file"][accept*="zip"]').setInputFiles(file);
    await see(other, `From kitchen phone: 0 changes and 0 photos are new in the garden; ${changes + 1} were there before.`);
    await allSent(other);
    assert.equal(await keeper.digest(), digest);
    await other.getByText("Take in a file").click();
    await other.locator('input[type="file"][accept*="zip"]').setInputFiles({ name: "holiday.zip", mimeType: "application/zip", buffer: Buffer.from("no") });
    await see(other, "This is not a file saved by Haulm");
    keepersPhone.behaved();
  });
  phone.behaved();
});
