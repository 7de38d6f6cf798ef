import type { Width } from "../../store/held";
import { bytesKey } from "../../store/held";
import type { Sha256 } from "../../words/ids";

/** How many addresses are kept; each holds a preview in memory while it lives. */
const most = 200;

/** What an address shows; `passing` says that something better will soon be there. */
export type Preview = Readonly<{ type: string; bytes: ArrayBuffer; passing?: boolean }>;

type Source = (sha: Sha256, width: Width) => Promise<Preview | null>;

/** blob: addresses of previews, made once each; the longest unused are let go. */
export class PhotoUrls {
  readonly #source: Source;
  readonly #urls = new Map<string, Promise<string | null>>();
  readonly #passing = new Set<string>();

  constructor(source: Source) {
    this.#source = source;
  }

  async get(sha: Sha256, width: Width): Promise<string | null> {
    const key = bytesKey(sha, width);
    const url = this.#urls.get(key) ?? this.#make(sha, width);
    this.#urls.delete(key);
    this.#urls.set(key, url); // now the latest
    this.#trim();
    const made = await url.catch((thrown: unknown) => {
      this.#forget(key, url);
      throw thrown;
    });
    if (made === null || this.#passing.has(made)) this.#forget(key, url);
    return made;
  }

  clear(): void {
    for (const key of [...this.#urls.keys()]) this.#drop(key);
    for (const url of this.#passing) URL.revokeObjectURL(url);
    this.#passing.clear();
  }

  async #make(sha: Sha256, width: Width): Promise<string | null> {
    const found = await this.#source(sha, width);
    if (!found) return null;
    const url = URL.createObjectURL(new Blob([found.bytes], { type: found.type }));
    if (found.passing) this.#passing.add(url);
    return url;
  }

  #trim(): void {
    for (const key of this.#urls.keys()) {
      if (this.#urls.size <= most) return;
      this.#drop(key);
    }
  }

  /** It is asked for anew the next time. */
  #forget(key: string, url: Promise<string | null>): void {
    if (this.#urls.get(key) === url) this.#urls.delete(key);
  }

  #drop(key: string): void {
    this.#urls.get(key)?.then((url) => url && URL.revokeObjectURL(url), () => undefined); // one that failed has nothing to let go
    this.#urls.delete(key);
  }
}
