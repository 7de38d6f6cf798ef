// Pictures over a bad line: a large one arrives through fifty broken connections,
// and notes do not wait behind five hundred small ones.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { patience, Phone } from "./support/browser.mjs";
import { plantedGarden } from "./support/garden.mjs";
import { photograph as jpeg } from "./support/jpeg.mjs";
import { sha256, until } from "./support/outsider.mjs";
import { addPictures, allSent, go, join, photograph, see, signalReturns, writeNote } from "./support/people.mjs";
import { Proxy } from "./support/proxy.mjs";
import { Server } from "./support/server.mjs";

const MEGABYTE = 1 << 20;
const PIECE = 256 * 1024; // what the phone sends at a time, and so the most that is sent twice
const BREAKS = 50;
const IN_A_ROW = 2; // broken connections before one holds, so that fifty fit into 48 pieces

const taken = { taken: "2026:06:02 09:15:00", offset: "+01:00", lat: 52.2, lon: 0.1, accuracyM: 5 };

let line, server, phone, keeper, plantings, page;

before(async () => {
  line = await Proxy.make();
  server = await (await Server.make({ publicAddress: line.address })).start();
  line.to(server.port);
  ({ keeper, plantings } = await plantedGarden(server, 10));
  phone = new Phone(server.address);
  page = await join(phone, await keeper.invite("helper"), "kitchen phone", "Bo");
  await go(page, `/planting/${plantings[0]}`);
  await see(page, "Long border");
});

after(async () => {
  await phone?.remove();
  await line?.close();
  await server?.remove();
});

/** Breaks the line in the middle of pieces, `IN_A_ROW` times before it lets one through, `BREAKS` times in all. */
function breaking() {
  let broken = 0, inARow = 0;
  return () => {
    if (broken === BREAKS || inARow === IN_A_ROW) {
      inARow = 0;
      return false;
    }
    broken++;
    inARow++;
    void signalReturns(page).catch(() => undefined); // or the phone would wait a second or more by itself, fifty times
    return true;
  };
}

test("a photograph of 12 MB arrives although the connection breaks fifty times", async (t) => {
  const picture = jpeg({ ...taken, bytes: 12 * MEGABYTE });
  const sha = sha256(picture);
  line.breaks = breaking();
  await photograph(page, picture);
  await until(() => (signalReturns(page), keeper.hasOriginal(sha)), "the whole picture on the server", { timeoutMs: 240_000, pauseMs: 500 });
  assert.equal(sha256(await keeper.media(sha)), sha, "the server gives back what was photographed");

  const cut = line.pieces.filter((piece) => piece.passed < piece.length);
  assert.ok(cut.length >= BREAKS, `${cut.length} connections were broken`);
  let far = 0;
  for (const [i, piece] of line.pieces.entries()) {
    assert.ok(piece.length <= PIECE, `piece ${i} has ${piece.length} bytes`);
    assert.ok(far - piece.offset <= PIECE, `piece ${i} begins ${far - piece.offset} bytes back`);
    far = Math.max(far, piece.offset + piece.passed);
  }
  const sent = line.pieces.reduce((sum, { passed }) => sum + passed, 0);
  assert.ok(sent - picture.length <= cut.length * PIECE, `${sent - picture.length} bytes were sent twice`);
  t.diagnostic(`${cut.length} breaks; ${line.pieces.length} pieces; ${Math.round((sent - picture.length) / 1024)} kB of ${Math.round(picture.length / 1024)} kB sent twice`);
  await allSent(page);
});

test("a note arrives while five hundred photographs wait", async (t) => {
  const EACH = 50, BYTES = 30_000, SLOW = 125_000; // 1 Mbit/s, a poor uplink
  line.breaks = () => false;
  await phone.context.setOffline(true);
  const pictures = plantings.map(() => Array.from({ length: EACH }, () => jpeg({ ...taken, bytes: BYTES })));
  const took = [];
  for (const [i, id] of plantings.entries()) {
    await go(page, `/planting/${id}`);
    const started = performance.now();
    await addPictures(page, pictures[i], EACH * (i + 1));
    took.push(Math.round(performance.now() - started));
  }
  t.diagnostic(`fifty photographs at a time were kept in ${took.join(", ")} ms`);
  await go(page, "/");

  line.bytesPerSecond = SLOW;
  await phone.context.setOffline(false);
  await signalReturns(page);
  const before = line.asked.length;
  await until(() => line.asked.slice(before).some((asked) => asked.includes("/media/")), "the first picture goes out");

  await go(page, `/round/${plantings[4]}`);
  const text = "Blackfly on the south side.";
  const [asked, written] = [line.asked.length, performance.now()];
  await writeNote(page, text);
  await until(async () => [...(await keeper.pull()).values()].some(({ fields }) => fields.note === text), "the note on the server", { pauseMs: 50 });
  t.diagnostic(`the note was on the server after ${Math.round(performance.now() - written)} ms`);

  const meanwhile = line.asked.slice(asked);
  const pictureFirst = meanwhile.slice(0, meanwhile.findIndex((one) => one.endsWith("/sync"))).filter((one) => one.includes("/media/"));
  assert.ok(pictureFirst.length <= 2, `pictures went first: ${pictureFirst.join(", ")}`);
  await go(page, "/");
  const waiting = Number(/(\d+) photos/.exec(await page.locator("a.waits").textContent())?.[1]);
  assert.ok(waiting > 400, `${waiting} photographs still wait`);
  phone.behaved();
});
