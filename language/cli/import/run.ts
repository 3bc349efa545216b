import { readFileSync } from "node:fs";
import { basename, dirname, isAbsolute, join, resolve } from "node:path";
import { newDays } from "../../exchange/import/entry-lines.ts";
import { type Looked, lookAt } from "../../exchange/import/import.ts";
import { type Imported, importTable } from "../../exchange/import/import-table.ts";
import { KnownLog } from "../../exchange/import/known-log.ts";
import { type Mapping, mappingText, readMapping } from "../../exchange/import/mapping.ts";
import type { Proposal } from "../../exchange/import/propose.ts";
import { Refused } from "../../exchange/import/refused.ts";
import { isRejects, rejectsName, rejectsText } from "../../exchange/import/rejects-file.ts";
import { Cancelled, type TableFile, type Watch } from "../../exchange/import/table-file.ts";
import { unsettledIn, unsettledWords } from "../../exchange/import/unsettled.ts";
import { type FileWriting, writeDays } from "../../exchange/import/write-days.ts";
import type { Call } from "../command.ts";
import { type Shown, shownFrom } from "../files.ts";
import { type Opened, open } from "../open.ts";
import { Progress } from "../progress.ts";
import { printJson, tellUnread } from "../report.ts";
import type { ImportReport } from "../schema.ts";
import { listed, plain, plural } from "../text.ts";
import { Status, Trouble, troubleWith } from "../world.ts";
import { replaceFile } from "../write.ts";
import { printCounts, printProposal, printQuestions } from "./print.ts";
import { putNew, putOwn } from "./put.ts";
import { tableOnDisk } from "./table-on-disk.ts";

/** `standpipe import`. */
export async function runImport(call: Call): Promise<Status> {
  const [name, folder, ...others] = call.words;
  if (name === undefined) throw new Trouble("name a table: standpipe import FILE [DIR]");
  if (others.length > 0) throw new Trouble("one table and one folder: standpipe import FILE DIR");
  const { world } = call;
  const answers = answersOf(call);
  const shown = shownFrom(world.cwd, [name, folder ?? ""].some(isAbsolute));
  const file = await tableOnDisk(world, name === "-" ? name : resolve(world.cwd, name), shown);
  const mapping = mappingOf(call, shown, answers);
  const { logbooks, unread } = await open(call, [folder ?? "."]);
  const [opened, another] = logbooks;
  if (opened === undefined) throw new Trouble(`${folder ?? "."}: no log can be read here`);
  if (another !== undefined)
    throw new Trouble(`name one logbook: ${listed(logbooks.map((each) => each.folder))}`);
  // A file that could not be read may hold what would be written again.
  if (unread.length > 0) {
    tellUnread(call, unread);
    throw new Trouble(
      "nothing is imported while a part of the log cannot be read: what stands in it would be written twice",
    );
  }
  const unsettled = unsettledIn(opened.checked.logbook);
  if (unsettled !== undefined) throw new Trouble(unsettledWords(shown(unsettled.path), unsettled.line));
  const work = new Work(call, opened, file, shown, name === "-" ? name : shown(resolve(world.cwd, name)));
  try {
    return await work.run(mapping, answers);
  } catch (error) {
    if (error instanceof Cancelled) throw new Trouble(error.message);
    if (!(error instanceof Refused)) throw error;
    return work.refused(error.message);
  }
}

function answersOf(call: Call): Map<string, string> {
  const answers = new Map<string, string>();
  for (const line of (call.value("answer") ?? "").split("\n")) {
    if (line.trim() === "") continue;
    // A head may hold “=”; no answer does.
    const at = line.lastIndexOf("=");
    if (at < 1) throw new Trouble(`--answer takes ID=VALUE, as tank=dam, not “${line}”`);
    answers.set(line.slice(0, at).trim(), line.slice(at + 1).trim());
  }
  return answers;
}

function mappingOf(call: Call, shown: Shown, answers: ReadonlyMap<string, string>): Mapping | undefined {
  const name = call.value("map");
  if (name === undefined) return undefined;
  if (answers.size > 0)
    throw new Trouble("answers stand in the mapping already; leave --answer or --map out");
  const path = resolve(call.world.cwd, name);
  let text: string;
  try {
    text = readFileSync(path, "utf8");
  } catch (error) {
    throw new Trouble(troubleWith(shown(path), error));
  }
  try {
    return readMapping(text);
  } catch (error) {
    throw new Trouble(`${shown(path)}: ${(error as Error).message}`);
  }
}

/** One import, from the table to the files. */
class Work {
  private readonly call: Call;
  private readonly opened: Opened;
  private readonly file: TableFile;
  private readonly shown: Shown;
  private readonly tableName: string;
  private looked: Looked | undefined;
  private proposal: Proposal | undefined;
  private isStopped = false;

  constructor(call: Call, opened: Opened, file: TableFile, shown: Shown, tableName: string) {
    this.call = call;
    this.opened = opened;
    this.file = file;
    this.shown = shown;
    this.tableName = tableName;
  }

