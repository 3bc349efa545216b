import { acrossBy } from "./across.ts";
import { cellsOf, headCellsOf } from "./cells.ts";
import { type Cut, Cutter, ourMark } from "./cutter.ts";
import type { KnownLog } from "./known-log.ts";
import type { Mapping, Role } from "./mapping.ts";
import { columnsOf } from "./mapping-columns.ts";
import { Refused } from "./refused.ts";
import { findEncoding, type TableFile, textOf, type Watch } from "./table-file.ts";

/** Whether a mapping is for a table and for a log. */

const headLinesLooked = 400;

/** Whether a mapping is for this table and this log. Throws `Cancelled` when it is stopped. */
export async function fits(
  file: TableFile,
  mapping: Mapping,
  log: KnownLog,
  watch: Watch = {},
): Promise<boolean> {
  try {
    checkPlaces(mapping, log);
    const { encoding } = await findEncoding(file, watch);
    await findTop(file, encoding, mapping);
    return true;
  } catch (error) {
    if (error instanceof Refused) return false;
    throw error;
  }
}

/** A mapping may be older than the log. */
export function checkPlaces({ tank, columns }: Mapping, log: KnownLog): void {
  const names = new Set(log.places.map(({ name }) => name));
  const asked = [
    ...("name" in tank ? [tank.name] : "names" in tank ? Object.values(tank.names) : []),
    ...columns.flatMap((role) => ("tank" in role && role.tank !== undefined ? [role.tank] : [])),
  ];
  const unknown = asked.find((name) => name !== "ignore" && !names.has(name));
  if (unknown !== undefined)
    throw new Refused(`the mapping names “${unknown}”, which is no tank or system of this log`);
  const { foods, species } = log.names;
  const isNone = (name: string, of: readonly { readonly name: string }[]): boolean =>
    name !== "ignore" && name !== "none" && !of.some((each) => each.name === name);
  for (const role of columns) {
    const [names, of, what] = namedBy(role, foods, species);
    const none = names.find((name) => isNone(name, of));
    if (none !== undefined) throw new Refused(`the mapping names “${none}”, which is no ${what} of this log`);
  }
}

type Names = readonly { readonly name: string }[];

/** What a role names, and among what. */
function namedBy(
  role: Role,
  foods: Names,
  species: Names,
): [names: readonly string[], of: Names, what: string] {
  if (role.as === "feed")
    return [
      [role.food, ...Object.values(role.foods?.names ?? {})].flatMap((each) => each ?? []),
      foods,
      "food",
    ];
  if (role.as === "fed") return [Object.values(role.names), foods, "food"];
  if (role.as === "count" || role.as === "lose")
    return [
      [role.species, ...Object.values(role.of?.names ?? {})].flatMap((each) => each ?? []),
      species,
      "species",
    ];
  return [[], [], ""];
}

export interface Top {
  readonly firstLine: number;
  /** As many as there are columns. */
  readonly heads: readonly string[];
  readonly lines: readonly string[];
}

/** Where the heads of the mapping stand in this table; throws `Refused` where they do not. */
export async function findTop(file: TableFile, encoding: string, mapping: Mapping): Promise<Top> {
  const { delimiter, edges = [], heads, rows } = mapping.table;
  const cutter = new Cutter(delimiter);
  const cuts: Cut[] = [];
  for await (const part of textOf(file, encoding, "")) {
    cuts.push(...cutter.cut(part));
    if (cuts.length >= headLinesLooked) break;
  }
  if (cuts.length < headLinesLooked) cuts.push(...cutter.cut("", true));
  if (heads === 0) {
    const first = cuts.find(({ line }) => line >= rows);
    if (first === undefined) throw new Refused("the table has no rows");
    const { cells } = cellsOf(first.raw, delimiter, edges);
    return { firstLine: first.line, heads: cells.map(() => ""), lines: [] };
  }
  const { across } = mapping.table;
  const wanted = columnsOf(mapping).filter(({ at }) => across === undefined || at < across.from);
  let nearest: { cells: readonly string[]; fits: number } = { cells: [], fits: -1 };
  for (const { line, raw } of cuts) {
    if (raw.startsWith(ourMark)) continue;
    const cells = headCellsOf(raw, delimiter, edges);
    const fits = wanted.filter(({ at, head }) => cells[at - 1] === head).length;
    const dated = across === undefined ? undefined : acrossBy(cells, mapping.table);
    if (fits === wanted.length && (across === undefined || dated !== undefined)) {
      const stray = dated?.others.find((other) => across?.but?.includes(other) !== true);
      if (stray !== undefined)
        throw new Refused(
          `the head “${stray.slice(0, 40)}” is no date, and the mapping does not leave it out`,
        );
      const firstLine = line + rows - heads;
      return {
        firstLine,
        heads: cells,
        lines: cuts.filter((cut) => cut.line >= line && cut.line < firstLine).map((cut) => cut.raw),
      };
    }
    if (fits > nearest.fits) nearest = { cells, fits };
  }
  const wrong = wanted.find(({ at, head }) => nearest.cells[at - 1] !== head);
  if (wrong === undefined)
    throw new Refused(
      `the mapping is for a table whose heads are dates from column ${across?.from} on, and here no line has such heads`,
    );
  const is = nearest.cells[wrong.at - 1];
  throw new Refused(
    `the mapping is for other columns: its column ${wrong.at} is “${wrong.head}”, ${is === undefined || nearest.fits <= 0 ? "and no line has such heads" : `and here “${is}”`}`,
  );
}
