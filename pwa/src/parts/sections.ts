import { m } from "../paraglide/messages.js";
import { paths } from "../routes/paths";

/** What stands in the bar: the screens that there are. */
export type Section = "today" | "round" | "plan" | "plants";

export const sections: readonly Readonly<{ section: Section; path: string; word: () => string }>[] = [
  { section: "today", path: paths.today, word: m.nav_today },
  { section: "round", path: paths.round, word: m.nav_round },
  { section: "plan", path: paths.plan(), word: m.nav_plan },
  { section: "plants", path: paths.plants, word: m.nav_plants },
];
