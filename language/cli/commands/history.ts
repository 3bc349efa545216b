import { isoOf } from "../../book/dates.ts";
import type { LogText } from "../../history/match-lines.ts";
import { type Change, changesOf } from "../../history/review/changes.ts";
import { naming, ofValue, stepBack } from "../../history/review/trace.ts";
import { type Call, type Command, jsonOption } from "../command.ts";
import { changeReport } from "../diff/report.ts";
import { type Shown, shownFrom } from "../files.ts";
import { commitDay, historyText } from "../history/print.ts";
import { type Asked, askedOf, bookOf, folderOf, spotOf, unknownName } from "../history/subject.ts";
import { changesHistory, type Found, lineHistory } from "../history/walk.ts";
import { printJson } from "../report.ts";
import { textsAt } from "../repository/read.ts";
import {
  absolute,
  headOf,
  isShallow,
  type Repository,
  type Revision,
  repositoryOf,
  revisionOf,
  workingFiles,
} from "../repository/repository.ts";
import type { HistoryReport } from "../schema.ts";
import { Status, Trouble } from "../world.ts";

export const history: Command = {
  word: "history",
  takes: "FILE:LINE|NAME [DIR]",
  summary: "the history of one line, one tank, one value: what it was, and in which commit it changed",
  about:
    "Of a line, each commit that made it another, through moves between days and files and through files under another name. Of a tank, a system, " +
    "a gear or any other name, each commit that changed its entries or its definition. With --value only the changes of one value: a parameter, " +
    "a property, a species; entries that are no more than new are none. Merges are told only for what they made themselves of a line.",
  options: [
    { name: "value", value: "NAME", doc: "only changes of this value: pH, volume, cherry" },
    { name: "at", value: "A", doc: "as of a commit, branch, tag or day, not of the files as they are" },
    { name: "all", doc: "every change of every commit, however many" },
    jsonOption,
  ],
  examples: [
    ["standpipe history 2026-03.tank:12", "who wrote this line, and what it was before"],
    ["standpipe history dam --value pH", "when was a pH of dam put right"],
    ["standpipe history dam --value volume", "what dam was said to hold"],
  ],
  run: runHistory,
};

function runHistory(call: Call): Status {
  const { words, world, terminal } = call;
  const [word, folder, ...more] = words;
  if (word === undefined)
    throw new Trouble("of what? standpipe history FILE:LINE, or standpipe history TANK");
  if (more.length > 0)
    throw new Trouble(`one line or name, and one folder: standpipe history ${word} ${folder}`);
  const asked = askedOf(word);
  const path = folderOf(asked, world.cwd, folder);
  const here = shownFrom(world.cwd, false);
  const found = repositoryOf(world, path, here(path));
  // A line may have come from any file of the repository.
  const repository = asked.is === "line" ? { ...found, below: "" } : found;
  const shown: Shown = (each) => here(absolute(repository, each));
  const at = call.value("at");
  const start = at === undefined ? headOf(repository) : revisionOf(repository, at);
  const state = at === undefined ? workingFiles : start;
  const value = call.value("value");
  const isMeant = value === undefined ? () => true : ofValue(value);
  const told = tellOf(repository, asked, start, state, shown)
    .map(({ commit, changes }) => ({ commit, changes: changes.filter(isMeant) }))
    .filter(({ changes }) => changes.length > 0);
  const cut = isShallow(repository);
  if (call.has("json")) printJson(world, reportOf(word, value, told, cut, shown));
  else {
    const title = value === undefined ? word : `${word}, ${value}`;
    const asks = { all: call.has("all"), isShallow: cut, near: world.day };
    world.out.write(historyText(title, told, asks, terminal));
  }
  return Status.clean;
}

/** What is not committed yet first, then commit by commit. */
function tellOf(
  repository: Repository,
  asked: Asked,
  start: Revision,
  state: Revision,
  shown: Shown,
): Found[] {
  const { texts: now, unread } = textsAt(repository, state, shown);
  const committed = state === start ? now : textsAt(repository, start, shown).texts;
  const [was, is] = [filesOf(committed), filesOf(now)];
  const none = { commit: undefined };
  if (asked.is === "line") {
    const isAsked = (file: string): boolean =>
      file === asked.file || file === asked.file.replace(/^\.\//, "");
    const path = [...now.keys()].find((each) => isAsked(shown(each)));
    if (path === undefined) {
      const wrong = unread.find(({ file }) => isAsked(file));
      if (wrong !== undefined) throw new Trouble(wrong.message);
      const isGone = [...committed.keys()].some((each) => isAsked(shown(each)));
      throw new Trouble(
        `${asked.file}: there is no such log here${isGone ? " any more; with --at HEAD its lines are as they were committed last" : ""}`,
      );
    }
    const spot = spotOf(path, now.get(path)!, asked.line, asked.file);
    const step = state === start ? { change: undefined, earlier: spot } : stepBack(was, is, spot);
    const fresh: Found[] = step.change === undefined ? [] : [{ ...none, changes: [step.change] }];
    if (step.earlier === undefined || start.is !== "commit") return fresh;
    return [...fresh, ...lineHistory(repository, start.id, step.earlier)];
  }
  const book = bookOf(new Map([...committed, ...now]));
  const names = naming(asked.name, book);
  const changes = state === start ? [] : changesOf(was, is).list.filter(names);
  const fresh: Found[] = changes.length === 0 ? [] : [{ ...none, changes }];
  const found = start.is === "commit" ? [...fresh, ...changesHistory(repository, start.id, names)] : fresh;
  if (found.length === 0 && !book.names.has(asked.name) && asked.name !== "room")
    throw unknownName(asked.name, book);
  return found;
}

const filesOf = (texts: ReadonlyMap<string, string>): LogText[] =>
  [...texts].map(([path, text]) => ({ path, text }));

function reportOf(
  of: string,
  value: string | undefined,
  found: readonly Found[],
  isCut: boolean,
  shown: Shown,
): HistoryReport {
  return {
    standpipe: 1,
    command: "history",
    of,
    value: value ?? null,
    commits: found.map(({ commit, changes }) => ({
      commit: commit?.id ?? null,
      day: commit === undefined ? null : isoOf(commitDay(commit)),
      author: commit?.author ?? "",
      subject: commit?.subject ?? "",
      changes: changes.map((change: Change) => changeReport(change, [], change.day, shown)),
    })),
    isCut,
  };
}
