type Ask = () => Promise<string | null>;

/** The address of one picture. It may have been let go before its picture was read: then a fresh one is asked for, once. */
export class PhotoAddress {
  readonly #ask: Ask;
  #url = $state<string | null>(null);
  #broken = $state<string | null>(null);
  #asked = $state(false);
  #freshened = false;
  #turn = 0;

  constructor(ask: Ask) {
    this.#ask = ask;
  }

  /** Null while there is none whose picture can be shown. */
  get url(): string | null { return this.#url === this.#broken ? null : this.#url; }
  /** Whether there is a picture to show, be it one that this browser cannot read. */
  get here(): boolean { return this.#url !== null; }
  /** Whether it is known if there is one. */
  get asked(): boolean { return this.#asked; }

  async find(): Promise<void> {
    const turn = ++this.#turn;
    const found = await this.#ask().catch(() => this.#url);
    if (turn !== this.#turn) return;
    this.#asked = true;
    if (found === this.#url) return;
    this.#url = found;
    this.#freshened = false;
  }

  /** Its picture could not be read. */
  async failed(): Promise<void> {
    const unread = this.#url;
    const fresh = this.#freshened ? null : await this.#ask().catch(() => null);
    if (this.#url !== unread) return;
    this.#freshened = true;
    if (fresh) this.#url = fresh;
    if (!fresh || fresh === unread) this.#broken = unread;
  }
}
