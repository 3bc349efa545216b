import type { CodePage } from "../../checks/code.ts";
import { codePages } from "../../checks/codes.ts";
import { findingPage } from "../../features/finding-page.ts";
import { didYouMean, nearest } from "../../quantity/nearest.ts";
import { type Call, type Command, jsonOption } from "../command.ts";
import { printJson } from "../report.ts";
import type { ExplainReport } from "../schema.ts";
import type { Terminal } from "../terminal.ts";
import { padEnd, wrap } from "../text.ts";
import { Status, Trouble } from "../world.ts";

export const explain: Command = {
  word: "explain",
  takes: "[CODE ...]",
  summary: "the page of a finding: what it says, what to do, a log that raises it",
  about:
    "Prints the page of each code, or of each family of codes. Without a code it lists them all. What stands on the pages is also " +
    "what a finding links to in the editor.",
  options: [
    { name: "all", doc: "every page" },
    { name: "markdown", doc: "as Markdown, for a manual" },
    jsonOption,
    { name: "schema", doc: "the form of what --json prints, as JSON Schema" },
  ],
  examples: [
    ["standpipe explain trend/crosses", "one page"],
    ["standpipe explain dose", "all pages about doses"],
    ["standpipe explain --all --markdown > findings.md", "the manual"],
  ],
  run: runExplain,
};

async function runExplain(call: Call): Promise<Status> {
  const { words, world, terminal } = call;
  if (call.has("schema")) {
    // Loaded for this alone: no other command needs more than its types.
    const { jsonSchema } = await import("../schema.ts");
    world.out.write(`${JSON.stringify(jsonSchema(), null, 2)}\n`);
    return Status.clean;
  }
  const isList = words.length === 0 && !call.has("all");
  const pages = words.length === 0 ? codePages : words.flatMap(pagesOf);
  if (call.has("json")) printJson(world, reportOf(pages));
  else if (isList && !call.has("markdown")) world.out.write(listOf(pages, terminal));
  else if (call.has("markdown")) world.out.write(manualOf(pages));
  else world.out.write(pages.map((page) => pageText(page, terminal)).join("\n"));
  return Status.clean;
}

function pagesOf(word: string): readonly CodePage[] {
  const found = codePages.filter(
    ({ code }) => code === word || code.startsWith(`${word.replace(/\/$/, "")}/`),
  );
  if (found.length > 0) return found;
  const codes = codePages.map(({ code }) => code);
  const families = codes.map((code) => code.slice(0, code.indexOf("/")));
  const near = didYouMean(nearest(word, [...codes, ...families]));
  throw new Trouble(
    `no finding has the code “${word}”${near === "" ? "; standpipe explain lists them" : near}`,
  );
}

function reportOf(pages: readonly CodePage[]): ExplainReport {
  return {
    standpipe: 1,
    command: "explain",
    pages: pages.map(({ code, severity, since, removed, title, says, whatToDo, raises, fine, source }) => ({
      code,
      severity,
      since,
      ...(removed === undefined ? {} : { removed }),
      title,
      says,
      whatToDo,
      raises,
      fine,
      ...(source === undefined ? {} : { source }),
    })),
  };
}

/** Longer lines than this are hard to read. */
const mostColumns = 88;

function listOf(pages: readonly CodePage[], terminal: Terminal): string {
  const widest = Math.max(...pages.map(({ code }) => code.length));
  const lines = pages.map(
    ({ code, severity, title }) =>
      `${padEnd(code, widest)}  ${terminal.paint(severity, padEnd(severity, "information".length))}  ${title}\n`,
  );
  return lines.join("");
}

function pageText(page: CodePage, terminal: Terminal): string {
  const columns = Math.min(terminal.columns ?? 80, mostColumns);
  const said = (text: string): string => wrap(text, columns).join("\n");
  const log = (text: string): string =>
    text
      .split("\n")
      .map((line) => `    ${terminal.paint(/^#.*\^/.test(line) ? page.severity : "faint", line)}`)
      .join("\n");
  const parts = [
    `${terminal.paint("strong", page.title)}  ${terminal.paint(page.severity, page.severity)}  ${terminal.paint("faint", `${page.code}, since ${page.since}`)}`,
    said(page.says),
    said(`What to do: ${page.whatToDo}`),
    `This log raises it; the marks below a line show where:\n${log(page.raises)}`,
    `This one just does not:\n${log(page.fine)}`,
  ];
  if (page.source !== undefined) parts.push(said(`Source: ${page.source}`));
  return `${parts.join("\n\n")}\n`;
}

/** One page as it is, or all of them below one another. */
function manualOf(pages: readonly CodePage[]): string {
  const [first, ...more] = pages.map(findingPage);
  if (first === undefined || more.length === 0) return first ?? "";
  return `# Findings\n\n${[first, ...more].map((page) => `#${page}`).join("\n")}`;
}
