// What waits to be sent, and why, in one quiet line.

import { m } from "../paraglide/messages.js";
import type { Sending, SendingItem } from "../state/contract";
import { locale as appLocale } from "../words/language";
import type { Trouble } from "../words/trouble";
import { clockTime } from "./dates";

type Waiting = Pick<Sending, "notes" | "photos" | "line" | "refused">;

/** "3 notes and 2 photos wait for a signal"; null when nothing waits. */
export function waitingLine({ notes, photos, line, refused }: Waiting): string | null {
  if (refused.length > 0) return m.refused_line({ count: refused.length });
  if (notes + photos === 0) return null;
  const what = countWords(notes, photos);
  const ways: Record<Sending["line"], (inputs: { what: string }) => string> = {
    offline: notes + photos === 1 ? m.wait_signal_one : m.wait_signal,
    sending: m.wait_sending, held: m.wait_held, stopped: m.wait_stopped, waiting: m.wait_turn, resting: m.wait_turn,
  };
  return ways[line]({ what });
}

function countWords(notes: number, photos: number): string {
  if (photos === 0) return m.count_notes({ count: notes });
  if (notes === 0) return m.count_photos({ count: photos });
  return m.both({ one: m.count_notes({ count: notes }), other: m.count_photos({ count: photos }) });
}

/** Why things of one kind have not gone yet, in a sentence. */
export function whyWaits(what: SendingItem["what"], { line, online, nextTry, trouble }: Pick<Sending, "line" | "online" | "nextTry" | "trouble">): string {
  if (line === "stopped") return m.why_stopped();
  if (!online) return m.why_signal();
  if (trouble && nextTry) return m.why_next({ time: clockTime(nextTry) });
  if (line === "held") return m.why_held();
  return { note: m.why_notes, preview: m.why_previews, memo: m.why_memos, original: m.why_originals }[what]();
}

const troubles: Readonly<Record<Trouble["code"], () => string>> = {
  "no-answer": m.t_no_answer, "shut-out": m.t_shut_out, "not-allowed": m.t_not_allowed, "not-found": m.t_not_found,
  "too-large": m.t_too_large, "too-often": m.t_too_often, "server-failed": m.t_server_failed, "not-understood": m.t_not_understood,
  "not-haulm": m.t_not_haulm, "store-failed": m.t_store_failed, "store-newer": m.t_store_newer, "no-room": m.t_no_room, "unreadable-picture": m.t_unreadable_picture, "unreadable-sound": m.t_unreadable_sound,
  "no-almanac": m.t_no_almanac, "almanac-failed": m.t_almanac_failed,
};

/** What went wrong and what to do, with the server's own sentence where it gave one. */
export function troubleWords(trouble: Trouble): string {
  const words = troubles[trouble.code]();
  return trouble.detail ? m.t_with_detail({ words, detail: trouble.detail }) : words;
}

/** "11 GB", "3.6 MB", "420 kB". */
export function sizeWords(bytes: number, locale?: string): string {
  if (bytes >= 1e9) return sized(bytes / 1e9, "gigabyte", 0, locale);
  return bytes >= 1e6 ? sized(bytes / 1e6, "megabyte", 1, locale) : sized(Math.max(1, bytes / 1e3), "kilobyte", 0, locale);
}

function sized(value: number, unit: string, maximumFractionDigits: number, locale: string | undefined): string {
  return new Intl.NumberFormat(locale ?? appLocale(), { style: "unit", unit, maximumFractionDigits }).format(value);
}
