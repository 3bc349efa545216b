import { isAbsolute, relative, resolve } from "node:path";
import { stripVTControlCharacters } from "node:util";
import type { Finding, Severity } from "../../checks/finding.ts";
import { baselineOf, readBaseline, sortByBaseline, writeBaseline } from "../check/baseline.ts";
import { githubLine, githubTrouble } from "../check/github.ts";
import { countsText, FindingPrinter } from "../check/print.ts";
import { sarifOf } from "../check/sarif.ts";
import { asOfOption, type Call, type Command, jsonOption } from "../command.ts";
import { shownFrom, slashed } from "../files.ts";
import { type Opened, type Opening, open } from "../open.ts";
import { openStaged } from "../open-staged.ts";
import { entriesOf, findingReport, logbookReport, printJson, tellUnread } from "../report.ts";
import type { BaselineEntry } from "../schema/baseline.ts";
import type { CheckReport } from "../schema.ts";
import { plain, plural, wrap } from "../text.ts";
import { version } from "../version.ts";
import { Status, Trouble } from "../world.ts";

const severities = ["error", "warning", "information", "hint"] as const;

export const check: Command = {
  word: "check",
  takes: "[DIR|FILE|-] ...",
  summary: "all findings: what cannot be read, what is out of range, what is late",
  about:
    "Checks every logbook at and below a folder, the logbook a file belongs to, or with “-” what comes on standard input. " +
    "Ends with 0 if there is no error, 1 if there is one, 2 if something could not be read.",
  options: [
    {
      name: "severity",
      value: "LEVEL",
      choices: severities,
      doc: "show findings from this level on: error, warning, information (the default), hint",
    },
    { name: "strict", doc: "warnings too end with 1" },
    {
      name: "format",
      value: "FORM",
      choices: ["text", "github", "sarif"],
      doc: "text; github, for the log of a workflow; sarif, for code scanning",
    },
    {
      name: "baseline",
      value: "FILE",
      doc: "findings that stand in this file are known: they are not shown and do not count",
    },
    {
      name: "write-baseline",
      value: "FILE",
      doc: "write all findings of this run down as known, and end with 0",
    },
    {
      name: "staged",
      doc: "check what is staged in git and not the files: what the last commit had already does not count",
    },
    jsonOption,
    asOfOption,
  ],
  examples: [
    ["standpipe check", "the logbook in this folder"],
    ["standpipe check samples/cellar --severity error", "only what keeps a line out of the book"],
    ["standpipe check --strict --format github", "in a workflow, where a warning should stop the merge"],
    ["standpipe check --write-baseline known.json", "once: what is there now is known from here on"],
    ["standpipe check --baseline known.json --format github", "in a workflow: only what is new"],
    ["standpipe check --staged --severity error", "before a commit; standpipe git sets it up"],
    ["git show HEAD:room.tank | standpipe check -", "a log that is in no folder"],
  ],
  run: runCheck,
};

/** A finding with the logbook it is in. */
interface Found {
  readonly opened: Opened;
  readonly finding: Finding;
}

async function runCheck(call: Call): Promise<Status> {
  const form = formOf(call);
  const shownPath = shownFrom(call.world.cwd, false);
  const baselinePath = call.value("baseline");
  const known =
    baselinePath === undefined ? [] : readBaseline(resolve(call.world.cwd, baselinePath), shownPath);
  const { opening, before } = await openAsked(call);
  const every = foundIn(call, opening);
  const writeTo = call.value("write-baseline");
  const least = severities.indexOf((call.value("severity") ?? "information") as Severity);
  if (writeTo !== undefined) return writeKnown(call, opening, every, least, writeTo);
  const old = sortByBaseline(every, ({ finding }) => finding, known);
  // What stood in the last commit is not the fault of the next.
  const { fresh: all } = sortByBaseline(
    old.fresh,
    ({ finding }) => finding,
    before === undefined ? [] : baselineOf(foundIn(call, before).map(({ finding }) => finding)),
  );
  const baseline: Known | undefined = baselinePath === undefined ? undefined : { file: baselinePath, ...old };
  const counts: Record<Severity, number> = { error: 0, warning: 0, information: 0, hint: 0 };
  for (const { finding } of all) counts[finding.severity]++;
  const shown = all.filter(({ finding }) => severities.indexOf(finding.severity) <= least);
  const isBad = counts.error > 0 || (call.has("strict") && counts.warning > 0);
  const status = opening.unread.length > 0 ? Status.couldNotRun : isBad ? Status.errors : Status.clean;
  printers[form](call, opening, shown, counts, status, baseline);
  if (baseline !== undefined && form !== "json") tellBaseline(call, baseline);
  return status;
}

/** What a baseline did. */
interface Known {
  readonly file: string;
  readonly known: number;
  readonly gone: readonly BaselineEntry[];
}

async function openAsked(call: Call): Promise<{ opening: Opening; before: Opening | undefined }> {
  if (!call.has("staged")) return { opening: await open(call, call.words), before: undefined };
  if (call.words.length > 1 || call.words[0] === "-")
    throw new Trouble("--staged checks one repository: name a folder in it, or nothing");
  const { now, before } = openStaged(call, call.words[0] ?? ".");
  return { opening: now, before };
}

function foundIn(call: Call, { logbooks }: Opening): Found[] {
  return logbooks.flatMap((opened) =>
    opened.checked
      .findings(call.world.day)
      .filter((finding) => opened.isAsked(finding.block.file))
      .map((finding): Found => ({ opened, finding })),
  );
}

