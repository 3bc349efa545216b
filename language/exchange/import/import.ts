import type { Answers } from "./asking.ts";
import { type Cut, Cutter, mostInRow } from "./cutter.ts";
import type { KnownNames } from "./known-log.ts";
import { type Layout, layoutOf } from "./layout.ts";
import { type Proposal, propose } from "./propose.ts";
import { Refused } from "./refused.ts";
import { type Survey, surveyOf } from "./survey.ts";
import { findEncoding, type TableFile, tableOfBytes, textOf, type Watch } from "./table-file.ts";

/** A table that was looked at: what is proposed of it can be asked again with other answers, without reading it again. */
export interface Looked {
  readonly layout: Layout;
  readonly survey: Survey;
  readonly said: string;
  /**
   * @param isLenient an answer that is none is told beside its question
   * @param now what the log names by now
   */
  propose(answers: Answers, isLenient?: boolean, now?: KnownNames): Proposal;
  /** The table up to so many of its rows, as a table. */
  first(rows: number): TableFile;
}

const letters = 1 << 18;

/** Reads a table once. Throws `Refused` for what is none. */
export async function lookAt(file: TableFile, known: KnownNames, watch: Watch = {}): Promise<Looked> {
  const { encoding, said } = await findEncoding(file, watch);
  let beginning = "";
  let isWhole = true;
  for await (const part of textOf(file, encoding, "")) {
    beginning += part;
    if (beginning.length <= letters) continue;
    isWhole = false;
    // A line that is longer is shown to be one by reading on, within bounds.
    if (beginning.length > 1 << 22 || /[\r\n]/.test(beginning.slice(0, letters))) break;
    isWhole = true;
  }
  if (!/[\r\n]/.test(beginning.slice(0, mostInRow))) await refuseLongLine(file, encoding);
  const layout = layoutOf(beginning, isWhole);
  const survey = await surveyOf(file, encoding, layout, watch);
  return {
    layout,
    survey,
    said,
    propose: (answers, isLenient, now = known) => propose(survey, file.name, now, answers, isLenient),
    first: (rows) =>
      tableOfBytes(file.name, new TextEncoder().encode(firstRows(beginning, isWhole, layout, rows))),
  };
}

/** A text up to the end of so many rows, line by line as it is. */
function firstRows(text: string, isWhole: boolean, { delimiter, firstLine }: Layout, rows: number): string {
  const cuts = new Cutter(delimiter).cut(text, isWhole);
  let left = rows;
  const end = cuts.findIndex(({ line, raw }) => line >= firstLine && raw.trim() !== "" && --left === 0);
  const lines = end < 0 ? cuts : cuts.slice(0, end + 1);
  return lines.map(({ raw }) => `${raw}\n`).join("");
}

/** A file that begins with a line as long as no row is: how long, tells only its end. */
async function refuseLongLine(file: TableFile, encoding: string): Promise<void> {
  const cutter = new Cutter("fixed");
  for await (const part of textOf(file, encoding, "")) if (refuse(cutter.cut(part))) return;
  refuse(cutter.cut("", true));

  function refuse([first]: readonly Cut[]): boolean {
    if (first !== undefined && first.flaw !== "") throw new Refused(`line ${first.line}: ${first.flaw}`);
    return first !== undefined;
  }
}
