import { CheckedLogbook } from "../../language/checks/check.ts";
import { newDays } from "../../language/exchange/import/entry-lines.ts";
import { lookAt } from "../../language/exchange/import/import.ts";
import { type Imported, importTable } from "../../language/exchange/import/import-table.ts";
import { KnownLog } from "../../language/exchange/import/known-log.ts";
import type { Mapping } from "../../language/exchange/import/mapping.ts";
import type { Proposal } from "../../language/exchange/import/propose.ts";
import { type TableFile, tableOfBytes } from "../../language/exchange/import/table-file.ts";
import { writeDays } from "../../language/exchange/import/write-days.ts";

/** A table into a log, as the terminal and the editor do it, without either. */

export const smallRoom = `room "Shed"
  units  temperature C, concentration mg/L

tank dam "Rainbowfish dam"
  volume  300 L
  limits  temperature 20..26 C, pH 6..8
tank r1
  volume  20 L
tank r2
  volume  20 L
tank r3
  volume  20 L
tank r4
  volume  20 L
group low = r1 .. r4
`;

export type Files = Readonly<Record<string, string>>;
export const roomFiles: Files = { "room.tank": smallRoom };

export function logOf(files: Files = roomFiles): CheckedLogbook {
  const checked = new CheckedLogbook();
  for (const [path, text] of Object.entries(files)) checked.logbook.set(path, text);
  checked.logbook.refresh();
  return checked;
}

/** Its bytes in parts of a size that cuts wherever it may. */
export const tableOf = (table: string | Uint8Array, name = "table.csv", partBytes = 1 << 16): TableFile =>
  tableOfBytes(name, typeof table === "string" ? new TextEncoder().encode(table) : table, partBytes);

/** `id=value` each, as the terminal takes them. */
export const answersOf = (answers: readonly string[]): Map<string, string> =>
  new Map(
    answers.map((answer) => [
      answer.slice(0, answer.lastIndexOf("=")),
      answer.slice(answer.lastIndexOf("=") + 1),
    ]),
  );

export async function proposed(
  table: string | Uint8Array,
  answers: readonly string[] = [],
  name?: string,
  files: Files = roomFiles,
): Promise<Proposal> {
  const looked = await lookAt(tableOf(table, name), new KnownLog(logOf(files).logbook).names);
  return looked.propose(answersOf(answers));
}

export interface Done extends Imported {
  /** All files of the log afterwards. */
  readonly files: Files;
  /** Only what was not there before, without blank lines. */
  readonly lines: readonly string[];
}

export async function imported(
  table: string | Uint8Array | TableFile,
  how: readonly string[] | Mapping,
  files: Files = roomFiles,
): Promise<Done> {
  const { logbook } = logOf(files);
  const log = new KnownLog(logbook);
  const file = typeof table === "string" || table instanceof Uint8Array ? tableOf(table) : table;
  let mapping: Mapping;
  if (Array.isArray(how)) {
    const proposal = (await lookAt(file, log.names)).propose(answersOf(how));
    if (proposal.mapping === undefined)
      throw new Error(`open: ${proposal.questions.map(({ id }) => id).join(", ")}`);
    mapping = proposal.mapping;
  } else mapping = how as Mapping;
  const done = await importTable(file, mapping, log);
  const after: Record<string, string> = { ...files };
  const lines: string[] = [];
  for (const writing of writeDays(logbook, newDays(done, file.name))) {
    const before = files[writing.path] ?? "";
    after[writing.path] = writing.isNew ? writing.text : applied(before, writing.edits);
    const old = new Set(before.split(/\r?\n/));
    lines.push(...after[writing.path]!.split(/\r?\n/).filter((line) => line.trim() !== "" && !old.has(line)));
  }
  return { ...done, files: after, lines: lines.map((line) => line.replace(/(\S) {2,}/g, "$1 ")) };
}

function applied(text: string, edits: readonly { start: number; end: number; text: string }[]): string {
  let made = "";
  let at = 0;
  for (const edit of [...edits].sort((a, b) => a.start - b.start)) {
    made += text.slice(at, edit.start) + edit.text;
    at = edit.end;
  }
  return made + text.slice(at);
}

/** Rows always add up, and so do readings. */
export function addsUp({ rows, values, rejects, rejectsDropped }: Imported): boolean {
  return (
    rows.read === rows.imported + rows.skipped + rows.rejected &&
    rows.skipped === rows.empty + rows.known + rows.thinned + rows.leftOut + rows.twice &&
    rows.rejected === rejects.length + rejectsDropped &&
    values.found === values.written + values.known + values.thinned &&
    Object.values(rows).every((count) => count >= 0) &&
    Object.values(values).every((count) => count >= 0)
  );
}
