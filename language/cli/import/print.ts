import type { Question } from "../../exchange/import/asking.ts";
import type { Counts } from "../../exchange/import/import-table.ts";
import type { Proposal } from "../../exchange/import/propose.ts";
import type { Call } from "../command.ts";
import type { ImportReport } from "../schema/import.ts";
import { padEnd, plain, plural, widthOf, wrap } from "../text.ts";

/** What an import tells on the terminal. */

const widest = 34;
const rejectsShown = 10;

/** What each column is taken for, and why. */
export function printProposal({ world, terminal }: Call, { columns, reasons }: Proposal): void {
  const taken = columns.filter(({ as }) => as !== "ignored");
  const width = Math.min(widest, Math.max(...columns.map(({ head }) => widthOf(plain(head))), 6));
  const paper = terminal.columns ?? 100;
  for (const { at, head, as } of taken)
    world.out.write(`  ${padEnd(`#${at}`, 4)} ${padEnd(shortened(plain(head), width), width)}  ${as}\n`);
  const left = columns.filter(({ as }) => as === "ignored");
  if (left.length > 0) {
    const words = left.map(({ head, why }) => `${plain(shortened(head, widest))} (${plain(why)})`).join("; ");
    for (const line of wrap(`ignored: ${words}`, paper, "  ", "    "))
      world.out.write(`${terminal.paint("faint", line)}\n`);
  }
  for (const { about, says, sureness } of reasons)
    for (const line of wrap(
      `${plain(shortened(about, widest))}: ${plain(says)}${sureness === "likely" ? " (likely)" : ""}`,
      paper,
      "  ",
      "    ",
    ))
      world.out.write(`${terminal.paint("faint", line)}\n`);
}

export function printQuestions(
  { world, terminal }: Call,
  questions: readonly Question[],
  table: string,
): void {
  const paper = terminal.columns ?? 100;
  world.out.write(
    `\n${terminal.paint("strong", `${plural(questions.length, "question is", "questions are")} open; nothing was imported`)}\n`,
  );
  for (const { id, asks, choices, hint } of questions) {
    for (const line of wrap(plain(asks), paper, "  ", "    ")) world.out.write(`${line}\n`);
    const answers = choices.length === 0 ? "..." : choices.map(plain).join(" | ");
    for (const line of wrap(`--answer ${quotedForShell(plain(id))}=${answers}`, paper, "    ", "      "))
      world.out.write(`${terminal.paint("information", line)}\n`);
    if (hint !== "")
      for (const line of wrap(plain(hint), paper, "    ", "    "))
        world.out.write(`${terminal.paint("faint", line)}\n`);
  }
  world.out.write(
    `\n${terminal.paint("faint", `Answers go behind the call: standpipe import ${quotedForShell(plain(table))} --answer ID=VALUE ...; --write-map keeps them for the next time.`)}\n`,
  );
}

const quotedForShell = (text: string): string =>
  /^[\w:#./*-]+$/.test(text) ? text : `"${text.replace(/["\\$`]/g, "\\$&")}"`;
const shortened = (text: string, width: number): string =>
  widthOf(text) <= width ? text : `${[...text].slice(0, width - 1).join("")}…`;

export function printCounts(
  { world, terminal }: Call,
  report: ImportReport,
  rows: Counts,
  isDry: boolean,
): void {
  const of = [
    [rows.known, "in the log already"],
    [rows.thinned, "thinned"],
    [rows.empty, "without a reading"],
    [rows.leftOut, "left out by the mapping"],
    [rows.twice, "twice in the table"],
  ] as const;
  const skipped = of.filter(([count]) => count > 0).map(([count, what]) => `${number(count)} ${what}`);
  world.out.write(
    `${plural(rows.read, "row")} read = ${number(rows.imported)} imported + ${number(rows.skipped)} skipped${skipped.length > 0 ? ` (${skipped.join(", ")})` : ""} + ${number(rows.rejected)} rejected\n`,
  );
  for (const { file, new: isNew, lines } of report.files)
    world.out.write(`  ${plain(file)}: ${plural(lines, "line")}${isNew ? ", a new file" : ""}\n`);
  for (const { line, why } of report.rejects.rows.slice(0, rejectsShown))
    world.err.write(`  ${terminal.paint("error", `line ${line}`)}  ${plain(why)}\n`);
  if (rows.rejected > rejectsShown)
    world.err.write(`  ${terminal.paint("faint", `and ${number(rows.rejected - rejectsShown)} more`)}\n`);
  if (report.rejects.file !== null)
    world.err.write(
      `Rejected rows ${isDry ? "would stand" : "stand"} in ${plain(report.rejects.file)}; mend them and import that file with the same mapping\n`,
    );
  const is =
    rows.imported === 0
      ? terminal.paint("good", "Nothing is new")
      : isDry
        ? terminal.paint("strong", "Nothing was written (--dry-run)")
        : terminal.paint("good", "Written");
  world.out.write(`${is}\n`);
}

const number = (count: number): string => String(count).replace(/\B(?=(\d{3})+$)/g, ",");