/** Nothing is written if a file could not be read: what is in it would be new the next time. */
function writeKnown(
  call: Call,
  { unread }: Opening,
  all: readonly Found[],
  least: number,
  to: string,
): Status {
  tellUnread(call, unread);
  if (unread.length > 0) {
    call.world.err.write("no baseline was written, as not every file could be read\n");
    return Status.couldNotRun;
  }
  const kept = all
    .map(({ finding }) => finding)
    .filter(({ severity }) => severities.indexOf(severity) <= least);
  const shown = shownFrom(call.world.cwd, true);
  const path = resolve(call.world.cwd, to);
  writeBaseline(path, shown, baselineOf(kept));
  call.world.err.write(`${plural(kept.length, "finding")} written to ${plain(shown(path))} as known\n`);
  return Status.clean;
}

/** At most so many of what no longer occurs are named. */
const mostNamed = 5;

function tellBaseline({ world }: Call, { file, known, gone }: Known): void {
  const lines = [`${plural(known, "finding")} known from ${plain(file)}, not counted`];
  if (gone.length > 0) {
    const count = gone.reduce((sum, each) => sum + each.count, 0);
    lines.push(
      `${plural(count, "finding")} of it no longer ${count === 1 ? "occurs" : "occur"}; --write-baseline writes it anew:`,
    );
    for (const { code, day, text } of gone.slice(0, mostNamed))
      lines.push(`  ${code}  ${day === "" ? "" : `${day}  `}${plain(text)}`);
    if (gone.length > mostNamed) lines.push(`  and ${gone.length - mostNamed} more`);
  }
  world.err.write(`${lines.join("\n")}\n`);
}

type Form = "text" | "github" | "sarif" | "json";

function formOf(call: Call): Form {
  const stated = call.value("format") as Form | undefined;
  if (call.has("json") && stated !== undefined) throw new Trouble("--json and --format do not go together");
  return call.has("json") ? "json" : (stated ?? "text");
}

type Printer = (
  call: Call,
  opening: Opening,
  shown: readonly Found[],
  counts: Readonly<Record<Severity, number>>,
  status: Status,
  baseline: Known | undefined,
) => void;

const printers: Readonly<Record<Form, Printer>> = {
  text(call, opening, shown, counts) {
    const { terminal, world } = call;
    const printer = new FindingPrinter(terminal);
    const parts = shown.map(({ opened, finding }) => printer.print(opened, finding));
    parts.push(`${summary(call, opening, counts, shown.length)}\n`);
    world.out.write(parts.join("\n"));
    tellUnread(call, opening.unread);
  },
  json({ world }, { logbooks, unread }, shown, counts, _status, baseline) {
    const report: CheckReport = {
      standpipe: 1,
      command: "check",
      logbooks: logbooks.map((opened) => logbookReport(opened, world.day)),
      findings: shown.map(({ opened, finding }) => findingReport(opened, finding)),
      counts,
      unread: [...unread],
      ...(baseline === undefined
        ? {}
        : { baseline: { file: baseline.file, known: baseline.known, gone: [...baseline.gone] } }),
    };
    printJson(world, report);
  },
  github(call, opening, shown, counts) {
    const fileOf = fromRepository(call);
    for (const { opened, finding } of shown) {
      const report = findingReport(opened, finding);
      call.world.out.write(`${githubLine(report, fileOf(report.place.file))}\n`);
    }
    for (const { file, message } of opening.unread)
      call.world.out.write(`${githubTrouble(fileOf(file), message)}\n`);
    call.world.err.write(`${summary(call, opening, counts, shown.length)}\n`);
  },
  sarif(call, opening, shown, _counts, status) {
    const report = sarifOf({
      version,
      findings: shown.map(({ opened, finding }) => findingReport(opened, finding)),
      unread: opening.unread,
      status,
      fileOf: fromRepository(call),
    });
    call.world.out.write(`${JSON.stringify(report, null, 2)}\n`);
    tellUnread(call, opening.unread);
  },
};

/** Files as a service that knows the repository names them: from its root, which is where a workflow checked it out, or the folder of the call. */
function fromRepository({ world }: Call): (shown: string) => string {
  const root = world.env.GITHUB_WORKSPACE || world.cwd;
  return (shown) => {
    const path = resolve(world.cwd, shown);
    const inside = relative(root, path);
    return slashed(inside.startsWith("..") || isAbsolute(inside) ? path : inside);
  };
}

function summary(
  { terminal }: Call,
  { logbooks, unread }: Opening,
  counts: Readonly<Record<Severity, number>>,
  shown: number,
): string {
  let files = 0;
  let entries = 0;
  for (const { checked } of logbooks) {
    files += checked.logbook.sources.size;
    entries += entriesOf(checked.logbook);
  }
  const books = logbooks.length > 1 ? `${plural(logbooks.length, "logbook")}, ` : "";
  const read = `${books}${plural(files, "file")}, ${plural(entries, "entry", "entries")}`;
  const found = countsText(counts, terminal);
  const hidden = counts.error + counts.warning + counts.information + counts.hint - shown;
  const more = hidden === 0 ? "" : terminal.paint("faint", ` (${hidden} not shown: --severity hint)`);
  const missing =
    unread.length === 0 ? "" : terminal.paint("error", `; ${plural(unread.length, "file")} not read`);
  const verdict =
    found === "" ? terminal.paint(unread.length === 0 ? "good" : "strong", "No findings") : found;
  const line = `${verdict} in ${read}${missing}${more}`;
  const bare = stripVTControlCharacters(line);
  const columns = terminal.columns ?? Number.POSITIVE_INFINITY;
  return bare.length <= columns ? line : wrap(bare, columns).join("\n");
}
