import { Refused } from "./refused.ts";

/** Which letters the bytes of a file are, or that they are none. */

export type Encoding = "utf-8" | "utf-16le" | "utf-16be" | "windows-1252";

export interface Found {
  readonly encoding: Encoding;
  /** What is to be said of it; empty for plain UTF-8. */
  readonly said: string;
}

/** Files of other kinds by how they begin: what they are, and what to do. */
const signatures: readonly (readonly [bytes: readonly number[], what: string])[] = [
  [
    [0x50, 0x4b, 0x03, 0x04],
    "a zip archive, as a workbook of a spreadsheet is; save the sheet as CSV, or unpack it",
  ],
  [[0x50, 0x4b, 0x05, 0x06], "an empty zip archive"],
  [[0xd0, 0xcf, 0x11, 0xe0], "a workbook of the older binary kind; save the sheet as CSV"],
  [[0x1f, 0x8b], "compressed (gzip); unpack it first"],
  [[0x42, 0x5a, 0x68], "compressed (bzip2); unpack it first"],
  [[0x28, 0xb5, 0x2f, 0xfd], "compressed (zstd); unpack it first"],
  [[0xfd, 0x37, 0x7a, 0x58, 0x5a, 0x00], "compressed (xz); unpack it first"],
  [[0x37, 0x7a, 0xbc, 0xaf], "a 7z archive; unpack it first"],
  [[0x52, 0x61, 0x72, 0x21], "a rar archive; unpack it first"],
  [[0x25, 0x50, 0x44, 0x46], "a PDF, not a table"],
  [[0x89, 0x50, 0x4e, 0x47], "a picture (PNG), not a table"],
  [[0xff, 0xd8, 0xff], "a picture (JPEG), not a table"],
  [[0x47, 0x49, 0x46, 0x38], "a picture (GIF), not a table"],
  [[0x53, 0x51, 0x4c, 0x69, 0x74, 0x65, 0x20], "a database (SQLite); export its table as CSV"],
  [[0x50, 0x41, 0x52, 0x31], "a Parquet file; export its table as CSV"],
  [[0x7f, 0x45, 0x4c, 0x46], "a program, not a table"],
];

const begins = (bytes: Uint8Array, with_: readonly number[]): boolean =>
  bytes.length >= with_.length && with_.every((byte, at) => bytes[at] === byte);

/** So many bytes tell the kind of a file. */
const headBytes = 1 << 16;
/** A text holds no control characters; a table damaged on its way may hold a few. */
const mostControls = 0.01;

/** Throws `Refused` for what is no text. */
export async function encodingOf(chunks: AsyncIterable<Uint8Array>): Promise<Found> {
  const utf8 = new Utf8Count();
  let head: Uint8Array = new Uint8Array(0);
  let wide: Encoding | undefined;
  for await (const chunk of chunks) {
    if (head.length < headBytes) {
      const joined = new Uint8Array(Math.min(headBytes, head.length + chunk.length));
      joined.set(head);
      joined.set(chunk.subarray(0, joined.length - head.length), head.length);
      head = joined;
      for (const [bytes, what] of signatures) if (begins(head, bytes)) throw new Refused(`this is ${what}`);
      wide = wideOf(head);
    }
    utf8.add(chunk);
  }
  if (wide !== undefined) {
    const hasMark = begins(head, [0xff, 0xfe]) || begins(head, [0xfe, 0xff]);
    return {
      encoding: wide,
      said: `read as ${wide.toUpperCase()}${hasMark ? "" : ", though it does not say so"}`,
    };
  }
  refuseControls(head);
  if (utf8.bad === 0) return { encoding: "utf-8", said: "" };
  if (utf8.good > utf8.bad)
    return {
      encoding: "utf-8",
      said: `${utf8.bad} bytes are no UTF-8, the first in line ${utf8.firstBadLine}: read as �`,
    };
  return {
    encoding: "windows-1252",
    said: `line ${utf8.firstBadLine} is not UTF-8: read as Windows-1252, of which Latin-1 is a part`,
  };
}

/** UTF-16, by its mark or because every other byte is NUL. */
function wideOf(head: Uint8Array): Encoding | undefined {
  if (begins(head, [0xff, 0xfe])) return "utf-16le";
  if (begins(head, [0xfe, 0xff])) return "utf-16be";
  if (head.length < 16) return undefined;
  let even = 0;
  let odd = 0;
  for (let at = 0; at < head.length; at++) if (head[at] === 0) at % 2 === 0 ? even++ : odd++;
  const half = head.length / 2;
  if (odd > half * 0.7 && even < half * 0.05) return "utf-16le";
  if (even > half * 0.7 && odd < half * 0.05) return "utf-16be";
  return undefined;
}

function refuseControls(head: Uint8Array): void {
  let controls = 0;
  let nuls = 0;
  for (const byte of head) {
    if (byte === 0) nuls++;
    if (byte < 9 || (byte > 13 && byte < 32 && byte !== 26 && byte !== 27)) controls++;
  }
  if (controls <= Math.max(2, head.length * mostControls)) return;
  const share = Math.round((controls / head.length) * 100);
  throw new Refused(
    `this is no text: ${share} % of its bytes are control characters${nuls > 0 ? `, ${nuls} of them NUL` : ""}`,
  );
}

/** Counts letters of several bytes, and bytes that belong to none (Unicode 16, table 3-7, but for overlong forms of three and four). */
class Utf8Count {
  good = 0;
  bad = 0;
  firstBadLine = 0;
  private line = 1;
  private left = 0;

  add(chunk: Uint8Array): void {
    for (const byte of chunk) {
      if (byte === 10) this.line++;
      if (this.left > 0) {
        if ((byte & 0xc0) === 0x80) {
          if (--this.left === 0) this.good++;
          continue;
        }
        this.left = 0;
        this.isBad();
      }
      if (byte < 0x80) continue;
      if (byte >= 0xc2 && byte <= 0xdf) this.left = 1;
      else if (byte >= 0xe0 && byte <= 0xef) this.left = 2;
      else if (byte >= 0xf0 && byte <= 0xf4) this.left = 3;
      else this.isBad();
    }
  }

  private isBad(): void {
    if (this.bad++ === 0) this.firstBadLine = this.line;
  }
}
