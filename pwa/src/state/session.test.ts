import "fake-indexeddb/auto";
import { beforeEach, describe, expect, it, vi } from "vitest";
import { json } from "../send/fake-server";
import type { HeldMembership } from "../store/database";
import { DeviceStore } from "../store/device";
import { Install } from "./install.svelte";
import { HaulmSession } from "./session.svelte";
import { Update } from "./update.svelte";

type Answers = Record<string, () => Response>;

const joined = { garden: "g1", member: "anna", role: "keeper" as const };
const refusal = (status: number) => json({ code: "x", why: "No." }, status);
let device: DeviceStore;
let asked: string[];
let entered: HeldMembership[];
let left: boolean[];

/** What a browser keeps beside its databases, in memory. */
function shelfOfTexts(): Pick<Storage, "getItem" | "setItem" | "removeItem"> {
  const texts = new Map<string, string>();
  return { getItem: (key) => texts.get(key) ?? null, setItem: (key, text) => void texts.set(key, text), removeItem: (key) => void texts.delete(key) };
}

beforeEach(async () => {
  vi.stubGlobal("localStorage", shelfOfTexts());
  [asked, entered, left] = [[], [], []];
  device = new DeviceStore();
  for (const garden of ["g1", "demo"]) await device.leave(garden);
});

/** A session with a server that answers as given; null is one that nobody reaches. */
function session(answers: Answers | null): HaulmSession {
  const fetcher = async (input: RequestInfo | URL) => {
    asked.push(String(input));
    const answer = answers?.[String(input)];
    if (!answers) throw new TypeError("network error");
    return answer?.() ?? refusal(404);
  };
  return new HaulmSession({
    fetch: fetcher, device, update: new Update(), install: new Install(),
    enter: async (membership) => void entered.push(membership),
    leave: async (forget) => void left.push(forget),
  });
}

const ofServer = { "/api/v1/me": () => refusal(401), "/api/v1/join": () => json(joined), "/api/v1/logout": () => new Response(null, { status: 204 }) };
const ofDemo = { ...ofServer, "/api/v1/demo": () => json({ ...joined, garden: "demo" }) };

it("calls this phone something else once the server has it, and not before", async () => {
  const near = session({ ...ofServer, "/api/v1/gardens/g1/device": () => new Response(null, { status: 204 }) });
  await near.join("code", "phone", "Anna");
  await near.nameDevice("old phone");
  expect([near.deviceName, (await device.current())?.deviceName]).toEqual(["old phone", "old phone"]);
  const far = session(null);
  await far.start();
  await expect(far.nameDevice("other")).rejects.toThrow();
  expect([far.deviceName, (await device.current())?.deviceName]).toEqual(["old phone", "old phone"]);
});

it("knows the people of the garden with no network once it has heard of them", async () => {
  const anna = { id: "anna", name: "Anna", role: "keeper" };
  const wire = { members: [{ member: "anna", name: "Anna", role: "keeper" }] };
  const near = session({ ...ofServer, "/api/v1/gardens/g1/members": () => json(wire) });
  await near.join("code", "phone", "Anna");
  expect(await near.household.lastMembers()).toEqual([]);
  await near.household.members();
  const far = session(null);
  await far.start();
  expect(await far.household.lastMembers()).toEqual([anna]);
  await device.leave("g1");
  expect(await device.members("g1")).toEqual([]);
});

