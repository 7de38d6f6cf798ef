/** A failure that a person should read: `code` picks the sentence, `detail` is the server's own words if it had any. */
export type Trouble = Readonly<{ code: TroubleCode; detail?: string }>;

export type TroubleCode =
  /** Nothing answered: no signal, or the server is off. */
  | "no-answer"
  /** 401: this phone was shut out or its sign-in ended. Nothing unsent is lost; join again. */
  | "shut-out"
  /** 403: the member's role does not allow it. */
  | "not-allowed"
  /** 404 or 410: an invitation that is used or too old, a garden or file that is not there. */
  | "not-found"
  /** 413: larger than the server takes. */
  | "too-large"
  /** 429: asked too often; try later. */
  | "too-often"
  /** 5xx: the server failed and will be tried again. */
  | "server-failed"
  /** 4xx of any other kind: the server did not understand. */
  | "not-understood"
  /** The answer was not Haulm's: often a network's sign-in page. */
  | "not-haulm"
  /** The phone's own store did not take or give it: closed, damaged or private browsing. */
  | "store-failed"
  /** A newer app has changed how the phone's store is laid out: this one must not write there. */
  | "store-newer"
  /** The phone has no room left for it. */
  | "no-room"
  /** The picture could not be read on this phone. */
  | "unreadable-picture"
  /** What was recorded is no sound of a kind that Haulm keeps. */
  | "unreadable-sound"
  /** The almanac is not on this phone yet, or did not start. */
  | "no-almanac"
  /** The almanac answered with an error; `detail` is its sentence. */
  | "almanac-failed";

/** What rejects when an act fails; its `trouble` says why. */
export class TroubleError extends Error {
  override readonly name = "TroubleError";
  readonly trouble: Trouble;
  /** The HTTP status, or 0 when nothing answered. */
  readonly status: number;
  /** The body of the server's refusal, where it was JSON. */
  readonly said: unknown;

  constructor(code: TroubleCode, detail?: string, status = 0, said: unknown = null) {
    super(detail ? `${code}: ${detail}` : code);
    this.trouble = detail ? { code, detail } : { code };
    this.status = status;
    this.said = said;
  }
}

/** The trouble in anything thrown; what is not known by name came out of the phone's store. */
export function troubleOf(thrown: unknown): Trouble {
  if (thrown instanceof TroubleError) return thrown.trouble;
  if (isFull(thrown)) return { code: "no-room" };
  return { code: "store-failed", detail: thrown instanceof Error ? thrown.message : String(thrown) };
}

/** Whether the browser gives the app no more room: it names the write so, or tucks that away in the transaction's own error. */
export function isFull(thrown: unknown): boolean {
  const { name, inner } = (thrown ?? {}) as { name?: string; inner?: { name?: string } };
  return name === "QuotaExceededError" || inner?.name === "QuotaExceededError";
}
