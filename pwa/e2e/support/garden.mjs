// A small garden for tests that need one of their own: a bed and some plantings,
// written by a keeper who is no phone.
import { Outsider } from "./outsider.mjs";

// Green all winter: what sleeps below is not measured, and the tests run on any day of the year.
const kinds = ["iris-germanica", "helleborus-hybridus", "geranium-macrorrhizum", "euphorbia-characias-wulfenii", "stachys-byzantina"];

/** Makes the first keeper and a bed with `count` plantings in it; gives the keeper and the plantings' ids. */
export async function plantedGarden(server, count = 3) {
  const keeper = await Outsider.join(server, server.joinLink, "Ada", "bench");
  const plantings = Array.from({ length: count }, (_, i) => `planting-${i + 1}`);
  await keeper.write(
    [`garden/${keeper.garden}`, { name: "Quince Yard", lat: 52.2, lon: 0.1, timeZone: "Europe/London", units: "metric" }],
    ["bed/long", { name: "Long border", order: 1 }],
    ...plantings.map((id, i) => [`planting/${id}`, { kind: kinds[i % kinds.length], bed: "long", count: 1, planted: "2024-03-10" }]),
  );
  return { keeper, plantings };
}
