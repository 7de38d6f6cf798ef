import { ask, askJson, type Fetch } from "../send/http";
import type { ISOInstant } from "../words/ids";
import { TroubleError } from "../words/trouble";
import type { Device, Household, Member, Role } from "./contract";

/** Asks the server about the people and phones of the open garden. */
export class HttpHousehold implements Household {
  readonly #fetch: Fetch;
  readonly #garden: () => string | null;
  readonly #names: Names;

  constructor(fetcher: Fetch, garden: () => string | null, names: Names) {
    this.#fetch = fetcher;
    this.#names = names;
    this.#garden = garden;
  }

  async members(): Promise<Member[]> {
    const { members } = (await askJson(this.#fetch, this.#path("members"))) as { members?: Wire[] };
    const people = listed(members).map(({ member, name, role }) => ({ id: member!, name: name ?? "", role: role! }));
    await this.#names.keep(this.#garden() ?? "", people).catch(() => undefined); // said all the same
    return people;
  }

  async lastMembers(): Promise<readonly Member[]> {
    return this.#names.kept(this.#garden() ?? "").catch(() => []);
  }

  async devices(): Promise<Device[]> {
    const { devices } = (await askJson(this.#fetch, this.#path("devices"))) as { devices?: Wire[] };
    return listed(devices).map(({ device, name, member, joined, this: own }) =>
      ({ id: device!, name: name ?? "", member: member ?? "", joined: joined ?? "", thisOne: own === true }));
  }

  async revoke(device: string): Promise<void> {
    await ask(this.#fetch, this.#path(`devices/${device}`), { method: "DELETE" });
  }

  async invite(role: Role): Promise<{ code: string; url: string; expires: ISOInstant }> {
    const said = (await askJson(this.#fetch, this.#path("invites"), { method: "POST", json: { role } })) as Partial<Invitation>;
    if (!said.code || !said.url) throw new TroubleError("not-haulm");
    return { code: said.code, url: said.url, expires: said.expires ?? "" };
  }

  #path(rest: string): string {
    return `/api/v1/gardens/${this.#garden()}/${rest}`;
  }
}

/** Where the people of a garden are kept, so that entries have names with no network. */
export type Names = Readonly<{
  keep(garden: string, members: readonly Member[]): Promise<void>;
  kept(garden: string): Promise<readonly Member[]>;
}>;

type Invitation = { code: string; url: string; expires: ISOInstant };

type Wire = Partial<{
  member: string; name: string; role: Role; device: string; joined: ISOInstant; this: boolean;
}>;

function listed(list: Wire[] | undefined): Wire[] {
  if (!Array.isArray(list)) throw new TroubleError("not-haulm");
  return list;
}
