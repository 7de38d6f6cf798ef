// A garden in which every place does something to what stands there, as
// almanac/assess's places_test has it: its clock stands in a dry summer.
import { Outsider } from "./outsider.mjs";

const on = "2015-07-01";
const wetUntil = "2015-06-10";

const planting = (id, kind, fields) => [`planting/${id}`, { kind, bed: "border", ...fields }];
const look = (id, planting, seen, fields) => [`observation/${id}`, { planting, seen: `${seen}T08:00:00+01:00`, ...fields }];

/** What each planting is told, in the words that stand beside its mark. */
export const told = {
  under: /short of room/,
  lavender: /losing vigour/,
  rose: /dry at the root;\s+\d+ litres for each plant, \d+ for all/,
  agapanthus: /frosted harder than its kind stands/,
  "day-lily": /hidden behind its neighbours/,
  hosta: /in more sun than it stands/,
  snowdrops: /asleep/,
  foxglove: /done, as its kind is after flowering/,
  verbena: /a colony that sows itself/,
};

const plantings = [
  planting("choisya", "choisya-ternata", { at: [3, 0], planted: "2000" }),
  planting("day-lily", "hemerocallis-lilioasphodelus", { at: [3, 1.2], planted: "2005" }),
  planting("under", "salvia-nemorosa-ostfriesland", { at: [3.3, 0.1], planted: "2005" }),
  planting("lavender", "lavandula-angustifolia", { at: [40, -0.3], planted: "2012" }),
  planting("hosta", "hosta-sieboldiana", { at: [10, 9], planted: "2010" }),
  planting("rose", "rosa-ballerina", { at: [14, 9], planted: "2015-03-20", form: "pot", potL: 4, count: 3 }),
  planting("agapanthus", "agapanthus-campanulatus", { bed: "trough", planted: "2012" }),
  planting("snowdrops", "galanthus-nivalis", { planted: "2005" }),
  planting("foxglove", "digitalis-purpurea", { planted: "2013-06", form: "seed" }),
  planting("verbena", "verbena-bonariensis", { planted: "2012-05", count: 12 }),
];

const looks = [
  look("r1", "rose", "2015-06-28", { stage: 65 }),
  look("l1", "lavender", "2014-05-01", { vigour: 5 }),
  look("l2", "lavender", "2014-08-01", { vigour: 4 }),
  look("l3", "lavender", "2015-05-01", { vigour: 3 }),
  look("l4", "lavender", "2015-06-28", { vigour: 2, signs: ["dieback", "wilting"] }),
  look("f1", "foxglove", "2014-06-20", { stage: 65 }),
  look("f2", "foxglove", "2014-08-20", { stage: 85 }),
  look("v1", "verbena", "2014-08-20", { countAlive: 20 }),
  look("v2", "verbena", "2015-06-20", { countAlive: 7 }),
];

/** A day's weather as records. */
const sky = (day, minC, maxC, rainMm) => [`weather/${day}.bench`, { day, minC, maxC, rainMm, source: "bench" }];

function weather() {
  const days = [sky("2015-01-20", -12, -3, 0), sky("2015-01-21", -11, -1, 0)];
  for (const at = new Date("2015-03-15T00:00:00Z"); at <= new Date(`${on}T00:00:00Z`); at.setUTCDate(at.getUTCDate() + 1)) {
    const day = at.toISOString().slice(0, 10);
    days.push(sky(day, 10, 24, day < wetUntil ? 6 : 0));
  }
  return days;
}

/** Writes the garden on an empty server. */
export async function placesGarden(server) {
  const keeper = await Outsider.join(server, server.joinLink, "Ada", "bench");
  await keeper.write(
    [`garden/${keeper.garden}`, { name: "Quince Yard", lat: 51.5, lon: -2.6, altitudeM: 50, timeZone: "Europe/London", units: "metric", clock: on }],
    ["bed/border", { name: "Border", soil: "sandy loam", viewedFrom: [3, -3], order: 1 }],
    ["bed/trough", { name: "Trough", container: true, order: 2 }],
    ["structure/house", { form: "building", outline: [[20, -9], [60, -9], [60, -0.5], [20, -0.5]], heightM: 8 }],
    ...plantings,
  );
  await keeper.write(...looks, ...weather());
  return keeper;
}
