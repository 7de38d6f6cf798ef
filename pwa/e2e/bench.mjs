// How fast the phone answers, in Chromium at a phone's size with its processor
// slowed four times, against the real binary and with a large garden on the phone.
// phoneSpeeds() gives rows for .ci/bench.mjs; run by itself this prints them.
import { setTimeout as pause } from "node:timers/promises";
import { pathToFileURL } from "node:url";
import { patience, Phone } from "./support/browser.mjs";
import { photograph as jpeg } from "./support/jpeg.mjs";
import { held, largeGarden, onThePhone, size } from "./support/large.mjs";
import { many, manyPlantings } from "./support/many.mjs";
import { until } from "./support/outsider.mjs";
import { go, join, keptForOffline } from "./support/people.mjs";
import { Server } from "./support/server.mjs";

const SLOWED = 4;
const STARTS = 5, TAPS = 9;
const BETWEEN_TAPS_MS = 600; // a second tap sooner counts as a wet finger's
const LETTER_MS = 120; // between two letters of a quick typist
const SETTLING_MS = 5000; // after a start, until the phone has nothing else to do
const PHOTO_BYTES = 3_600_000; // of 12 megapixels, as the server's own benchmarks take it

const visible = { state: "visible", ...patience };

/**
 * In the page from its first moment: notes, in milliseconds since the navigation
 * began, when the first screen can be used and when it shows what is known.
 * Usable: Today's date and the camera bar are drawn, and the page answers, which
 * is when a task that was given after they were drawn has run. Known: the ledger of
 * what is worth a look is drawn too, and the page answers.
 */
function noteStart() {
  const marks = {
    usable: () => /\d/.test(document.querySelector("main h1")?.textContent ?? "") && document.querySelector('input[type="file"][capture]'),
    known: () => document.querySelector("main ul.ledger .verdict"),
  };
  globalThis.started = {};
  const drawn = (then) => requestAnimationFrame(() => setTimeout(then));
  const look = () => {
    for (const [name, there] of Object.entries(marks)) {
      if (!there()) continue;
      delete marks[name];
      drawn(() => (globalThis.started[name] = performance.now()));
    }
    if (Object.keys(marks).length === 0) watch.disconnect();
  };
  const watch = new MutationObserver(look);
  watch.observe(document, { childList: true, subtree: true, characterData: true });
}

/**
 * In the page: milliseconds from an event to the drawing of what answers it, which
 * is one more of `selector` than there was or, where one `moves` on, any on the next screen.
 */
function timeAnswer([event, selector, moves]) {
  const [before, from] = [document.querySelectorAll(selector).length, location.pathname];
  const there = () => (moves ? location.pathname !== from && document.querySelector(selector) : document.querySelectorAll(selector).length > before);
  globalThis.answer = new Promise((resolve) => addEventListener(event, () => {
    const began = performance.now();
    const watch = new MutationObserver(() => {
      if (!there()) return;
      watch.disconnect();
      requestAnimationFrame(() => setTimeout(() => resolve(performance.now() - began)));
    });
    watch.observe(document, { childList: true, subtree: true, characterData: true });
  }, { capture: true, once: true }));
}

async function answerTo(page, what, act) {
  await pause(BETWEEN_TAPS_MS);
  await page.evaluate(timeAnswer, what);
  await act();
  return page.evaluate(() => globalThis.answer);
}

async function slowly(context) {
  await context.addInitScript(noteStart);
  await context.setOffline(true);
  const page = context.pages()[0] ?? (await context.newPage());
  const devtools = await context.newCDPSession(page);
  await devtools.send("Emulation.setCPUThrottlingRate", { rate: SLOWED });
}

/** Starts the browser anew with no network; gives the page and its times. */
async function coldStart(phone) {
  await phone.quit();
  const page = await phone.open("/", slowly);
  await page.waitForFunction(() => globalThis.started.known, null, patience);
  return { page, ...(await page.evaluate(() => globalThis.started)) };
}

/** One stop: a stage, a height, a photograph, and nothing to note at the next. */
async function oneStop(page, id, times) {
  await go(page, `/round/${id}`);
  const bud = page.getByRole("button", { name: "bud", exact: true });
  await bud.waitFor(visible);
  times.stage.push(await answerTo(page, ["click", "main .line button"], () => bud.click()));
  const taller = page.getByRole("button", { name: "taller" }).first();
  times.height.push(await answerTo(page, ["click", "main .line button"], () => taller.click()));
  const nothing = page.getByRole("button", { name: "Nothing to note", exact: true });
  times.nothing.push(await answerTo(page, ["click", "p.line:has(.text-button)", true], () => nothing.click()));
}

async function onePhoto(page, picture, times) {
  await go(page, "/");
  const camera = page.locator('input[type="file"][capture]').first();
  await camera.waitFor({ state: "attached", ...patience });
  times.photo.push(await answerTo(page, ["change", "main .photos img", true], () => camera.setInputFiles({ name: "p.jpg", mimeType: "image/jpeg", buffer: picture })));
}

