/** What a form offers until a person chooses: what comes from elsewhere meanwhile moves the offer, never the choice. */
export class Chosen<T> {
  readonly #offer: () => T;
  #choice = $state.raw<Readonly<{ value: T }> | null>(null);

  constructor(offer: () => T) {
    this.#offer = offer;
  }

  get current(): T {
    return this.#choice ? this.#choice.value : this.#offer();
  }

  set current(value: T) {
    this.#choice = { value };
  }
}
