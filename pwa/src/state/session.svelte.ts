import { ask, askJson, type Fetch } from "../send/http";
import type { HeldMembership } from "../store/database";
import type { DeviceStore } from "../store/device";
import { decoded } from "../words/decoded";
import { TroubleError, troubleOf, type Trouble } from "../words/trouble";
import type { Household, Role, Session } from "./contract";
import { HttpHousehold } from "./household";
import type { Install } from "./install.svelte";
import type { Update } from "./update.svelte";

/** The garden that a server with --demo shows. */
const demoGarden = "demo";

export type SessionTools = Readonly<{
  fetch: Fetch;
  device: DeviceStore;
  update: Update;
  install: Install;
  /** Opens a garden's store and all that rests on it. */
  enter(membership: HeldMembership): Promise<void>;
  /** Closes it; with `forget` its store is deleted. */
  leave(forget: boolean): Promise<void>;
}>;

type Joined = Readonly<{ garden: string; member: string; role: Role }>;

export class HaulmSession implements Session {
  readonly #tools: SessionTools;
  readonly household: Household;
  readonly update: Update;
  readonly install: Install;
  readonly installed = isInstalled();
  #state = $state<"starting" | "outside" | "inside">("starting");
  #trouble = $state.raw<Trouble | null>(null);
  #membership = $state.raw<HeldMembership | null>(null);
  #kept = $state<boolean | null>(null);
  inviteCode = $state<string | null>(inviteIn(globalThis.location));

  constructor(tools: SessionTools) {
    this.#tools = tools;
    this.update = tools.update;
    this.install = tools.install;
    this.household = new HttpHousehold(tools.fetch, () => this.garden, {
      keep: (garden, members) => tools.device.keepMembers(garden, members),
      kept: (garden) => tools.device.members(garden),
    });
    globalThis.addEventListener?.("hashchange", () => (this.inviteCode = inviteIn(location)));
  }

  get state(): "starting" | "outside" | "inside" { return this.#state; }
  get trouble(): Trouble | null { return this.#trouble; }
  get garden(): string | null { return this.#membership?.garden ?? null; }
  get member(): string | null { return this.#membership?.member ?? null; }
  get role(): Role | null { return this.#membership?.role ?? null; }
  get deviceName(): string | null { return this.#membership?.deviceName ?? null; }
  get demo(): boolean { return this.#membership?.demo ?? false; }
  get kept(): boolean | null { return this.#kept; }

  /**
   * Finds out where this phone is: in the garden that was open last, which needs
   * no network; or in one that the server knows it by; or in the demo; or outside.
   * What is remembered of it shows at once, and the store then says whether it is so.
   */
  async start(): Promise<void> {
    const remembered = this.#tools.device.remembered();
    if (remembered) void this.#open(remembered);
    try {
      await this.#confirm(remembered, await this.#tools.device.current());
    } catch (thrown) {
      this.#trouble = troubleOf(thrown);
      if (!remembered) this.#state = "outside";
    }
  }

  async join(code: string, deviceName: string, memberName: string): Promise<void> {
    const json = { code, device: deviceName, name: memberName };
    const joined = joinedIn(await askJson(this.#tools.fetch, "/api/v1/join", { method: "POST", json }));
    await this.#change({ ...joined, deviceName, demo: false });
  }

  async logout(): Promise<void> {
    const { garden } = this;
    if (garden === null) return;
    await ask(this.#tools.fetch, "/api/v1/logout", { method: "POST" }).catch(unlessShutOut);
    await this.#tools.device.leave(garden);
    await this.#tools.leave(true);
    this.#membership = this.#trouble = null;
    this.#state = "outside";
  }

  async nameDevice(name: string): Promise<void> {
    const membership = this.#membership;
    if (!membership) return;
    await ask(this.#tools.fetch, `/api/v1/gardens/${membership.garden}/device`, { method: "PATCH", json: { name } });
    this.#membership = { ...membership, deviceName: name };
    await this.#tools.device.enter(this.#membership);
  }

  /** The server that knew this phone no longer does; what is unsent stays. */
  shutOut(trouble: Trouble): void {
    this.#trouble = trouble;
  }

  /** The server answers this phone: whatever it said before, it knows it now. */
  letIn(): void {
    if (this.#trouble?.code === "shut-out") this.#trouble = null;
  }

  async #confirm(remembered: HeldMembership | null, current: HeldMembership | null): Promise<void> {
    if (remembered && current?.garden === remembered.garden) return;
    if (remembered) await this.#close();
    if (current) {
      this.#tools.device.remember(current);
      return this.#open(current);
    }
    const known = this.inviteCode ? null : await this.#known();
    if (known) await this.#enter(known);
    else this.#state = "outside";
  }

  async #known(): Promise<HeldMembership | null> {
    try {
      return membershipIn(await askJson(this.#tools.fetch, "/api/v1/me"));
    } catch (thrown) {
      unlessShutOut(thrown);
      return this.#demo().catch(unlessRefused);
    }
  }

  async #demo(): Promise<HeldMembership> {
    const said = joinedIn(await askJson(this.#tools.fetch, "/api/v1/demo", { method: "POST", json: {} }));
    return { ...said, deviceName: "", demo: true };
  }

  async #change(membership: HeldMembership): Promise<void> {
    if (this.#state === "inside") await this.#tools.leave(false);
    await this.#enter(membership);
  }

  async #enter(membership: HeldMembership): Promise<void> {
    await this.#tools.device.enter(membership);
    await this.#open(membership);
  }

  async #open(membership: HeldMembership): Promise<void> {
    this.#membership = membership;
    this.#trouble = null;
    const opening = this.#tools.enter(membership);
    this.#state = "inside";
    void this.askToKeep();
    await opening;
  }

  /** What was remembered is not so. */
  async #close(): Promise<void> {
    this.#state = "starting";
    this.#membership = null;
    await this.#tools.leave(false);
  }

  /** Some browsers ask the person, so nothing waits for the answer. */
  async askToKeep(): Promise<void> {
    const asked = globalThis.navigator?.storage?.persist?.();
    this.#kept = asked ? await asked.catch(() => false) : null;
  }
}

function joinedIn(said: unknown): Joined {
  const { garden, member, role } = (said ?? {}) as Partial<Joined>;
  if (!garden || !member || !role) throw new TroubleError("not-haulm");
  return { garden, member, role };
}

/** Of several gardens the first; this version opens one at a time. */
function membershipIn(said: unknown): HeldMembership | null {
  const { device, gardens } = (said ?? {}) as { device?: { name?: string }; gardens?: Joined[] };
  const first = gardens?.[0];
  return first ? { ...joinedIn(first), deviceName: device?.name ?? "", demo: first.garden === demoGarden } : null;
}

function unlessShutOut(thrown: unknown): void {
  if (!(thrown instanceof TroubleError && thrown.trouble.code === "shut-out")) throw thrown;
}

/** A server that opens no demo is an ordinary one. */
function unlessRefused(thrown: unknown): null {
  if (thrown instanceof TroubleError && [401, 403, 404].includes(thrown.status)) return null;
  throw thrown;
}

function inviteIn(location: Location | undefined): string | null {
  return location?.pathname === "/join" && location.hash.length > 1 ? decoded(location.hash.slice(1)) : null;
}

function isInstalled(): boolean {
  const apple = (globalThis.navigator as { standalone?: boolean } | undefined)?.standalone === true;
  return apple || (globalThis.matchMedia?.("(display-mode: standalone)").matches ?? false);
}
