/** Finding and mending what phone and server hold differently. */
import type { HeldRecord } from "../store/held";
import { bucketOf, emptyDigest, exchange } from "../store/digest";
import type { Store } from "../store/store";
import { TroubleError } from "../words/trouble";
import type { Server } from "./server";

const buckets = 256;
const offerLimit = 500; // records in one request

/** Compares digests; on a difference finds the parts that differ and takes the server's records of those. */
export async function compare(store: Store, server: Server, theirs: string | undefined): Promise<void> {
  if (theirs === undefined) return;
  if (((await store.meta("digest")) ?? emptyDigest) !== theirs) await mend(store, server);
  await store.agree();
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
  const surplus = await Promise.all((await store.marks()).map(async (held) => ((await bucketOf(held.ref)) === bucket ? held : null)));
  await store.forget(surplus.filter((held) => held !== null && !theirs.has(held.ref)) as HeldRecord[]);
}

async function sumsOf(marks: readonly Pick<HeldRecord, "ref" | "mark">[]): Promise<string[]> {
  const sums = new Array<string>(buckets).fill(emptyDigest);
  for (const { ref, mark } of marks) {
    const bucket = await bucketOf(ref);
    sums[bucket] = exchange(sums[bucket]!, "", mark);
  }
  return sums;
}

/**
 * After a server was restored from a backup: offers it the records that its new
 * feed did not give, then forgets them here; what it takes comes back by the
 * feed. Tells whether anything was offered. Where the server takes no offers
 * they stay on this phone.
 */
export async function offerOrphans(store: Store, server: Server): Promise<boolean> {
  const lost = await store.meta("lostCursor");
  if (!lost) return false;
  const orphans = await store.orphans();
  try {
    for (let i = 0; i < orphans.length; i += offerLimit) await server.heal(lost, orphans.slice(i, i + offerLimit));
  } catch (thrown) {
    if (thrown instanceof TroubleError && thrown.trouble.code === "not-found") return false;
    throw thrown;
  }
  await store.forget(orphans);
  return orphans.length > 0;
}
