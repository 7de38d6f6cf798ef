// What a change or a file is about, in words: "a look at Iris sibirica".

import { m } from "../paraglide/messages.js";
import type { Book } from "../state/contract";
import type { Ref } from "../words/records";
import { nameOf } from "./about-planting";
import { plainName } from "./plant-name";

type Shelf = Pick<Book, "observation" | "planting" | "kind" | "bed">;

export function refWords(book: Shelf, ref: Ref): string {
  const [kind, id] = [ref.slice(0, ref.indexOf("/")), ref.slice(ref.indexOf("/") + 1)];
  const planting = book.planting(kind === "planting" ? id : kind === "observation" ? book.observation(id)?.planting : undefined);
  const name = planting ? plainName(nameOf(book, planting)) : "";
  if (kind === "observation") return name ? m.ref_look_at({ name }) : m.ref_look();
  if (kind === "planting") return name || m.ref_planting();
  if (kind === "bed") return book.bed(id)?.name ?? m.ref_bed();
  return m.ref_other();
}
