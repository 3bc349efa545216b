import { spokenDay } from "../book/dates.ts";
import { Kind } from "../book/entries/registry.ts";
import { Col, floatsPerRow, intsPerRow, kindOfRow, Num } from "../book/facts.ts";
import { noName } from "../book/interner.ts";
import { rowOfId } from "../book/source.ts";
import type { Tank } from "../book/stations.ts";
import { isAboutAsMany } from "./about.ts";
import { type At, endOf, reasonsAgainst } from "./against.ts";
import { isAbout } from "./amounts.ts";
import { bathReasons } from "./baths.ts";
import { bookAt, type Held } from "./book-at.ts";
import { keptFor } from "./kept-for-logbook.ts";
import type { Ledger } from "./ledger.ts";
import type { Logbook } from "./logbook.ts";
import type { Reason } from "./reason.ts";
import { settledUntil } from "./settled-until.ts";
import { whyEntry } from "./why.ts";

/** What may go: animals by the book with what speaks against letting them go, and from when nothing does. */

export interface Release {
  readonly tank: Tank;
  readonly species: string;
  readonly animals: number;
  /** The one that lasts longest first. */
  readonly reasons: readonly Reason[];
  /** Nothing but fasting speaks against it on the day. */
  readonly isReady: boolean;
  /** The first day on which nothing speaks against it, as far as is known on the day; Infinity where nobody can say. */
  readonly from: number;
  readonly held: Held;
}

/** What every tank holds at the end of a day, in the order of the book. */
export function releaseOn(logbook: Logbook, day: number): Release[] {
  return keptFor(logbook, `release ${day}`, () => {
    const at = endOf(day);
    const byTank = new Map<Tank, readonly Reason[]>();
    return bookAt(logbook, at.time).map((held) => {
      let reasons = byTank.get(held.tank);
      if (reasons === undefined) {
        reasons = reasonsAgainst(logbook, held.tank, at);
        byTank.set(held.tank, reasons);
      }
      return releaseOf(held, at, reasons);
    });
  });
}

/** @param reasons those of its tank */
export function releaseOf(held: Held, at: At, reasons: readonly Reason[]): Release {
  const { ledger, tank, species } = held;
  const all = [
    ...shortReasons(ledger, held),
    ...bathReasons(ledger, tank, species, at.day, settledUntil(ledger, at)),
    ...reasons,
  ];
  return {
    tank: held.tank,
    species: held.species,
    animals: held.animals,
    reasons: all,
    isReady: all.every(({ is }) => is === "fasting"),
    from: all.reduce((latest, { until }) => Math.max(latest, until), at.day),
    held,
  };
}

/** The last count of a species in its tank, where fewer were counted than the book had: until another count agrees. */
function shortReasons(
  { animals }: Ledger,
  { index, holding, tank, species }: Pick<Held, "index" | "holding" | "tank" | "species">,
): Reason[] {
  for (let at = index; at >= 0; at--) {
    if (animals.tag[at] !== holding) continue;
    const block = animals.block[at]!;
    const row = rowOfId(block, animals.row[at]!);
    if (row < 0 || kindOfRow(block.facts, row) !== Kind.count) continue;
    const before = animals.first[at]!;
    const isOfAll = block.facts.ints[row * intsPerRow + Col.lot] === noName;
    // A count of one lot that agrees says nothing of the others.
    if (!isOfAll && !(animals.second[at]! < before)) continue;
    const of = block.facts.floats[row * floatsPerRow + Num.second]!;
    const counted = isOfAll && !Number.isNaN(of) ? of : animals.second[at]!;
    if (Number.isNaN(before) || !(counted < before)) return [];
    const isEstimate = isAbout(block.facts, row) || restsOnEstimate(animals, at, holding);
    if (isEstimate && isAboutAsMany(counted, before)) return [];
    const short = before - counted;
    return [
      {
        is: "count",
        until: Number.POSITIVE_INFINITY,
        name: species,
        amount: short,
        why: () => ({
          what: `${species} in ${tank.name} counted short`,
          value: `${short} of ${before} on ${spokenDay(animals.time[at]!)}`,
          formula: "book before the count - counted; open until a count agrees with the book",
          from: [whyEntry({ block, row: animals.row[at]! })],
        }),
      },
    ];
  }
  return [];
}

/** Whether the book of a holding rested on an estimate before an entry: one since the last exact count. */
function restsOnEstimate(animals: Ledger["animals"], end: number, holding: number): boolean {
  for (let at = end - 1; at >= 0; at--) {
    if (animals.tag[at] !== holding) continue;
    const block = animals.block[at]!;
    const row = rowOfId(block, animals.row[at]!);
    if (row < 0) continue;
    if (isAbout(block.facts, row)) return true;
    if (kindOfRow(block.facts, row) === Kind.count) return false;
  }
  return false;
}
