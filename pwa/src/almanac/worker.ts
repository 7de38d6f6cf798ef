/** The worker that the almanac lives in: Go compiled to WebAssembly, kept standing with the garden's records. */
import "virtual:go-runtime";
import type { Question, Reply, Started } from "./protocol";

declare const self: DedicatedWorkerGlobalScope & {
  haulmAlmanac?: {
    upsert(records: string): string;
    forget(refs: string): string;
    ask(verb: string, question: string): string;
  };
};

async function start(): Promise<void> {
  const go = new Go();
  const { instance } = await instantiate(go);
  void go.run(instance).finally(() => say({ started: false, error: "the almanac stopped" }));
  if (!self.haulmAlmanac) throw new Error("the almanac did not start");
}

/** A server or cache that gives the wrong content type must not cost the phone its almanac. */
async function instantiate(go: Go): Promise<WebAssembly.WebAssemblyInstantiatedSource> {
  const response = await fetch("/almanac.wasm");
  if (!response.ok) throw new Error(`the almanac could not be fetched (${response.status})`);
  if (response.headers.get("Content-Type") === "application/wasm") {
    return WebAssembly.instantiateStreaming(response, go.importObject);
  }
  return WebAssembly.instantiate(await response.arrayBuffer(), go.importObject);
}

function answer(question: Question): Reply {
  try {
    return { id: question.id, ...(JSON.parse(put(question)) as { answer: unknown } | { error: string }) };
  } catch (thrown) {
    return { id: question.id, error: String(thrown) };
  }
}

function put(question: Question): string {
  const almanac = self.haulmAlmanac!;
  if (question.act === "upsert") return almanac.upsert(JSON.stringify(question.records));
  if (question.act === "forget") return almanac.forget(JSON.stringify(question.refs));
  return almanac.ask(question.verb, JSON.stringify(question.question));
}

function say(message: Started | Reply): void {
  self.postMessage(message);
}

start().then(
  () => {
    self.onmessage = (event: MessageEvent<Question>) => say(answer(event.data));
    say({ started: true });
  },
  (thrown) => say({ started: false, error: thrown instanceof Error ? thrown.message : String(thrown) }),
);
