import { TroubleError, type TroubleCode } from "../words/trouble";

/** How long an answer may take before the line counts as dead, milliseconds: longer than the worst mobile handover. */
const patienceMs = 30_000;

/** The slowest uplink that is waited for, bytes in a millisecond: 64 kbit/s, what is left at the edge of a cell. */
const slowestUplink = 8;

/** How long to wait for the answer to a request with a body of some length, milliseconds. */
export function patienceFor(bytes: number): number {
  return patienceMs + Math.ceil(bytes / slowestUplink);
}

export type Fetch = typeof fetch;

export type Question = Readonly<{
  method?: "GET" | "POST" | "PUT" | "PATCH" | "HEAD" | "DELETE";
  json?: unknown;
  body?: ArrayBuffer | Uint8Array<ArrayBuffer> | Blob;
  headers?: Readonly<Record<string, string>>;
}>;

/** Asks and gives back a good answer; anything else is a TroubleError. */
export async function ask(fetcher: Fetch, path: string, question: Question = {}): Promise<Response> {
  const response = await reach(fetcher, path, question);
  if (response.ok) return response;
  throw await refusalOf(response);
}

/** Asks for JSON. An answer that is none is not from Haulm. */
export async function askJson(fetcher: Fetch, path: string, question: Question = {}): Promise<unknown> {
  const response = await ask(fetcher, path, question);
  if (!isJson(response)) throw new TroubleError("not-haulm", undefined, response.status);
  return response.json().catch(() => {
    throw new TroubleError("not-haulm", undefined, response.status);
  });
}

async function reach(fetcher: Fetch, path: string, question: Question): Promise<Response> {
  const json = question.json === undefined ? undefined : JSON.stringify(question.json);
  const headers = json === undefined ? question.headers : { "Content-Type": "application/json", ...question.headers };
  const signal = AbortSignal.timeout(patienceFor(json?.length ?? sizeOf(question.body)));
  try {
    return await fetcher(path, {
      method: question.method ?? "GET",
      credentials: "same-origin",
      cache: "no-store",
      signal,
      ...(headers && { headers }),
      ...((json ?? question.body) !== undefined && { body: json ?? question.body! }),
    });
  } catch {
    throw new TroubleError("no-answer");
  }
}

function sizeOf(body: Question["body"]): number {
  return body instanceof Blob ? body.size : (body?.byteLength ?? 0);
}

const codes: Readonly<Record<number, TroubleCode>> = {
  401: "shut-out", 403: "not-allowed", 404: "not-found", 410: "not-found", 413: "too-large", 429: "too-often",
};

/** The trouble in an answer that says no. */
export async function refusalOf(response: Response): Promise<TroubleError> {
  const said = isJson(response) ? await response.json().catch(() => null) : null;
  const { why } = (said ?? {}) as { why?: unknown };
  const code = codes[response.status] ?? (response.status >= 500 ? "server-failed" : "not-understood");
  return new TroubleError(code, typeof why === "string" ? why : undefined, response.status, said);
}

function isJson(response: Response): boolean {
  return (response.headers.get("Content-Type") ?? "").startsWith("application/json");
}
