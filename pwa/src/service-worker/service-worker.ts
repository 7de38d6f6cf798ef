/**
 * Keeps the app on the phone. Everything the first screen needs is stored when
 * the worker is installed; the almanac, which is large, is stored when the page
 * says that its first screen shows. The API is never touched: what a person
 * wrote is the store's business, not a cache's. A newer version waits until the
 * page asks for it.
 */
import { cleanupOutdatedCaches, createHandlerBoundToURL, precacheAndRoute, type PrecacheEntry } from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";
import { keepAlmanac, renewAlmanac, serveAlmanac } from "./almanac-cache";
import type { ToWorker } from "./messages";

declare const self: ServiceWorkerGlobalScope & { __WB_MANIFEST: (PrecacheEntry | string)[] };

const files = self.__WB_MANIFEST.filter((entry) => typeof entry !== "string");
const isAlmanac = (entry: PrecacheEntry) => entry.url.endsWith("almanac.wasm");
const almanac = files.find(isAlmanac);

precacheAndRoute(files.filter((entry) => !isAlmanac(entry)));
cleanupOutdatedCaches();
registerRoute(new NavigationRoute(createHandlerBoundToURL("/index.html"), { denylist: [/^\/api\//] }));
registerRoute(
  ({ url, sameOrigin }) => sameOrigin && url.pathname === "/almanac.wasm",
  ({ request }) => serveAlmanac(request, almanac),
);

self.addEventListener("install", (event) => event.waitUntil(renewAlmanac(almanac)));
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
self.addEventListener("message", (event: ExtendableMessageEvent) => {
  const message = event.data as ToWorker;
  if (message === "apply-update") void self.skipWaiting();
  if (message === "keep-almanac") event.waitUntil(keepAlmanac(almanac));
});
