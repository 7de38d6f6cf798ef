import { untrack } from "svelte";
import type { Book } from "./contract";

/** Reckons anew when the date in the garden changes, at midnight or when its time zone becomes known. */
export function followDate(book: Book, reckoning: { refresh(): void }): void {
  $effect.root(() => {
    $effect(() => {
      if (book.ready && book.today) untrack(() => reckoning.refresh());
    });
  });
}

/** Begins work that must not hold up the first screen, once that is drawn. Gives what ends the waiting. */
export function afterFirstScreen(book: Book, begin: () => void): () => void {
  return $effect.root(() => {
    $effect(() => {
      if (book.ready) requestAnimationFrame(() => setTimeout(begin));
    });
  });
}
