// What a change or a file is about, in words: "a look at Iris sibirica".

import { m } from "../paraglide/messages.js";
import type { Book } from "../state/contract";
import type { Ref } from "../words/records";
import { nameOf } from "./about-planting";
import { plainName } from "./plant-name";

type Shelf = Pick<Book, "observation" | "planting" | "kind" | "bed">;

/** `fields`: what a change writes, which names the planting of an entry that is not here. */
export function refWords(book: Shelf, ref: Ref, fields: Readonly<Record<string, unknown>> = {}): string {
  const [kind, id] = [ref.slice(0, ref.indexOf("/")), ref.slice(ref.indexOf("/") + 1)];
  const written = typeof fields["planting"] === "string" ? fields["planting"] : undefined;
  const planting = book.planting(kind === "planting" ? id : kind === "observation" ? (book.observation(id)?.planting ?? written) : undefined);
  const name = planting ? plainName(nameOf(book, planting)) : "";
  if (kind === "observation") return name ? m.ref_look_at({ name }) : m.ref_look();
  if (kind === "planting") return name || m.ref_planting();
  if (kind === "bed") return book.bed(id)?.name ?? m.ref_bed();
  if (kind === "garden") return m.ref_garden();
  return m.ref_other();
}