  async run(given: Mapping | undefined, answers: ReadonlyMap<string, string>): Promise<Status> {
    const { call } = this;
    const log = new KnownLog(this.opened.checked.logbook);
    const progress = new Progress(call.world.err, call.world.env.TERM === "dumb");
    const stop = (): void => {
      this.isStopped = true;
    };
    process.once("SIGINT", stop);
    const watch: Watch = {
      step: (what, done, of) =>
        progress.step(what.replace("bytes", "kB"), Math.ceil(done / 1000), Math.ceil(of / 1000)),
      isCancelled: () => this.isStopped,
    };
    let imported: Imported;
    let mapping: Mapping;
    try {
      if (given === undefined) {
        this.looked = await lookAt(this.file, log.names, watch);
        this.proposal = this.looked.propose(answers);
      }
      const found = given ?? this.proposal?.mapping;
      if (found === undefined) {
        progress.end();
        return this.open();
      }
      mapping = found;
      imported = await importTable(this.file, mapping, log, watch);
    } finally {
      progress.end();
      process.off("SIGINT", stop);
    }
    // From here on nothing waits: what is begun is written.
    const writings = writeDays(this.opened.checked.logbook, newDays(imported, this.file.name));
    const rejects =
      imported.rejects.length === 0 ? null : this.besideLog(rejectsName(basename(this.file.name)));
    const isDry = call.has("dry-run");
    if (!isDry) this.write(mapping, imported, writings, rejects);
    const report: ImportReport = {
      ...this.head(imported.said),
      refused: null,
      questions: [],
      mapping,
      rows: imported.rows,
      values: imported.values,
      written: !isDry && writings.length > 0,
      files: writings.map((each) => ({ file: this.shown(each.path), new: each.isNew, lines: each.lines })),
      rejects: {
        file: rejects === null ? null : this.shown(rejects),
        rows: imported.rejects.slice(0, 100).map(({ line, why }) => ({ line, why })),
      },
    };
    if (call.has("json")) printJson(call.world, report);
    else {
      this.printHead(imported.said);
      printCounts(call, report, imported.rows, isDry);
    }
    return imported.rows.rejected > 0 ? Status.errors : Status.clean;
  }

  refused(why: string): Status {
    const { call } = this;
    if (call.has("json")) {
      const report: ImportReport = {
        ...this.head(this.looked?.said ?? ""),
        ...nothing,
        refused: why,
        questions: [],
      };
      printJson(call.world, report);
      return Status.couldNotRun;
    }
    throw new Trouble(`${this.tableName}: ${why}`);
  }

  private open(): Status {
    const { call } = this;
    const { questions } = this.proposal!;
    if (call.has("json")) {
      const head = this.head(this.looked!.said);
      const report: ImportReport = { ...head, ...nothing, refused: null, questions: asked(questions) };
      printJson(call.world, report);
    } else {
      this.printHead(this.looked!.said);
      printQuestions(call, questions, this.tableName);
    }
    return Status.errors;
  }

  private head(
    said: string,
  ): Pick<ImportReport, "standpipe" | "command" | "table" | "said" | "columns" | "reasons" | "unread"> {
    return {
      standpipe: 1,
      command: "import",
      table: this.tableName,
      said,
      columns: (this.proposal?.columns ?? []).map((each) => ({ ...each })),
      reasons: (this.proposal?.reasons ?? []).map((each) => ({ ...each })),
      unread: [],
    };
  }

  private printHead(said: string): void {
    const { world, terminal } = this.call;
    const rows = this.looked === undefined ? "" : `, ${plural(this.looked.survey.rows, "row")}`;
    world.out.write(
      `${terminal.paint("strong", plain(this.tableName))}${rows}${said === "" ? "" : `; ${plain(said)}`}\n`,
    );
    if (this.proposal !== undefined) printProposal(this.call, this.proposal);
  }

  private besideLog(name: string): string {
    const { cwd } = this.call.world;
    const { logbook } = this.opened.checked;
    const room = [...logbook.sources.values()].find(({ blocks }) =>
      blocks.some(({ definition }) => definition?.word === "room"),
    );
    return room === undefined ? resolve(cwd, name) : join(dirname(resolve(cwd, room.path)), name);
  }

  private write(
    mapping: Mapping,
    imported: Imported,
    writings: readonly FileWriting[],
    rejects: string | null,
  ): void {
    const { call, shown } = this;
    const map = call.value("write-map");
    if (map !== undefined) putOwn(resolve(call.world.cwd, map), mappingText(mapping), isMapping, shown);
    if (rejects !== null) putOwn(rejects, rejectsText(imported, this.file.name), isRejects, shown);
    const done: string[] = [];
    try {
      for (const writing of writings) {
        this.writeOne(writing);
        done.push(shown(writing.path));
      }
    } catch (error) {
      if (!(error instanceof Trouble) || done.length === 0) throw error;
      throw new Trouble(
        `${error.message}; written before it: ${listed(done)}. Import again for the rest: only what is new is added`,
      );
    }
  }

  private writeOne(writing: FileWriting): void {
    if (writing.isNew) {
      putNew(writing.path, writing.text, this.shown);
      return;
    }
    const { text } = this.opened.checked.logbook.sources.get(writing.path)!;
    let made = "";
    let at = 0;
    for (const edit of [...writing.edits].sort((a, b) => a.start - b.start)) {
      made += text.slice(at, edit.start) + edit.text;
      at = edit.end;
    }
    replaceFile(writing.path, Buffer.from(text, "utf8"), made + text.slice(at), this.shown);
  }
}

const nothing = {
  mapping: null,
  rows: null,
  values: null,
  written: false,
  files: [],
  rejects: { file: null, rows: [] },
};

const asked = (questions: Proposal["questions"]): ImportReport["questions"] =>
  questions.map(({ id, asks, choices, hint }) => ({ id, asks, choices: [...choices], hint }));

function isMapping(text: string): boolean {
  try {
    readMapping(text);
    return true;
  } catch {
    return false;
  }
}
