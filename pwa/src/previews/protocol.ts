/** What page and worker say to each other about previews. */
import type { Width } from "../store/held";

export type PreviewQuestion = Readonly<{ id: number; picture: Blob }>;

/** `unreadable`: this phone cannot decode the picture. */
export type PreviewReply =
  | Readonly<{ id: number; previews: readonly (readonly [Width, ArrayBuffer])[] }>
  | Readonly<{ id: number; unreadable: string }>;
