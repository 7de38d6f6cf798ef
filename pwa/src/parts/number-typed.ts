/** The number typed, which may be below zero and have a decimal comma; null where it is none. */
export function numberTyped(text: string): number | null {
  const value = Number(text.trim().replace("−", "-").replace(",", "."));
  return text.trim() !== "" && Number.isFinite(value) ? value : null;
}
