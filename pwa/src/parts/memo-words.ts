import { number } from "./measure";

/** "0:07", "3:00": minutes and seconds as clocks write them. */
export function minutesOf(ms: number): string {
  const seconds = Math.floor(ms / 1000);
  return `${number(Math.floor(seconds / 60))}:${String(seconds % 60).padStart(2, "0")}`;
}
