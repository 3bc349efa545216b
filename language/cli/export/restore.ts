import { existsSync, mkdirSync, readFileSync, rmSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import type { LogItem } from "../../exchange/export/log-items.ts";
import { parsedItems } from "../../exchange/export/log-json.ts";
import { logOfItems } from "../../exchange/export/log-of-items.ts";
import type { Call } from "../command.ts";
import { extension, readText, type Shown, shownFrom, textOf } from "../files.ts";
import { logItem } from "../schema/log.ts";
import { plural } from "../text.ts";
import { writeTogether } from "../whole-file.ts";
import { Status, Trouble, troubleWith } from "../world.ts";

/** Makes the files of a log of its items, in a folder where none of them is there yet. Nothing is written if one cannot be. */
export async function restore(call: Call, from: string, folder: string): Promise<Status> {
  const { world } = call;
  const shown = shownFrom(world.cwd, false);
  const text =
    from === "-" ? textOf(await world.input(), "stdin") : readText(resolve(world.cwd, from), shown);
  const files = logOfItems(itemsOf(text, from));
  if (files.size === 0) throw new Trouble(`${from}: no file of a log is named here`);
  const root = resolve(world.cwd, folder);
  const made = [...files].map(([path, content]) => ({ path: placeOf(root, path, from), content }));
  for (const { path, content } of made)
    if (existsSync(path) && readFileSync(path, "utf8") !== content)
      throw new Trouble(`${shown(path)}: another text stands there; nothing is written`);
  const folders: string[] = [];
  try {
    for (const { path } of made) {
      const first = folderFor(dirname(path), shown);
      if (first !== undefined) folders.push(first);
    }
    writeTogether((begin) => {
      for (const { path, content } of made) {
        const file = begin(path, shown(path));
        file.write(content);
        file.end();
      }
    });
  } catch (error) {
    for (const each of folders) rmSync(each, { recursive: true, force: true });
    throw error;
  }
  world.err.write(`${plural(made.length, "file")} written to ${folder}\n`);
  return Status.clean;
}

/** Makes a folder. Returns the first that was not there. */
function folderFor(path: string, shown: Shown): string | undefined {
  try {
    return mkdirSync(path, { recursive: true });
  } catch (error) {
    throw new Trouble(troubleWith(shown(path), error));
  }
}

function* itemsOf(text: string, from: string): Generator<LogItem> {
  let isFirst = true;
  try {
    for (const { where, item } of parsedItems(text)) {
      const read = logItem.safeParse(item);
      if (!read.success) {
        const [issue] = read.error.issues;
        const at = issue?.path.map(String).join(".") ?? "";
        throw new Trouble(
          `${from}, ${where}: no item of a log${at === "" ? "" : `, at “${at}”`}: ${issue?.message}`,
        );
      }
      if (isFirst && read.data.is !== "log")
        throw new Trouble(`${from}: the first item of a log is {"is": "log", "standpipe": 1, ...}`);
      isFirst = false;
      yield read.data as LogItem;
    }
  } catch (error) {
    if (error instanceof SyntaxError) throw new Trouble(`${from}: this is no JSON: ${error.message}`);
    throw error;
  }
}

/** Where a file of the log goes: in the folder, be its path what it may. */
function placeOf(root: string, path: string, from: string): string {
  const parts = path.split("/");
  const isWithin = parts.every(
    (part) => part !== "" && part !== "." && part !== ".." && !/[\\\0:]/.test(part),
  );
  if (!isWithin || !path.endsWith(extension))
    throw new Trouble(`${from}: “${path}” is no path of a log within its folder; it ends in ${extension}`);
  return join(root, ...parts);
}
