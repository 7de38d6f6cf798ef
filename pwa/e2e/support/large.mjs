// A large garden for the benchmarks: five years of a simulated one whose truth is
// known, with photographs to a part of its looks. The server gets the records as
// another device would write them; the phone fetches them, and gets its previews
// put beside them as if it had looked at every picture once.
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { Outsider, until } from "./outsider.mjs";

const binary = fileURLToPath(new URL("../../../haulm", import.meta.url));
const sample = new URL("../../../testdata/images/no_exif.jpg", import.meta.url);

export const size = { plantings: 500, years: 5, observations: 20_000, photos: 3_000 };

const TODAY = "2025-09-20"; // within the simulated garden's last year, when it has late plants to tell of
const VISITS_A_WEEK = 0.24; // somewhat more than 20,000 looks of 500 plantings in 5 years; what is more is left out
const BATCH = 500; // changes in one request, as the server takes them

/** A made-up picture's digest: no original of it is ever asked for. */
const shaOf = (i) => createHash("sha256").update(`large garden's picture ${i}`).digest("hex");

/** So many of a list, evenly from all of it; all, where it has no more. */
const spread = (list, count) => Array.from({ length: Math.min(count, list.length) }, (_, i) => list[Math.floor((i * list.length) / Math.min(count, list.length))]);

/** The records of the garden, with a photograph to every so many looks. */
function records() {
  const asked = JSON.stringify({ seed: 4, plantings: size.plantings, years: size.years, visitsPerWeek: VISITS_A_WEEK });
  const { records } = JSON.parse(execFileSync(binary, ["almanac", "simulate"], { input: asked, maxBuffer: 2 ** 28 }));
  const seen = records.filter(({ record, fields }) => record.startsWith("observation/") && fields.seen < TODAY);
  const looks = spread(seen, size.observations);
  if (looks.length < size.observations) throw new Error(`only ${looks.length} looks were simulated`);
  const others = records.filter(({ record }) => !record.startsWith("observation/"));
  spread(looks, size.photos).forEach(({ fields }, i) => (fields.photos = [shaOf(i)]));
  Object.assign(others.find(({ record }) => record.startsWith("garden/")).fields, { clock: TODAY });
  return [...others, ...looks];
}

/** Fills a new server; gives its keeper. */
export async function largeGarden(server) {
  const keeper = await Outsider.join(server, server.joinLink, "Ada", "bench");
  const all = records().map(({ record, fields }) => [record.startsWith("garden/") ? `garden/${keeper.garden}` : record, fields]);
  for (let i = 0; i < all.length; i += BATCH) await keeper.write(...all.slice(i, i + BATCH));
  return keeper;
}

/** How many rows a table of a garden's store on the phone has. */
export const held = (page, garden, table) => page.evaluate(([name, table]) => new Promise((resolve, reject) => {
  const opening = indexedDB.open(name);
  opening.onerror = () => reject(opening.error);
  opening.onsuccess = () => {
    const counting = opening.result.transaction(table).objectStore(table).count();
    counting.onsuccess = () => (opening.result.close(), resolve(counting.result));
  };
}), [`haulm-${garden}`, table]);

/** Waits until the phone has fetched everything, and puts the small previews beside it. */
export async function onThePhone(page, garden) {
  const all = size.plantings + size.observations;
  await until(async () => (await held(page, garden, "records")) > all, "the phone fetches the large garden", { timeoutMs: 600_000, pauseMs: 1000 });
  const shas = Array.from({ length: size.photos }, (_, i) => shaOf(i));
  await page.evaluate(async ([name, shas, base64]) => {
    const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0)).buffer;
    await new Promise((resolve, reject) => {
      const opening = indexedDB.open(name);
      opening.onsuccess = () => {
        const writing = opening.result.transaction("bytes", "readwrite");
        for (const sha of shas) writing.objectStore("bytes").put({ key: `${sha}/320`, type: "image/jpeg", bytes });
        writing.oncomplete = () => (opening.result.close(), resolve());
        writing.onabort = () => reject(writing.error);
      };
    });
  }, [`haulm-${garden}`, shas, readFileSync(sample).toString("base64")]);
}
