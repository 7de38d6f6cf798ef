import { m } from "../paraglide/messages.js";

/** How freely a plant flowers, from 0, none to speak of, to 4, covered. */
export const amounts = [0, 1, 2, 3, 4] as const;

/** The word of an amount, or "" for none. */
export function amountWord(amount: number | undefined): string {
  const words = [m.amount_0, m.amount_1, m.amount_2, m.amount_3, m.amount_4];
  return words[amount ?? -1]?.() ?? "";
}
