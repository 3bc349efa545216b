import { dayOf } from "../book/dates.ts";
import { lineAt } from "../book/entry.ts";
import { nameOf } from "../book/interner.ts";
import { findParameter } from "../book/parameters.ts";
import type { Block } from "../book/source.ts";
import type { Tank } from "../book/stations.ts";
import { dateAt } from "./dates-in-text.ts";
import { dutiesAt } from "./duty-entries.ts";
import { type Named, nameAt, usesOf } from "./names.ts";
import { blockAt, type Location, locationOf, type View } from "./view.ts";

/**
 * Where what stands at an offset is stated: a name where it is defined; a case, lot or order where it first comes up; a parameter at the limit that holds in its
 * tank; a kind of entry at the duty that it fulfils; a date in prose at its day.
 */
export function definitionsAt(view: View, offset: number): Location[] {
  const use = nameAt(view, offset);
  if (use !== undefined) return definitionOf(view, use);
  const day = dayNamed(view, offset);
  if (day !== undefined) return day;
  const limit = limitAt(view, offset);
  if (limit !== undefined) return [limit];
  return dutiesAt(view, offset)
    .map((duty) => locationOf(duty.place))
    .filter((each, index, all) => all.findIndex((other) => isSame(each, other)) === index);
}

/** Where a name is defined; of one that entries give, its first entry by date. */
export function definitionOf({ checked }: View, named: Named): Location[] {
  const defined = checked.book.names.get(named.name);
  if (defined?.definition.word === named.sort) return [locationOf(defined.place)];
  if (named.sort !== "case" && named.sort !== "lot" && named.sort !== "order") return [];
  const uses = usesOf(checked, named).filter((use) => !Number.isNaN(use.block.day));
  const [first] = uses.sort((a, b) => a.block.day - b.block.day);
  return first === undefined ? [] : [locationOf(first)];
}

/** The days that a date in a text or comment names. */
function dayNamed(view: View, offset: number): Location[] | undefined {
  const date = dateAt(view.source.text, offset);
  if (date === undefined) return undefined;
  const found = blockAt(view, offset);
  const isHead = found !== undefined && found.block.kind === "day" && found.at <= 10;
  return isHead ? undefined : blocksOn(view, dayOf(date.iso)).map(headOf);
}

/** The blocks of a day, in order of files and lines. */
export function blocksOn({ checked }: View, day: number): readonly Block[] {
  return checked.logbook.dayGroups.find((group) => group.day === day)?.blocks ?? [];
}

/** The date at the head of a day block. */
export function headOf(block: Block): Location {
  const start = block.text.charCodeAt(0) === 0xfeff ? 1 : 0;
  return locationOf({ block, start, end: start + 10 });
}

/** The limit that holds for a parameter in the tank of its entry, or in the tanks of a sheet. */
function limitAt(view: View, offset: number): Location | undefined {
  const found = blockAt(view, offset);
  const line = found === undefined ? undefined : lineAt(found.block, found.at);
  if (found === undefined || line === undefined || line.is === "sheet") return undefined;
  const target = line.target === undefined ? undefined : view.checked.book.station(nameOf(line.target.text));
  const limits = (target as Tank | undefined)?.limits;
  if (limits === undefined) return undefined;
  const at = (value: { start: number; end: number } | undefined): boolean =>
    value !== undefined && found.at >= value.start && found.at <= value.end;
  const word =
    line.is === "row"
      ? line.columns[line.cells.findIndex(at)]?.parameter
      : findParameter(line.items.find((item) => at(item.parameter))?.parameter?.text ?? "");
  const limit = word === undefined ? undefined : limits.get(word.id);
  return limit === undefined ? undefined : locationOf(limit.place);
}

const isSame = (a: Location, b: Location): boolean =>
  a.path === b.path && a.start === b.start && a.end === b.end;
