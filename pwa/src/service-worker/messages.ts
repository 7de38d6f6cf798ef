/** What the page tells the service worker: take over now, or store the almanac for use without a network. */
export type ToWorker = "apply-update" | "keep-almanac";
