import { createReadStream, statSync } from "node:fs";
import { basename } from "node:path";
import { type TableFile, tableOfBytes } from "../../exchange/import/table-file.ts";
import type { Shown } from "../files.ts";
import { inputName } from "../open.ts";
import { Trouble, troubleWith, type World } from "../world.ts";

const partBytes = 1 << 18;

/** The table that a call names; of `-` what standard input holds. Throws `Trouble` if there is none. */
export async function tableOnDisk(world: World, path: string, shown: Shown): Promise<TableFile> {
  if (path === "-") return tableOfBytes(inputName, await world.input());
  let bytes: number;
  try {
    const stat = statSync(path);
    if (!stat.isFile()) throw new Trouble(`${shown(path)}: this is no file; name one table`);
    bytes = stat.size;
  } catch (error) {
    throw error instanceof Trouble ? error : new Trouble(troubleWith(shown(path), error));
  }
  return {
    name: basename(path),
    bytes,
    async *chunks() {
      try {
        for await (const part of createReadStream(path, { highWaterMark: partBytes }))
          yield part as Uint8Array;
      } catch (error) {
        throw error instanceof Error && "code" in error
          ? new Trouble(troubleWith(shown(path), error))
          : error;
      }
    },
  };
}
