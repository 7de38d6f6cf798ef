/** Text out of an address; as it stands where it is no percent-encoding, as messengers and mail leave it. */
export function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}
