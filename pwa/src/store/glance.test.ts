import "fake-indexeddb/auto";
import { beforeEach, expect, it, vi } from "vitest";
import { newId } from "../words/uuid";
import type { HeldMembership } from "./database";
import { DeviceStore } from "./device";
import type { Shown } from "./overlay";
import { Store } from "./store";

const membership: HeldMembership = { garden: "g1", member: "anna", role: "keeper", deviceName: "phone", demo: false };
const garden: Shown = { ref: "garden/g1", fields: { name: "Quince Yard" }, at: {}, also: {}, gone: false, unsent: false };
const texts = new Map<string, string>();

beforeEach(() => {
  texts.clear();
  vi.stubGlobal("localStorage", {
    getItem: (key: string) => texts.get(key) ?? null,
    setItem: (key: string, text: string) => void texts.set(key, text),
    removeItem: (key: string) => void texts.delete(key),
  });
});

const store = (id: string): Store => new Store(id, () => Date.parse("2026-06-02T09:15:00Z"));

it("remembers the open garden and its record for the next start", async () => {
  const device = new DeviceStore();
  await device.enter(membership);
  store("g1").remember(garden);
  expect(device.remembered()).toEqual(membership);
  expect(store("g1").remembered()).toEqual(garden);
});

it("keeps the record over a change of the membership, and not for another garden", async () => {
  const device = new DeviceStore();
  await device.enter(membership);
  store("g1").remember(garden);
  device.remember({ ...membership, role: "viewer" });
  expect(store("g1").remembered()).toEqual(garden);
  device.remember({ ...membership, garden: "g2" });
  expect([store("g1").remembered(), store("g2").remembered()]).toEqual([null, null]);
  store("g1").remember(garden);
  expect(store("g2").remembered()).toBeNull();
});

it("forgets with the garden", async () => {
  const device = new DeviceStore();
  await device.enter(membership);
  await device.leave("g1");
  expect([device.remembered(), texts.size]).toEqual([null, 0]);
});

it("takes what it cannot read for nothing", () => {
  texts.set("haulm.glance", "{");
  expect([new DeviceStore().remembered(), store(newId(0)).remembered()]).toEqual([null, null]);
});
