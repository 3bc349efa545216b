import { accessSync, constants, existsSync, mkdirSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { type Call, type Command, jsonOption } from "../command.ts";
import { kindOfPath, shownFrom } from "../files.ts";
import { printJson } from "../report.ts";
import { gitOut } from "../repository/git.ts";
import { repositoryOf } from "../repository/repository.ts";
import type { GitReport } from "../schema/git.ts";
import { attributesPart } from "../set-up/attributes.ts";
import { hookPart } from "../set-up/hook.ts";
import type { Part } from "../set-up/part.ts";
import { diffPart, mergePart } from "../set-up/settings.ts";
import { plain, wrap } from "../text.ts";
import { Status, Trouble, troubleWith } from "../world.ts";

export const gitCommand: Command = {
  word: "git",
  takes: "[DIR]",
  summary: "sets git up for logs: merges by entries, hunks with their day, a check before a commit",
  about:
    "Tells git, for the repository that DIR lies in, how to merge logs (.gitattributes, and a driver in the settings of this clone), what to show at the head of a hunk " +
    "(the day, or the definition; an entry names its tank itself), and to check what is staged before a commit. " +
    ".gitattributes is a file to commit; settings and hooks are of this clone alone, and each clone sets them up once. " +
    "Where the tool is missing git merges by lines as it would without it. Line ends stay as the repository has decided. " +
    "What is there stays, and --undo takes out what was put in. Ends with 1 if a part was refused or, with --status, is not set up.",
  options: [
    { name: "dry-run", doc: "say what would be done, and do nothing" },
    { name: "status", doc: "say what is set up" },
    { name: "undo", doc: "take out what was put in" },
    { name: "no-hook", doc: "no check before a commit" },
    jsonOption,
  ],
  examples: [
    ["standpipe git --dry-run", "what would be written, and where"],
    ["standpipe git", "sets up the repository of this folder"],
    ["standpipe git --undo", "as it was before"],
  ],
  run: runGit,
};

type Act = GitReport["parts"][number]["act"];

interface Done {
  readonly part: Part;
  readonly act: Act;
  readonly why: string;
}

function runGit(call: Call): Status {
  const { words, world } = call;
  if (words.length > 1) throw new Trouble("one folder: standpipe git DIR");
  const chosen = ["dry-run", "status", "undo"].filter((option) => call.has(option));
  if (chosen.includes("status") && chosen.length > 1)
    throw new Trouble("--status looks only: leave the others out");
  const shown = shownFrom(world.cwd, false);
  const folder = resolve(world.cwd, words[0] ?? ".");
  if (kindOfPath(folder, shown) === "file") throw new Trouble(`${shown(folder)}: name a folder`);
  const { root } = repositoryOf(world, folder, shown(folder));
  const common = folderOf(call, root, "--git-common-dir");
  const own = folderOf(call, root, "--git-dir");
  const isWorktree = common !== own;
  // What only undoing has to know; each work tree has attributes of its own.
  const note = join(own, "standpipe-made-attributes");
  const parts = [
    attributesPart(root, shown, existsSync(note), (isMade) => {
      if (isMade) writeFileSync(note, "standpipe git made .gitattributes; --undo may delete it\n");
    }),
    mergePart(world, root),
    diffPart(world, root),
    ...(call.has("no-hook") ? [] : [hookPart(world, root, common, shown)]),
  ];
  const isDry = call.has("dry-run") || call.has("status");
  if (!isDry) mayWrite(root, common, shown);
  const did = call.has("undo") ? "undo" : call.has("status") ? "status" : "set-up";
  const done = did === "undo" ? undo(parts, isDry) : did === "status" ? look(parts) : setUp(parts, isDry);
  if (did === "undo" && !isDry) rmSync(note, { force: true });
  tell(call, { did, written: !isDry, root: shown(root), isWorktree }, done);
  const isShort =
    did === "status" ? parts.some(({ state }) => state !== "set") : done.some(({ act }) => act === "refuse");
  return isShort ? Status.errors : Status.clean;
}

function folderOf({ world }: Call, root: string, what: string): string {
  const path = gitOut(world, root, ["rev-parse", what]).toString("utf8").replace(/\n$/, "");
  return realpathSync(resolve(root, path));
}

/** Before anything is written: all of it, or nothing. */
function mayWrite(root: string, common: string, shown: (path: string) => string): void {
  for (const folder of [root, common]) {
    try {
      accessSync(folder, constants.W_OK);
    } catch (error) {
      throw new Trouble(troubleWith(shown(folder), error));
    }
  }
  mkdirSync(common, { recursive: true });
}

const look = (parts: readonly Part[]): Done[] =>
  parts.map((part) => ({ part, act: "none", why: part.refused ?? "" }));

function setUp(parts: readonly Part[], isDry: boolean): Done[] {
  const put: Part[] = [];
  try {
    return parts.map((part): Done => {
      if (part.refused !== undefined) return { part, act: "refuse", why: part.refused };
      if (part.state === "set") return { part, act: "keep", why: "" };
      if (!isDry) {
        put.push(part);
        part.put();
      }
      return { part, act: part.state === "old" ? "renew" : "put", why: "" };
    });
  } catch (error) {
    const names = put.map(({ where }) => where).join(", ");
    if (error instanceof Trouble && put.length > 1)
      throw new Trouble(
        `${error.message}; up to there it is set up (${names}): standpipe git --undo takes it out`,
      );
    throw error;
  }
}

function undo(parts: readonly Part[], isDry: boolean): Done[] {
  return parts.map((part): Done => {
    if (part.state === "missing" || part.state === "foreign") return { part, act: "none", why: "" };
    const why = isDry ? undefined : part.take();
    return { part, act: why === undefined ? "take" : "refuse", why: why ?? "" };
  });
}

interface Run {
  readonly did: GitReport["did"];
  readonly written: boolean;
  readonly root: string;
  readonly isWorktree: boolean;
}

const titles: Readonly<Record<Part["name"], string>> = {
  attributes: "which files are logs",
  merge: "merging by entries",
  diff: "the day at the head of a hunk",
  hook: "a check before a commit",
};

const stateWords: Readonly<Record<Part["state"], string>> = {
  missing: "not set up",
  set: "set up",
  old: "set up by an earlier run, otherwise than now",
  foreign: "not ours",
};

function actWords(act: Act, isWritten: boolean, state: Part["state"]): string {
  switch (act) {
    case "put":
      return isWritten ? "set up" : "would be set up";
    case "renew":
      return isWritten ? "set up anew" : "would be set up anew";
    case "keep":
      return "is set up already";
    case "take":
      return isWritten ? "taken out" : "would be taken out";
    case "refuse":
      return "left alone";
    case "none":
      return stateWords[state];
  }
}

function tell(call: Call, run: Run, done: readonly Done[]): void {
  const { world, terminal } = call;
  if (call.has("json")) {
    const report: GitReport = {
      standpipe: 1,
      command: "git",
      repository: run.root,
      isWorktree: run.isWorktree,
      did: run.did,
      written: run.written,
      parts: done.map(({ part, act, why }) => ({
        part: part.name,
        where: part.where,
        state: part.state,
        act,
        lines: [...part.lines],
        why,
      })),
    };
    printJson(world, report);
    return;
  }
  const columns = terminal.columns ?? 88;
  const lines: string[] = [];
  for (const { part, act, why } of done) {
    const tone = act === "refuse" ? "error" : act === "none" ? "faint" : "good";
    const says = terminal.paint(tone, actWords(act, run.written, part.state));
    lines.push(`${terminal.paint("strong", titles[part.name])}: ${says}`, `  ${plain(part.where)}`);
    if (act === "put" || act === "renew")
      for (const line of part.lines) lines.push(terminal.paint("faint", `    ${plain(line)}`));
    if (why === "") continue;
    lines.push(...wrap(plain(why), columns, "  "));
    if (part.byHand !== undefined) lines.push(terminal.paint("faint", `    ${plain(part.byHand)}`));
  }
  if (run.did === "set-up" && done.some(({ part, act }) => part.name === "merge" && act !== "refuse"))
    lines.push(
      ...wrap(
        "Where the tool is missing, or cannot join two versions, git merges by lines as without it.",
        columns,
      ),
    );
  if (run.did === "set-up" && run.isWorktree)
    lines.push(
      ...wrap("This is one of several work trees: settings and hooks are those of all of them.", columns),
    );
  if (run.did === "set-up" && done.some(({ part, act }) => part.name === "attributes" && act === "put"))
    lines.push(...wrap("Commit .gitattributes; each clone runs standpipe git once for the rest.", columns));
  world.out.write(`${lines.join("\n")}\n`);
}
