/** What browsers tell of the link, where they tell it. */
type NetworkInformation = Readonly<{ type?: string; saveData?: boolean }>;

const meteredTypes: ReadonlySet<string> = new Set(["cellular", "wimax", "bluetooth"]);

/**
 * Whether large files may go without costing someone money. A browser that says
 * nothing about its link counts as unmetered, else its originals would never go.
 */
export function unmetered(connection: NetworkInformation | undefined): boolean {
  return !connection?.saveData && !meteredTypes.has(connection?.type ?? "");
}

/** The present link, where the browser tells of it. */
export function presentLink(): NetworkInformation | undefined {
  return (globalThis.navigator as { connection?: NetworkInformation } | undefined)?.connection;
}

/** Hears when the phone goes over to another link, where the browser tells of it. Gives back what ends it. */
export function onLinkChange(listener: () => void): () => void {
  const link = presentLink() as Partial<EventTarget> | undefined;
  link?.addEventListener?.("change", listener);
  return () => link?.removeEventListener?.("change", listener);
}
