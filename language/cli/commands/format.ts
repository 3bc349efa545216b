import { readFileSync } from "node:fs";
import { isAbsolute, resolve } from "node:path";
import { applySpaces, formatText } from "../../features/format.ts";
import { type Call, type Command, jsonOption } from "../command.ts";
import { extension, kindOfPath, type Shown, shownFrom, textOf, type Unread, walk } from "../files.ts";
import { inputName } from "../open.ts";
import { Progress } from "../progress.ts";
import { printJson } from "../report.ts";
import type { FormatReport } from "../schema.ts";
import { plain, plural } from "../text.ts";
import { Status, Trouble, troubleWith } from "../world.ts";
import { replaceFile } from "../write.ts";

export const format: Command = {
  word: "format",
  takes: "[DIR|FILE|-] ...",
  summary: "lays logs out: white space only, columns of a day aligned",
  about:
    "Writes only the files that change, each at once or not at all. Nothing but white space is touched, a line that cannot be read stays " +
    "as it is, and a file that is not UTF-8 is left alone.",
  options: [
    { name: "check", doc: "write nothing; list what would change, and end with 1 if anything would" },
    { name: "stdin", doc: "lay out standard input and print it, as “-” does" },
    jsonOption,
  ],
  examples: [
    ["standpipe format", "every log at and below this folder"],
    ["standpipe format 2026-03.tank", "one file"],
    ["standpipe format --check", "before a commit"],
    ["standpipe format - < day.tank", "through a pipe"],
  ],
  run: runFormat,
};

interface Laid {
  readonly file: string;
  readonly isChanged: boolean;
}

async function runFormat(call: Call): Promise<Status> {
  if (call.has("stdin") || call.words.includes("-")) return formatInput(call);
  const shown = shownFrom(call.world.cwd, call.words.some(isAbsolute));
  const unread: Unread[] = [];
  const paths = pathsOf(call, shown, unread);
  const laid = layOutAll(call, paths, shown, unread);
  const changed = laid.filter(({ isChanged }) => isChanged);
  if (call.has("json")) {
    const report: FormatReport = {
      standpipe: 1,
      command: "format",
      written: !call.has("check"),
      files: laid.map(({ file, isChanged }) => ({ file, changed: isChanged })),
      unread,
    };
    printJson(call.world, report);
  } else printList(call, laid, changed, unread);
  if (unread.length > 0) return Status.couldNotRun;
  return call.has("check") && changed.length > 0 ? Status.errors : Status.clean;
}

async function formatInput({ words, world, has }: Call): Promise<Status> {
  if (words.some((word) => word !== "-"))
    throw new Trouble("standard input stands alone: name no files beside it");
  if (has("json")) throw new Trouble("standard input is laid out as text; leave --json out");
  const text = textOf(await world.input(), inputName);
  const made = applySpaces(text, formatText(text));
  if (!has("check")) {
    world.out.write(made);
    return Status.clean;
  }
  if (made !== text) world.out.write(`${inputName}\n`);
  return made === text ? Status.clean : Status.errors;
}

function pathsOf(call: Call, shown: Shown, unread: Unread[]): string[] {
  const paths = new Set<string>();
  for (const word of call.words.length === 0 ? ["."] : call.words) {
    const path = resolve(call.world.cwd, word);
    if (kindOfPath(path, shown) === "folder") for (const file of walk(path, unread, shown)) paths.add(file);
    else if (path.endsWith(extension)) paths.add(path);
    else throw new Trouble(`${shown(path)}: a log is a file that ends in ${extension}`);
  }
  if (paths.size === 0 && unread.length === 0)
    throw new Trouble(`no ${extension} file here or below: nothing to lay out`);
  return [...paths];
}

function layOutAll(call: Call, paths: readonly string[], shown: Shown, unread: Unread[]): Laid[] {
  const progress = new Progress(call.world.err, call.world.env.TERM === "dumb");
  const laid: Laid[] = [];
  paths.forEach((path, at) => {
    try {
      laid.push({ file: shown(path), isChanged: layOut(path, shown, !call.has("check")) });
    } catch (error) {
      if (!(error instanceof Trouble)) throw error;
      unread.push({ file: shown(path), message: error.message });
    }
    progress.step("files laid out", at + 1, paths.length);
  });
  progress.end();
  return laid;
}

/** Whether the file's layout is another than it was. */
function layOut(path: string, shown: Shown, isWritten: boolean): boolean {
  let bytes: Buffer;
  try {
    bytes = readFileSync(path);
  } catch (error) {
    throw new Trouble(troubleWith(shown(path), error));
  }
  const text = textOf(bytes, shown(path));
  const made = applySpaces(text, formatText(text));
  if (made === text) return false;
  if (isWritten) replaceFile(path, bytes, made, shown);
  return true;
}

function printList(
  { world, terminal, has }: Call,
  laid: readonly Laid[],
  changed: readonly Laid[],
  unread: readonly Unread[],
): void {
  for (const { file } of changed) world.out.write(`${plain(file)}\n`);
  for (const { message } of unread)
    world.err.write(`${terminal.paint("error", "left alone")}  ${plain(message)}\n`);
  const what =
    changed.length === 0
      ? terminal.paint("good", "Nothing to lay out")
      : terminal.paint(
          "strong",
          `${plural(changed.length, "file")} ${has("check") ? "would be laid out" : "laid out"}`,
        );
  // The list alone is for whoever reads it on; this is for the eye.
  world.err.write(`${what}; ${plural(laid.length, "file")} read\n`);
}
