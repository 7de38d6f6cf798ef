import { beforeEach, describe, expect, it, vi } from "vitest";
import { PreviewMaker, type PreviewPort } from "./previews";
import type { PreviewQuestion, PreviewReply } from "./protocol";

/** A worker that answers only when told to. */
class Port implements PreviewPort {
  onmessage: PreviewPort["onmessage"] = null;
  onerror: PreviewPort["onerror"] = null;
  asked: PreviewQuestion[] = [];
  ended = false;
  postMessage = (question: PreviewQuestion) => void this.asked.push(question);
  terminate = () => void (this.ended = true);
  say = (reply: PreviewReply) => this.onmessage?.({ data: reply } as MessageEvent);
}

let ports: Port[];
let maker: PreviewMaker;
const port = () => ports.at(-1)!;
const picture = new Blob(["a picture"]);
const small = (n: number) => [[320, new Uint8Array([n]).buffer]] as const;

beforeEach(() => {
  ports = [];
  maker = new PreviewMaker(() => ports[ports.push(new Port()) - 1]!);
});

describe("the maker of previews", () => {
  it("works at one picture at a time, in order", async () => {
    const both = [maker.of(picture), maker.of(picture)];
    await vi.waitFor(() => expect(port().asked.length).toBe(1));
    port().say({ id: 1, previews: small(1) });
    await both[0];
    await vi.waitFor(() => expect(port().asked.length).toBe(2));
    port().say({ id: 2, previews: small(2) });
    expect(new Uint8Array((await both[1])!.get(320)!)).toEqual(new Uint8Array([2]));
    expect(ports.length).toBe(1);
  });

  it("says of a picture that it cannot be read, and goes on with the next", async () => {
    const broken = maker.of(picture);
    await vi.waitFor(() => expect(port().asked.length).toBe(1));
    port().say({ id: 1, unreadable: "The source image could not be decoded." });
    await expect(broken).rejects.toMatchObject({ trouble: { code: "unreadable-picture" } });
    const next = maker.of(picture);
    await vi.waitFor(() => expect(port().asked.length).toBe(2));
    port().say({ id: 2, previews: small(3) });
    expect((await next).size).toBe(1);
  });

  it("does not blame the picture when the worker fails, and takes another worker", async () => {
    const lost = maker.of(picture);
    await vi.waitFor(() => expect(port().asked.length).toBe(1));
    port().onerror?.({ message: "out of reach" } as ErrorEvent);
    await expect(lost).rejects.toThrow("out of reach");
    await expect(lost).rejects.not.toHaveProperty("trouble");
    const next = maker.of(picture);
    await vi.waitFor(() => expect(ports.length).toBe(2));
    await vi.waitFor(() => expect(port().asked.length).toBe(1));
    port().say({ id: 2, previews: small(4) });
    expect([(await next).size, ports[0]!.ended]).toEqual([1, true]);
  });
});
