// A garden of very many kinds and plantings for the benchmark of the search: the
// catalogue's own kinds, and so many more with made-up cultivar names.
import { readFileSync } from "node:fs";
import { Outsider } from "./outsider.mjs";

export const many = { kinds: 2_000, plantings: 5_000 };

const BEDS = 40;
const BATCH = 500; // changes in one request, as the server takes them
const { kinds } = JSON.parse(readFileSync(new URL("../../../garden/catalogue.json", import.meta.url), "utf8"));

const beginnings = ["Bran", "Caw", "Dun", "Ever", "Fal", "Gar", "Hol", "Ing", "Kel", "Lan", "Mor", "Nor", "Pen", "Quar", "Ros", "Stan", "Thorn", "Ul", "Wes", "Yar"];
const endings = ["combe", "dale", "field", "ford", "garth", "ham", "hurst", "ley", "mere", "stead", "thorpe", "wick"];
const seconds = ["Beauty", "Blue", "Early", "Favourite", "Giant", "Pink", "Queen", "Velvet", "White"];

/** A cultivar name that no other number has. */
function cultivar(i) {
  const [a, b, c] = [i % beginnings.length, Math.floor(i / beginnings.length) % endings.length, Math.floor(i / (beginnings.length * endings.length)) % seconds.length];
  return `‘${beginnings[a]}${endings[b]} ${seconds[c]}’`;
}

function ownKind(i) {
  const { name, common } = kinds[i % kinds.length];
  return [`kind/own-${i}`, { name: `${name.replace(/ ‘.*/u, "")} ${cultivar(i)}`, common: common.map((word) => `${seconds[i % seconds.length].toLowerCase()} ${word}`) }];
}

function records(garden) {
  const own = Array.from({ length: many.kinds - kinds.length }, (_, i) => ownKind(i));
  const slugs = [...kinds.map(({ id }) => id), ...own.map(([ref]) => ref.split("/")[1])];
  return [
    [`garden/${garden}`, { name: "Quince Yard", lat: 52.2, lon: 0.1, timeZone: "Europe/London", units: "metric" }],
    ...Array.from({ length: BEDS }, (_, i) => [`bed/b${i}`, { name: `Border ${i + 1}`, order: i }]),
    ...own,
    ...Array.from({ length: many.plantings }, (_, i) => [`planting/m${i}`, { kind: slugs[(i * 7) % slugs.length], bed: `b${i % BEDS}`, count: 1, planted: "2024-03-10" }]),
  ];
}

/** Fills a new server; gives its keeper. */
export async function manyPlantings(server) {
  const keeper = await Outsider.join(server, server.joinLink, "Ada", "bench");
  const all = records(keeper.garden);
  for (let i = 0; i < all.length; i += BATCH) await keeper.write(...all.slice(i, i + BATCH));
  return keeper;
}
