import type { Answers } from "./asking.ts";
import { type Cut, Cutter, mostInRow } from "./cutter.ts";
import { type Layout, layoutOf } from "./layout.ts";
import { type Proposal, propose } from "./propose.ts";
import type { KnownPlace } from "./propose-tanks.ts";
import { Refused } from "./refused.ts";
import { type Survey, surveyOf } from "./survey.ts";
import { findEncoding, type TableFile, textOf, type Watch } from "./table-file.ts";

/** A table that was looked at: what is proposed of it can be asked again with other answers, without reading it again. */
export interface Looked {
  readonly layout: Layout;
  readonly survey: Survey;
  readonly said: string;
  propose(answers: Answers): Proposal;
}

const letters = 1 << 18;

/** Reads a table once. Throws `Refused` for what is none. */
export async function lookAt(
  file: TableFile,
  places: readonly KnownPlace[],
  watch: Watch = {},
): Promise<Looked> {
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
  return { layout, survey, said, propose: (answers) => propose(survey, file.name, places, answers) };
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
