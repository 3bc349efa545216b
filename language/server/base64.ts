/** Bytes as text and back, as answers are JSON. */

export function base64Of(bytes: Uint8Array): string {
  const letters: string[] = [];
  for (let at = 0; at < bytes.length; at += atOnce)
    letters.push(String.fromCharCode(...bytes.subarray(at, at + atOnce)));
  return btoa(letters.join(""));
}

/** So many arguments every platform takes. */
const atOnce = 1 << 13;

export function bytesOfBase64(text: string): Uint8Array {
  const letters = atob(text);
  const bytes = new Uint8Array(letters.length);
  for (let at = 0; at < letters.length; at++) bytes[at] = letters.charCodeAt(at);
  return bytes;
}
