import { isAbsolute, relative, resolve } from "node:path";
import { stripVTControlCharacters } from "node:util";
import type { Finding, Severity } from "../../checks/finding.ts";
import { githubLine, githubTrouble } from "../check/github.ts";
import { countsText, FindingPrinter } from "../check/print.ts";
import { sarifOf } from "../check/sarif.ts";
import { asOfOption, type Call, type Command, jsonOption } from "../command.ts";
import { slashed } from "../files.ts";
import { type Opened, type Opening, open } from "../open.ts";
import { entriesOf, findingReport, logbookReport, printJson, tellUnread } from "../report.ts";
import type { CheckReport } from "../schema.ts";
import { plural, wrap } from "../text.ts";
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
    jsonOption,
    asOfOption,
  ],
  examples: [
    ["standpipe check", "the logbook in this folder"],
    ["standpipe check samples/cellar --severity error", "only what keeps a line out of the book"],
    ["standpipe check --strict --format github", "in a workflow, where a warning should stop the merge"],
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
  const opening = await open(call, call.words);
  const all = opening.logbooks.flatMap((opened) =>
    opened.checked
      .findings(call.world.day)
      .filter((finding) => opened.isAsked(finding.block.file))
      .map((finding): Found => ({ opened, finding })),
  );
  const counts: Record<Severity, number> = { error: 0, warning: 0, information: 0, hint: 0 };
  for (const { finding } of all) counts[finding.severity]++;
  const least = severities.indexOf((call.value("severity") ?? "information") as Severity);
  const shown = all.filter(({ finding }) => severities.indexOf(finding.severity) <= least);
  const isBad = counts.error > 0 || (call.has("strict") && counts.warning > 0);
  const status = opening.unread.length > 0 ? Status.couldNotRun : isBad ? Status.errors : Status.clean;
  printers[form](call, opening, shown, counts, status);
  return status;
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
  json({ world }, { logbooks, unread }, shown, counts) {
    const report: CheckReport = {
      standpipe: 1,
      command: "check",
      logbooks: logbooks.map((opened) => logbookReport(opened, world.day)),
      findings: shown.map(({ opened, finding }) => findingReport(opened, finding)),
      counts,
      unread: [...unread],
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
