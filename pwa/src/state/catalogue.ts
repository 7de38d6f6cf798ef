import { askJson, type Fetch } from "../send/http";
import { TroubleError } from "../words/trouble";
import type { Kind, KindFields } from "../words/records";

/** The kinds that ship with this version, by slug. It is part of the app's shell, so it is there without a network. */
export async function loadCatalogue(fetcher: Fetch): Promise<ReadonlyMap<string, Kind>> {
  const said = (await askJson(fetcher, "/catalogue.json")) as { kinds?: unknown } | null;
  if (!Array.isArray(said?.kinds)) throw new TroubleError("not-haulm");
  const kinds = said.kinds as (KindFields & { id: string })[];
  return new Map(kinds.map((kind) => [kind.id, { ...kind, ref: `kind/${kind.id}` as const }]));
}