const sorted = (times) => [...times].sort((a, b) => a - b);
const median = (times) => sorted(times)[Math.floor(times.length / 2)];

function rowsOf(words, times, aim) {
  return [{ words: `${words}, median of ${times.length}, ms`, value: median(times), aim },
    { words: `${words}, worst, ms`, value: Math.max(...times), aim }];
}

async function measure(phone, server) {
  const keeper = await largeGarden(server);
  const joined = await join(phone, await keeper.invite("helper"), "kitchen phone", "Bo");
  await onThePhone(joined, keeper.garden);
  await joined.locator("ul.ledger .verdict").first().waitFor(visible);
  await keptForOffline(joined);
  await pause(SETTLING_MS); // the almanac's answer is kept for the next start once nothing is written for a while
  const starts = [], times = { stage: [], height: [], nothing: [], photo: [] };
  let page;
  for (let i = 0; i < STARTS; i++) {
    const start = await coldStart(phone);
    page = start.page;
    starts.push(start);
  }
  for (let i = 0; i < TAPS; i++) await oneStop(page, `p${String(i * 40).padStart(3, "0")}`, times);
  for (let i = 0; i < TAPS; i++) await onePhoto(page, jpeg({ taken: `2025:07:10 10:05:0${i}`, offset: "+01:00", bytes: PHOTO_BYTES }), times);
  const garden = `${size.plantings} plantings, ${size.observations.toLocaleString("en")} looks, ${size.photos.toLocaleString("en")} photos`;
  return [
    ...rowsOf(`phone, ${SLOWED}× slowed, ${garden}: cold offline start to a usable first screen`, starts.map(({ usable }) => usable), 1500),
    ...rowsOf("phone: cold offline start to the list of what is worth a look", starts.map(({ known }) => known)),
    ...rowsOf("phone: tap on a stage to saved", times.stage, 100),
    ...rowsOf("phone: step of a height to saved", times.height, 100),
    ...rowsOf("phone: nothing to note to saved", times.nothing, 100),
    ...rowsOf("phone: a photo of 3.6 MB taken to kept and shown", times.photo),
  ];
}

/** Typed one letter after another, as people do: right, beginning, misspelt, two words, and what is not there. */
const searches = ["salvia", "slavia", "hellibore", "geranium branc", "early lavendar", "border 12", "flox pink", "qwertz"];

/** In the page: milliseconds from a letter to the drawing of what is found for all that was typed. */
function timeLetter() {
  globalThis.answer = new Promise((resolve) => addEventListener("input", () => {
    const began = performance.now();
    requestAnimationFrame(() => setTimeout(() => resolve(performance.now() - began)));
  }, { capture: true, once: true }));
}

async function oneSearch(page, text, times) {
  const box = page.getByRole("searchbox");
  await box.fill("");
  for (const letter of text) {
    await page.evaluate(timeLetter);
    await box.press(letter === " " ? "Space" : letter);
    times.push(await page.evaluate(() => globalThis.answer));
    await pause(LETTER_MS);
  }
}

async function measureSearch(phone, server) {
  const keeper = await manyPlantings(server);
  const joined = await join(phone, await keeper.invite("helper"), "kitchen phone", "Bo");
  await until(async () => (await held(joined, keeper.garden, "records")) > many.plantings + many.kinds / 2, "the phone fetches the plantings", { timeoutMs: 600_000, pauseMs: 1000 });
  await keptForOffline(joined);
  await phone.quit();
  const page = await phone.open("/plants", slowly);
  await page.getByRole("searchbox").waitFor(visible);
  const [first, times] = [[], []];
  await oneSearch(page, "s", first);
  await pause(SETTLING_MS);
  for (const text of searches) await oneSearch(page, text, times);
  return [
    ...rowsOf(`phone, ${SLOWED}× slowed, ${many.kinds.toLocaleString("en")} kinds, ${many.plantings.toLocaleString("en")} plantings: letter of a search to what is found`, times, 50),
    { words: "phone: the same, first letter as soon as the screen is there, ms", value: first[0] },
  ];
}

async function onAServer(measuring) {
  const server = await (await Server.make()).start();
  const phone = new Phone(server.address);
  try {
    return await measuring(phone, server);
  } finally {
    await phone.remove();
    await server.remove();
  }
}

/** Rows of words, value and, where there is one, aim; all in milliseconds. */
export async function phoneSpeeds() {
  return [...(await onAServer(measure)), ...(await onAServer(measureSearch))];
}

// "search" as an argument measures the search alone.
if (import.meta.url === pathToFileURL(process.argv[1]).href) {
  const rows = process.argv[2] === "search" ? await onAServer(measureSearch) : await phoneSpeeds();
  for (const { words, value, aim } of rows) console.log(`${words}: ${Math.round(value)}${aim ? ` (aim ${aim})` : ""}`);
}
