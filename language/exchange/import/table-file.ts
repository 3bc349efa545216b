import { encodingOf, type Found } from "./encoding.ts";
import { Refused } from "./refused.ts";

/** A file that is read in parts, as often as needed: where it comes from is somebody else's business. */
export interface TableFile {
  /** Its name without folders, as it is. */
  readonly name: string;
  readonly bytes: number;
  chunks(): AsyncIterable<Uint8Array>;
}

/** What a long reading tells, and asks. */
export interface Watch {
  /** @param done bytes of the file */
  step?(what: string, done: number, of: number): void;
  readonly isCancelled?: () => boolean;
}

/** Somebody stopped the work: nothing was written. */
export class Cancelled extends Error {
  override readonly name = "Cancelled";
}

async function* watched(file: TableFile, what: string, watch: Watch): AsyncGenerator<Uint8Array> {
  let done = 0;
  for await (const chunk of file.chunks()) {
    if (watch.isCancelled?.() === true) throw new Cancelled("stopped; nothing was written");
    yield chunk;
    done += chunk.length;
    watch.step?.(what, done, file.bytes);
  }
}

/** Which letters its bytes are. Reads all of it: the first letter beyond ASCII may be the last. Throws `Refused` for what is no text. */
export async function findEncoding(file: TableFile, watch: Watch = {}): Promise<Found> {
  if (file.bytes === 0) throw new Refused("the file is empty");
  return encodingOf(watched(file, "bytes looked at", watch));
}

/** Its text in parts, without a byte order mark. */
export async function* textOf(
  file: TableFile,
  encoding: string,
  what: string,
  watch: Watch = {},
): AsyncGenerator<string> {
  const decoder = new TextDecoder(encoding);
  for await (const chunk of watched(file, what, watch)) {
    const text = decoder.decode(chunk, { stream: true });
    if (text !== "") yield text;
  }
  const last = decoder.decode();
  if (last !== "") yield last;
}

/** A file whose bytes are there already. */
export function tableOfBytes(name: string, bytes: Uint8Array, chunkBytes = 1 << 16): TableFile {
  return {
    name,
    bytes: bytes.length,
    async *chunks() {
      for (let at = 0; at < bytes.length; at += chunkBytes) yield bytes.subarray(at, at + chunkBytes);
    },
  };
}
