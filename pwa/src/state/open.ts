/** Puts the phone's state together: the one place that knows all of its parts. */
import { openAlmanac } from "../almanac/almanac";
import { openPreviews } from "../previews/previews";
import { Line } from "../send/line";
import { Server } from "../send/server";
import type { HeldMembership } from "../store/database";
import { DeviceStore } from "../store/device";
import { Store } from "../store/store";
import { GardenBook } from "./book.svelte";
import { afterFirstScreen, followDate, followGarden } from "./follow.svelte";
import { Install } from "./install.svelte";
import { HaulmReckoning } from "./reckoning.svelte";
import { HaulmSending } from "./sending.svelte";
import { HaulmSession } from "./session.svelte";
import { Update } from "./update.svelte";
import type { Haulm } from "./contract";

/** Gives the state at once, with the session "starting", and goes on by itself. */
export function openHaulm(): Haulm {
  const now = () => Date.now();
  const fetcher = globalThis.fetch.bind(globalThis);
  const update = new Update();
  const sending = new HaulmSending();
  const book: GardenBook = new GardenBook({ now, fetch: fetcher, tie: (question) => reckoning.tie(question), previews: openPreviews() });
  const proved = () => {
    update.keepAlmanac();
    void book.settlePhotos();
  };
  const reckoning: HaulmReckoning = new HaulmReckoning({ almanac: openAlmanac(), today: () => book.today, app: import.meta.url, proved });
  let open: { store: Store; line: Line; stopWaiting(): void } | null = null;

  const enter = async ({ garden, member, deviceName }: HeldMembership) => {
    const store = new Store(garden, now);
    const server = new Server(garden, fetcher, now);
    const line = new Line(store, server, now);
    const stopWaiting = afterFirstScreen(book, () => {
      if (open?.store !== store) return;
      reckoning.enter(store);
      line.start();
      book.prepareSearch();
    });
    open = { store, line, stopWaiting };
    store.listen(({ line }) => {
      if (line?.trouble?.code === "shut-out") session.shutOut(line.trouble);
      else if (line?.state === "resting") session.letIn();
    });
    void reckoning.recall(store);
    void sending.enter(store, { whose: { member, deviceName }, server, now });
    void book.enter(store, server);
  };
  const leave = async (forget: boolean) => {
    const closing = open;
    open = null;
    for (const part of [reckoning, sending, book]) part.leave();
    closing?.stopWaiting();
    closing?.line.end();
    if (forget) await closing?.store.destroy();
    else closing?.store.close();
  };

  const session = new HaulmSession({ fetch: fetcher, device: new DeviceStore(), update, install: new Install(), enter, leave });
  followDate(book, reckoning);
  followGarden(book);
  void session.start();
  void update.register();
  return { session, book, sending, reckoning };
}
