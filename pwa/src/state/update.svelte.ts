import type { ToWorker } from "../service-worker/messages";

/** An app on the home screen is brought back to the front for days and never loaded anew, which is when browsers look by themselves. */
const LOOK_AGAIN_MS = 3_600_000;

/**
 * The service worker as the page sees it: it registers it, tells it to keep the
 * almanac, and offers a newer version. Only the person's choice reloads the page;
 * everything written is on disk by then.
 */
export class Update {
  #waiting = $state(false);
  #registration: ServiceWorkerRegistration | null = null;
  #chosen = false;
  #lookedAt = Date.now();

  get waiting(): boolean { return this.#waiting; }

  /** Registers the worker where there can be one. Never rejects: without it the app works while the network does. */
  async register(): Promise<void> {
    if (!import.meta.env.PROD || !("serviceWorker" in navigator)) return;
    const { serviceWorker } = navigator;
    const hadOne = serviceWorker.controller !== null;
    serviceWorker.addEventListener("controllerchange", () => hadOne && this.#tookOver());
    this.#registration = await serviceWorker.register("/service-worker.js").catch(() => null);
    this.#watch();
    document.addEventListener("visibilitychange", () => this.#lookAgain());
  }

  keepAlmanac(): void {
    void navigator.serviceWorker?.ready.then(({ active }) => active && tell(active, "keep-almanac"));
  }

  async apply(): Promise<void> {
    this.#chosen = true;
    const { waiting } = this.#registration ?? {};
    if (waiting) tell(waiting, "apply-update");
    else location.reload();
  }

  #watch(): void {
    const registration = this.#registration;
    if (!registration) return;
    this.#waiting = registration.waiting !== null;
    registration.addEventListener("updatefound", () => {
      const { installing } = registration;
      installing?.addEventListener("statechange", () => (this.#waiting ||= isUpdate(installing)));
    });
  }

  /** With no signal nothing is found, and nothing is said. */
  #lookAgain(): void {
    if (document.visibilityState !== "visible" || Date.now() - this.#lookedAt < LOOK_AGAIN_MS) return;
    this.#lookedAt = Date.now();
    void this.#registration?.update().catch(() => undefined);
  }

  /** A newer version runs: chosen here, or in another tab, where this one is offered to follow. */
  #tookOver(): void {
    if (this.#chosen) location.reload();
    else this.#waiting = true;
  }
}

/** One that is installed beside a page that another serves; the first of all serves at once. What it becomes later takes no offer back. */
function isUpdate({ state }: ServiceWorker): boolean {
  return state === "installed" && navigator.serviceWorker.controller !== null;
}

function tell(worker: ServiceWorker, message: ToWorker): void {
  worker.postMessage(message);
}
