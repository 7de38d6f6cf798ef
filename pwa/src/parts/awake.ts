// Keeps the phone's screen on while a round is walked (W3C, Screen Wake Lock API).
// The phone takes the lock away when the page is out of sight, so it is asked for
// again when it shows. A browser without it, or a phone that is saving its battery,
// goes dark as it always would, and nothing is said.

type Screen = Pick<WakeLock, "request">;
type Sight = Pick<Document, "visibilityState" | "addEventListener" | "removeEventListener">;

/** From now until what it gives is called. */
export function keepAwake(screen: Screen | null = navigator.wakeLock ?? null, sight: Sight = document): () => void {
  let over = false;
  let lock: WakeLockSentinel | null = null;

  async function ask(): Promise<void> {
    if (sight.visibilityState !== "visible") return;
    const held = (await screen?.request("screen").catch(() => null)) ?? null;
    if (over) await held?.release().catch(() => undefined);
    else lock = held;
  }

  const seen = (): void => void ask();
  sight.addEventListener("visibilitychange", seen);
  seen();
  return () => {
    over = true;
    sight.removeEventListener("visibilitychange", seen);
    void lock?.release().catch(() => undefined);
  };
}
