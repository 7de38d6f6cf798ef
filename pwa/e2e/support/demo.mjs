// The demo garden as its story tells it: what the browser tests may count on.
import { readFileSync } from "node:fs";

const story = JSON.parse(readFileSync(new URL("../../../server/demo/garden.json", import.meta.url), "utf8"));

const METRES_PER_DEGREE = 111_195; // of latitude: π/180 × the earth's mean radius, 6,371,009 m (IUGG)

/** Where a planting stands on the plan, in metres. */
export const spotOf = (id) => story.plantings.find((planting) => planting.id === id).fields.at;

/** Where a planting stands on the earth; the plan's y axis points north. */
export function placeOf(id) {
  const { planOrigin, planBearingDeg } = story.garden;
  if (planBearingDeg !== 0) throw new Error("the demo's plan was turned: placeOf must turn with it");
  const [east, north] = spotOf(id);
  const lat = planOrigin.lat + north / METRES_PER_DEGREE;
  const lon = planOrigin.lon + east / (METRES_PER_DEGREE * Math.cos((planOrigin.lat * Math.PI) / 180));
  return { lat, lon };
}

/** Eaten down by slugs in March and grown again from below: late, as server/demo's own tests hold. */
export const late = { id: "delphinium", at: placeOf("delphinium") };

export const gardenName = story.garden.name;

/** The date at which the demo's clock stands, as server/demo's Today. */
export const today = "2015-07-10";
