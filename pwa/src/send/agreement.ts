/** Finding and mending what phone and server hold differently. */
import type { HeldMark } from "../store/held";
import { bucketOf, emptyDigest, exchange } from "../store/digest";
import type { Store } from "../store/store";
import type { Server } from "./server";
import { TroubleError } from "../words/trouble";

const buckets = 256;

/** Compares digests; on a difference finds the parts that differ and takes the server's records of those. */
export async function compare(store: Store, server: Server, theirs: string | undefined): Promise<void> {
  if (theirs === undefined) return;
  if (((await store.meta("digest")) ?? emptyDigest) !== theirs) await mend(store, server).catch(unlessUnknown);
  await store.agree();
}

/** A server that has no sums to compare is older, or newer in its ways: what it sends counts all the same. */
function unlessUnknown(thrown: unknown): void {
  if (!(thrown instanceof TroubleError && thrown.trouble.code === "not-found")) throw thrown;
}

async function mend(store: Store, server: Server): Promise<void> {
  const { cursor, sums } = await server.sums();
  if (cursor !== (await store.meta("cursor"))) return; // more has come since: the next run compares again
  const ours = await sumsOf(await store.marks());
  for (const [bucket, sum] of sums.entries()) {
    if (sum !== ours[bucket]) await mendBucket(store, server, bucket);
  }
}

async function mendBucket(store: Store, server: Server, bucket: number): Promise<void> {
  const { cursor, records } = await server.bucket(bucket);
  if (cursor !== (await store.meta("cursor"))) return;
  const theirs = new Set(records.map(({ record }) => record));
  await store.mendRecords(records);
  const surplus: HeldMark[] = [];
  for (const held of await store.marks()) {
    if (!theirs.has(held.ref) && (await bucketOf(held.ref)) === bucket) surplus.push(held);
  }
  await store.forget(surplus);
}

async function sumsOf(marks: readonly HeldMark[]): Promise<string[]> {
  const sums = new Array<string>(buckets).fill(emptyDigest);
  for (const { ref, mark } of marks) {
    const bucket = await bucketOf(ref);
    sums[bucket] = exchange(sums[bucket]!, "", mark);
  }
  return sums;
}
