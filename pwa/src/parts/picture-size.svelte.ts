import type { Book } from "../state/contract";

/** The large preview of a picture, and its own size in pixels. */
export class PictureSize {
  url: string | null = $state(null);
  missing = $state(false);
  size: Readonly<{ width: number; height: number }> | null = $state.raw(null);

  /** Made while a component is made. */
  constructor(book: Book, sha: () => string | undefined) {
    $effect(() => {
      void book.photosSeq; // a better one may have come
      const wanted = sha();
      let current = true;
      if (wanted) void this.#find(book, wanted, () => current);
      return () => (current = false);
    });
  }

  async #find(book: Book, sha: string, current: () => boolean): Promise<void> {
    const url = await book.photoUrl(sha, 1600).catch(() => null);
    const size = url ? await sizeOf(url) : null;
    if (!current()) return;
    [this.url, this.size, this.missing] = [url, size, size === null];
  }
}

async function sizeOf(url: string): Promise<Readonly<{ width: number; height: number }> | null> {
  const image = new Image();
  image.src = url;
  try {
    await image.decode();
    return { width: image.naturalWidth, height: image.naturalHeight };
  } catch {
    return null; // this browser cannot read it
  }
}
