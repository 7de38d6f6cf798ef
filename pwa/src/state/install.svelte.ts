/** What browsers that can put an app on the home screen themselves send (W3C, Manifest Incubations). */
type InstallOffer = Event & { prompt(): Promise<unknown> };

/** Whether this browser offers to put the app on the home screen; the person is asked only when they choose to be. */
export class Install {
  #offer = $state.raw<InstallOffer | null>(null);

  constructor(page: Pick<Window, "addEventListener"> | undefined = globalThis.window) {
    page?.addEventListener("beforeinstallprompt", (event) => this.#hold(event as InstallOffer));
    page?.addEventListener("appinstalled", () => (this.#offer = null));
  }

  get offered(): boolean { return this.#offer !== null; }

  /** The browser's own question. An offer is good once; a person who says no is offered it again when the browser does. */
  async ask(): Promise<void> {
    const offer = this.#offer;
    this.#offer = null;
    await offer?.prompt();
  }

  /** Else the browser would show a bar of its own over the dock. */
  #hold(offer: InstallOffer): void {
    offer.preventDefault();
    this.#offer = offer;
  }
}
