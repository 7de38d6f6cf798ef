// What is wrong with what was typed into a form, each at its own field.

import { tick } from "svelte";

/** By the name of a field: why what was typed there cannot be kept; nothing, or "", where it can. */
export type Wrong = Readonly<Record<string, string>>;

export const nothingWrong = (wrong: Wrong): boolean => Object.values(wrong).every((why) => why === "");

/** Brings the first field with something wrong under the eye and the keyboard, out of a fold too. */
export async function toFirstWrong(form: HTMLFormElement): Promise<void> {
  await tick();
  const field = form.querySelector<HTMLElement>('[aria-invalid="true"]');
  field?.closest("details")?.setAttribute("open", "");
  field?.focus({ preventScroll: true });
  field?.scrollIntoView({ block: "center" });
}
