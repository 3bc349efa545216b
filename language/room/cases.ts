import { Kind } from "../book/entries/registry.ts";
import { Col, type Facts, floatsPerRow, intsPerRow, Num } from "../book/facts.ts";
import { noName, wordOf } from "../book/interner.ts";
import type { Block } from "../book/source.ts";
import type { Station } from "../book/stations.ts";
import type { Logbook } from "./logbook.ts";
import { rareRows } from "./rare-rows.ts";

/** What the log says of the sick: the entries of one case, from the first animal that shows signs until it is closed. */

/** A row of a case, referred to by its block and the number of the row. */
export interface CaseEntry {
  readonly day: number;
  readonly block: Block;
  readonly row: number;
  readonly kind: number;
  readonly stations: readonly Station[];
}

export interface SickEntry extends CaseEntry {
  readonly species: string;
  /** How many show signs, of how many at risk; NaN where it is not said. */
  readonly affected: number;
  readonly atRisk: number;
}

export interface Case {
  /** Empty for animals that were written down as sick without a case. */
  readonly name: string;
  /** Since it was opened, or opened again. */
  readonly since: number;
  readonly entries: readonly CaseEntry[];
  /** The latest entry of sick animals; undefined for a case that is only named elsewhere. */
  readonly latest: SickEntry | undefined;
  /** Where animals showed signs. */
  readonly stations: readonly Station[];
  /** The day it was closed; NaN while it is open. */
  readonly closed: number;
}

interface Open {
  name: string;
  since: number;
  entries: CaseEntry[];
  latest: SickEntry | undefined;
  stations: Set<Station>;
  closed: number;
}

/** Every case up to the end of a day, in the order in which they were opened. */
export function casesUntil(logbook: Logbook, day: number): Case[] {
  const { book } = logbook;
  const known = new Map<string, Open>();
  const cases: Open[] = [];
  const caseOf = (name: string, on: number): Open => {
    const last = known.get(name);
    // Signs without a case are a case of their own; one that was closed and comes back is opened again.
    if (last !== undefined && name !== "" && Number.isNaN(last.closed)) return last;
    const fresh: Open = {
      name,
      since: on,
      entries: [],
      latest: undefined,
      stations: new Set(),
      closed: Number.NaN,
    };
    known.set(name, fresh);
    cases.push(fresh);
    return fresh;
  };
  for (const { day: on, block, facts, row, id, kind } of rareRows(logbook, ofCases, day)) {
    const name = wordOf(facts.ints[row * intsPerRow + Col.object]!);
    if (name === "" && kind !== Kind.sick) continue;
    const stations = stationsOf(facts, row);
    // What is written of nothing that is defined does not count.
    if (stations.length === 0) continue;
    const entry: CaseEntry = { day: on, block, row: id, kind, stations };
    // A result may come, and a case be closed, only after it was opened; if it was not, there is nothing to close.
    if (kind === Kind.close) {
      const open = known.get(name);
      if (open === undefined || !Number.isNaN(open.closed)) continue;
      open.entries.push(entry);
      open.closed = on;
      continue;
    }
    const open = caseOf(name, on);
    open.entries.push(entry);
    if (kind !== Kind.sick) continue;
    open.latest = { ...entry, ...sickOf(facts, row) };
    for (const station of stations) open.stations.add(station);
  }
  return cases.map((each) => ({ ...each, stations: [...each.stations] }));

  function stationsOf(facts: Facts, row: number): readonly Station[] {
    const target = facts.ints[row * intsPerRow + Col.target]!;
    if (target < 0) return book.groupTanks(~target) ?? [];
    const station = book.station(target);
    return station === undefined ? [] : [station];
  }
}

const ofCases: ReadonlySet<number> = new Set([Kind.sick, Kind.sample, Kind.result, Kind.close]);

function sickOf(facts: Facts, row: number): Pick<SickEntry, "species" | "affected" | "atRisk"> {
  const species = facts.ints[row * intsPerRow + Col.subject]!;
  return {
    species: species === noName ? "" : wordOf(species),
    affected: facts.floats[row * floatsPerRow]!,
    atRisk: facts.floats[row * floatsPerRow + Num.second]!,
  };
}
