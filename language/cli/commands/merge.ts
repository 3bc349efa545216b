import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { mergeLogs } from "../../history/merge/merge-log.ts";
import type { Call, Command } from "../command.ts";
import { shownFrom, textOf } from "../files.ts";
import { plain, plural } from "../text.ts";
import { Status, Trouble, troubleWith } from "../world.ts";
import { replaceFile } from "../write.ts";

export const merge: Command = {
  word: "merge",
  takes: "BASE OURS THEIRS",
  summary: "joins two versions of a log: git calls it, once standpipe git has set it up",
  about:
    "Entries that either side added stand in the result, each once where both added the same; what one side corrected is corrected. " +
    "Rounds are joined cell by cell, whatever became of their heads. " +
    "Days and stated times keep their order; of entries at one time ours stand first. Only where both changed the same " +
    "fact, or one removed what the other corrected, do both versions stay, between the usual marks. " +
    "The result takes the place of OURS. Ends with 0, with 1 if both versions stay somewhere, and with 2 if the files could not be read or joined: then nothing is written.",
  options: [
    { name: "path", value: "FILE", doc: "what the log is called, for messages" },
    { name: "marker-size", value: "N", doc: "how many signs a mark has, 7 if not said" },
    {
      name: "conflict-style",
      value: "STYLE",
      mayBeEmpty: true,
      doc: "merge; or diff3 or zdiff3, which show between the two versions what both were made of (git's merge.conflictStyle)",
    },
    { name: "ours", value: "NAME", mayBeEmpty: true, doc: "what our version is called at its mark" },
    { name: "theirs", value: "NAME", mayBeEmpty: true, doc: "what their version is called" },
    { name: "base", value: "NAME", mayBeEmpty: true, doc: "what both were made of is called" },
    { name: "print", doc: "print the result and write nothing" },
  ],
  examples: [
    ["standpipe merge base.tank ours.tank theirs.tank --print", "to look at what would come of it"],
    ["standpipe merge base.tank ours.tank theirs.tank", "ours.tank becomes the result"],
  ],
  run: runMerge,
};

function runMerge(call: Call): Status {
  const { words, world } = call;
  if (words.length !== 3) throw new Trouble("three files: standpipe merge BASE OURS THEIRS");
  const size = sizeOf(call.value("marker-size"));
  const shown = shownFrom(world.cwd, true);
  const paths = words.map((word) => resolve(world.cwd, word));
  const bytes = paths.map((path) => readBytes(path, shown(path)));
  const [base, ours, theirs] = bytes.map((each, at) => textOf(each, shown(paths[at]!)));
  const name = call.value("path") ?? shown(paths[1]!);
  const merged = mergeLogs(base!, ours!, theirs!, {
    markSize: size,
    showsBase: showsBase(call.value("conflict-style")),
    ...nameOf(call, "ours"),
    ...nameOf(call, "theirs"),
    ...nameOf(call, "base"),
  });
  if (merged === undefined)
    throw new Trouble(`${name}: the two versions could not be joined entry by entry; nothing was written`);
  if (call.has("print")) world.out.write(merged.text);
  else if (merged.text !== ours) replaceFile(paths[1]!, bytes[1]!, merged.text, shown);
  if (merged.conflicts === 0) return Status.clean;
  const places = plural(merged.conflicts, "place");
  world.err.write(`${plain(name)}: both sides changed the same in ${places}; both versions stay\n`);
  return Status.errors;
}

function sizeOf(written: string | undefined): number {
  if (written === undefined) return 7;
  const size = /^\d{1,3}$/.test(written) ? Number(written) : 0;
  if (size < 1) throw new Trouble(`--marker-size takes a number of signs, not “${written}”`);
  return size;
}

function showsBase(style: string | undefined): boolean {
  if (style === undefined || style === "" || style === "merge") return false;
  if (style === "diff3" || style === "zdiff3") return true;
  throw new Trouble(`--conflict-style takes merge, diff3 or zdiff3, not “${style}”`);
}

/** A git that knows no names for us (before 2.44) leaves its placeholders as they are. */
function nameOf<Side extends string>(call: Call, side: Side): Partial<Record<Side, string>> {
  const name = call.value(side);
  if (name === undefined || name === "" || /^%[SXY]$/.test(name)) return {};
  return { [side]: name } as Record<Side, string>;
}

function readBytes(path: string, shown: string): Buffer {
  try {
    return readFileSync(path);
  } catch (error) {
    throw new Trouble(troubleWith(shown, error));
  }
}