describe("a session", () => {
  it("starts outside where nobody knows this phone", async () => {
    const phone = session(ofServer);
    expect(phone.state).toBe("starting");
    await phone.start();
    expect([phone.state, phone.trouble, entered]).toEqual(["outside", null, []]);
  });

  it.each(["#%E0", "#a%2Fb", "#plain"])("reads the code of an invitation as far as it can be read: %s", (hash) => {
    vi.stubGlobal("location", { pathname: "/join", hash });
    expect(session(null).inviteCode).toBe({ "#%E0": "%E0", "#a%2Fb": "a/b", "#plain": "plain" }[hash]);
    vi.stubGlobal("location", undefined);
  });

  it("starts outside and says why when nothing answers", async () => {
    const phone = session(null);
    await phone.start();
    expect([phone.state, phone.trouble?.code]).toEqual(["outside", "no-answer"]);
  });

  it("opens the demo by itself where the server has one", async () => {
    const phone = session(ofDemo);
    await phone.start();
    expect([phone.state, phone.demo, phone.garden, phone.role]).toEqual(["inside", true, "demo", "keeper"]);
  });

  it("is taken in again by a server that knows it", async () => {
    const phone = session({ "/api/v1/me": () => json({ device: { id: "d", name: "kitchen phone" }, gardens: [joined] }) });
    await phone.start();
    expect([phone.state, phone.deviceName, phone.demo]).toEqual(["inside", "kitchen phone", false]);
  });

  it("joins by a code, and starts inside the next time with no network at all", async () => {
    const phone = session(ofServer);
    await phone.start();
    await phone.join("CODE", "kitchen phone", "Anna");
    expect([phone.state, entered[0]]).toEqual(["inside", { ...joined, deviceName: "kitchen phone", demo: false }]);
    asked = [];
    const later = session(null);
    await later.start();
    expect([later.state, later.member, asked]).toEqual(["inside", "anna", []]);
  });

  it("is inside at once where it was inside before, and enters only once", async () => {
    await session(ofServer).join("CODE", "kitchen phone", "Anna");
    entered = [];
    const later = session(null);
    const starting = later.start();
    expect([later.state, later.garden, entered.length]).toEqual(["inside", "g1", 1]);
    await starting;
    expect([later.state, later.trouble, entered.length, left]).toEqual(["inside", null, 1, []]);
  });

  it("leaves a garden that it remembered and the store does not know", async () => {
    await session(ofServer).join("CODE", "kitchen phone", "Anna");
    device.remembered = ((known) => () => known)(device.remembered());
    await device.leave("g1");
    const later = session(ofServer);
    await later.start();
    expect([later.state, later.garden, left]).toEqual(["outside", null, [false]]);
  });

  it("goes by the store where it is in another garden than was remembered", async () => {
    await session(ofServer).join("CODE", "kitchen phone", "Anna");
    device.remember({ ...joined, garden: "g0", deviceName: "kitchen phone", demo: false });
    const later = session(null);
    await later.start();
    expect([later.state, later.garden, left, device.remembered()?.garden]).toEqual(["inside", "g1", [false], "g1"]);
  });

  it("starts as before in a browser that keeps no texts", async () => {
    vi.stubGlobal("localStorage", undefined);
    await session(ofServer).join("CODE", "kitchen phone", "Anna");
    const later = session(null);
    await later.start();
    expect([later.state, later.garden]).toEqual(["inside", "g1"]);
  });

  it("stays outside when the code is used up, with the server's sentence", async () => {
    const phone = session({ "/api/v1/join": () => json({ code: "used", why: "This code was used." }, 410) });
    await expect(phone.join("CODE", "x", "y")).rejects.toMatchObject({ trouble: { code: "not-found", detail: "This code was used." } });
    expect(entered).toEqual([]);
  });

  it("forgets the garden on signing out, also when the server had forgotten it first", async () => {
    const phone = session({ ...ofServer, "/api/v1/logout": () => refusal(401) });
    await phone.join("CODE", "x", "y");
    await phone.logout();
    expect([phone.state, left, await device.current()]).toEqual(["outside", [true], null]);
  });

  it("keeps everything when signing out does not reach the server", async () => {
    const phone = session(ofServer);
    await phone.join("CODE", "x", "y");
    const offline = session(null);
    await offline.start();
    await expect(offline.logout()).rejects.toMatchObject({ trouble: { code: "no-answer" } });
    expect([offline.state, left, (await device.current())?.garden]).toEqual(["inside", [], "g1"]);
  });

  it("closes one garden before it opens another", async () => {
    const phone = session(ofDemo);
    await phone.start();
    await phone.join("CODE", "x", "y");
    expect([left, entered.map(({ garden }) => garden), phone.demo]).toEqual([[false], ["demo", "g1"], false]);
  });
});

it("is shut out until the server answers this phone again, and forgets no other trouble by that", async () => {
  const one = session(ofServer);
  await one.join("code", "kitchen phone", "Anna");
  one.shutOut({ code: "shut-out" });
  expect(one.trouble).toEqual({ code: "shut-out" });
  one.letIn();
  expect([one.state, one.trouble]).toEqual(["inside", null]);
  one.shutOut({ code: "server-failed" });
  one.letIn();
  expect(one.trouble).toEqual({ code: "server-failed" });
});
