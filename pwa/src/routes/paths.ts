// The addresses of the screens. One place writes them and one reads them.

import { decoded } from "../words/decoded";

export const paths = {
  today: "/",
  round: "/round",
  stop: (planting: string, openOnly = false): string => `/round/${encodeURIComponent(planting)}${openOnly ? "?open" : ""}`,
  plan: (planting = ""): string => (planting ? `/plan?planting=${encodeURIComponent(planting)}` : "/plan"),
  bed: (id: string): string => `/bed/${encodeURIComponent(id)}`,
  plants: "/plants",
  addPlanting: (kind: string): string => `/plants/add/${encodeURIComponent(kind)}`,
  addLabelled: (label: string): string => `/plants/add?label=${encodeURIComponent(label)}`,
  kind: (id: string): string => `/kind/${encodeURIComponent(id)}`,
  mendPlanting: (id: string): string => `/planting/${encodeURIComponent(id)}/change`,
  movePlanting: (id: string): string => `/planting/${encodeURIComponent(id)}/move`,
  dividePlanting: (id: string): string => `/planting/${encodeURIComponent(id)}/divide`,
  liftPlanting: (id: string): string => `/planting/${encodeURIComponent(id)}/lift`,
  endPlanting: (id: string): string => `/planting/${encodeURIComponent(id)}/end`,
  planting: (id: string): string => `/planting/${encodeURIComponent(id)}`,
  labels: (planting = ""): string => (planting ? `/labels?planting=${encodeURIComponent(planting)}` : "/labels"),
  scan: "/scan",
  entry: (observation: string): string => `/entry/${encodeURIComponent(observation)}`,
  cane: (observation: string): string => `/entry/${encodeURIComponent(observation)}/cane`,
  photos: (entries: readonly string[]): string => `/photos?of=${entries.map(encodeURIComponent).join(",")}`,
  tray: "/tray",
  sending: "/sending",
  household: "/household",
  garden: "/garden",
  settings: "/settings",
  about: "/about",
  join: "/join",
} as const;

export type Place = Readonly<{ screen: ScreenName; id: string; query: URLSearchParams }>;

const patterns = [
  [/^\/$/u, "today"],
  [/^\/round$/u, "round"],
  [/^\/round\/([^/]+)$/u, "stop"],
  [/^\/plan$/u, "plan"],
  [/^\/bed\/([^/]+)$/u, "bed"],
  [/^\/plants$/u, "plants"],
  [/^\/plants\/add(?:\/([^/]+))?$/u, "add-planting"],
  [/^\/kind\/([^/]+)$/u, "kind"],
  [/^\/planting\/([^/]+)$/u, "planting"],
  [/^\/planting\/([^/]+)\/change$/u, "mend-planting"],
  [/^\/planting\/([^/]+)\/move$/u, "move-planting"],
  [/^\/planting\/([^/]+)\/divide$/u, "divide-planting"],
  [/^\/planting\/([^/]+)\/lift$/u, "lift-planting"],
  [/^\/planting\/([^/]+)\/end$/u, "end-planting"],
  [/^\/entry\/([^/]+)$/u, "entry"],
  [/^\/labels$/u, "labels"],
  [/^\/scan$/u, "scan"],
  [/^\/entry\/([^/]+)\/cane$/u, "cane"],
  [/^\/photos$/u, "photos"],
  [/^\/tray$/u, "tray"],
  [/^\/sending$/u, "sending"],
  [/^\/household$/u, "household"],
  [/^\/garden$/u, "garden"],
  [/^\/settings$/u, "settings"],
  [/^\/about$/u, "about"],
  [/^\/join$/u, "join"],
] as const satisfies readonly (readonly [RegExp, string])[];

export type ScreenName = (typeof patterns)[number][1] | "lost";

/** The screen that an address names; "lost" for one that names none. */
export function placeOf(address: URL): Place {
  const path = address.pathname.replace(/(.)\/$/u, "$1").replace(/^\/index\.html$/u, "/");
  for (const [pattern, screen] of patterns) {
    const match = pattern.exec(path);
    if (match) return { screen, id: decoded(match[1] ?? ""), query: address.searchParams };
  }
  return { screen: "lost", id: "", query: address.searchParams };
}
