import { untrack } from "svelte";
import type { Garden } from "../words/records";
import type { Book } from "./contract";

/** Reckons anew when the date in the garden changes, at midnight or when its time zone becomes known. */
export function followDate(book: Book, reckoning: { refresh(): void }): void {
  $effect.root(() => {
    $effect(() => {
      if (book.ready && book.today) untrack(() => reckoning.refresh());
    });
  });
}

/** Remembers the garden's own record whenever it is other than before. */
export function followGarden(book: Book & { remember(garden: Garden): void }): void {
  $effect.root(() => {
    $effect(() => {
      const { garden } = book;
      if (book.ready && garden) untrack(() => book.remember(garden));
    });
  });
}

/** Begins work that must not hold up the first screen, once that is drawn or cannot be. Gives what ends the waiting. */
export function afterFirstScreen(book: Book, begin: () => void): () => void {
  return $effect.root(() => {
    let begun = false;
    $effect(() => {
      if (begun || !(book.ready || book.trouble)) return;
      begun = true;
      requestAnimationFrame(() => setTimeout(begin));
    });
  });
}
