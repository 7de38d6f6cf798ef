/**
 * Every screen by its name, in one place. Those that the bed needs come with the
 * app's first download; the others are each a file of their own, fetched when
 * asked for and, once the page is idle, all of them. To add a screen: its address
 * in routes/paths.ts and a line here.
 */
import type { Component } from "svelte";
import type { Place, ScreenName } from "../routes/paths";
import Entry from "./Entry.svelte";
import { AtHand, type Fetch, Fetched, type Fill, type Held } from "./held.svelte";
import Lost from "./Lost.svelte";
import Round from "./Round.svelte";
import Stop from "./Stop.svelte";
import Today from "./Today.svelte";

type Nothing = Record<string, never>;

const nothing = (): Nothing => ({});
const itsId = ({ id }: Place) => ({ id });

const now = <P extends object>(component: Component<P>, fill: Fill<P>): Held => new AtHand(component, fill);
const later = <P extends object>(fetch: Fetch<P>, fill: Fill<P>): Held => new Fetched(fetch, fill);

export const screens: Readonly<Record<ScreenName, Held>> = {
  today: now(Today, nothing),
  round: now(Round, nothing),
  stop: now(Stop, ({ id, query }) => ({ id, openOnly: query.has("open") })),
  entry: now(Entry, itsId),
  plan: later(() => import("./Plan.svelte"), ({ query }) => ({ planting: query.get("planting") ?? "" })),
  bed: later(() => import("./Bed.svelte"), itsId),
  plants: later(() => import("./Plants.svelte"), nothing),
  "add-planting": later(() => import("./AddPlanting.svelte"), ({ id, query }) => ({ id, label: query.get("label") ?? "" })),
  planting: later(() => import("./Planting.svelte"), itsId),
  kind: later(() => import("./Kind.svelte"), itsId),
  "move-planting": later(() => import("./MovePlanting.svelte"), itsId),
  "divide-planting": later(() => import("./DividePlanting.svelte"), itsId),
  "lift-planting": later(() => import("./LiftPlanting.svelte"), itsId),
  "end-planting": later(() => import("./EndPlanting.svelte"), itsId),
  "mend-planting": later(() => import("./MendPlanting.svelte"), itsId),
  labels: later(() => import("./Labels.svelte"), ({ query }) => ({ planting: query.get("planting") ?? "" })),
  scan: later(() => import("./Scan.svelte"), nothing),
  cane: later(() => import("./Cane.svelte"), itsId),
  photos: later(() => import("./Photos.svelte"), ({ query }) => ({ entries: (query.get("of") ?? "").split(",").filter(Boolean) })),
  tray: later(() => import("./Tray.svelte"), nothing),
  sending: later(() => import("./Sending.svelte"), nothing),
  household: later(() => import("./Household.svelte"), nothing),
  garden: later(() => import("./Garden.svelte"), nothing),
  settings: later(() => import("./Settings.svelte"), nothing),
  about: later(() => import("./About.svelte"), nothing),
  join: later(() => import("./Join.svelte"), nothing),
  lost: now(Lost, nothing),
};
