import { spokenDay } from "../book/dates.ts";
import { property } from "../book/defined.ts";
import { parameterOf } from "../book/parameters.ts";
import { formatNumber } from "../quantity/format.ts";
import { type Share, type ShareOf, wilsonSource } from "./brood-course.ts";
import type { BroodEntryIs } from "./brood-rows.ts";
import { type Brood, homeOf } from "./broods.ts";
import { type Developed, ddCaution, ddSource, type Expected, type Stage } from "./development.ts";
import type { Inbred } from "./lineage.ts";
import type { Logbook } from "./logbook.ts";
import type { DayWarmth } from "./warmth.ts";
import { type Why, whyEntry, whyStated } from "./why.ts";

/** Why the figures of a brood are what they are. */

const stageWords: Readonly<Record<Stage, string>> = { hatch: "hatch", swim: "free swimming" };

/** Why a stage is expected when it is. @param value the days in words */
export function whyExpected(logbook: Logbook, brood: Brood, found: Expected, value: string): Why {
  const { stage, by, own, others, baseC, warmth, chance, low, middle, high } = found;
  const byDays = by === "days alone";
  const begins = stage === "hatch" ? ["spawn"] : ["hatch"];
  return {
    what: `${stageWords[stage]} of ${brood.name} expected`,
    value,
    formula: byDays
      ? "day it began + days stated; no temperature is known"
      : `first day by which the sum of (mean temperature of the day - ${formatNumber(baseC)} C) comes to ${degreeDaysText(low)}, ${formatNumber(middle, 3)} and ${formatNumber(high, 3)} degree-days`,
    source: byDays ? "as the keeper states it" : `${ddSource}; ${ddCaution}`,
    from: [
      ...entriesOf(brood, ...(begins as BroodEntryIs[])),
      ...whyStatedDevelopment(logbook, brood, found),
      ...(by === "own broods" ? [whyOwn(own, chance)] : []),
      ...(others > 0
        ? [{ what: "own broods at other temperatures, left out", value: String(others), from: [] }]
        : []),
      ...(byDays ? [] : [whyWarmth(logbook, brood, warmth)]),
    ],
  };
}

const degreeDaysText = (sum: number): string => formatNumber(sum, 3);

function whyStatedDevelopment(logbook: Logbook, brood: Brood, found: Expected): Why[] {
  const { stated, stage, baseC } = found;
  const species = logbook.bound.species.get(brood.species);
  if (stated === undefined || species === undefined) return [];
  const { block } = species.place;
  const word = stage === "hatch" ? "hatches" : "swims";
  const where = property(block.definition, word);
  const factor = stated.temperatureC - baseC;
  return [
    {
      ...whyStated(where === undefined ? species.place : { block, start: where.start, end: where.end }),
      value: `${formatNumber(stated.lowDays * factor, 3)} to ${formatNumber(stated.highDays * factor, 3)} degree-days`,
      formula: `days × (${formatNumber(stated.temperatureC)} C - ${formatNumber(baseC)} C)`,
    },
  ];
}

function whyOwn(own: readonly Developed[], chance: number): Why {
  return {
    what: `the room's own broods of its species at like temperatures: ${own.length}`,
    value: `the next lies between the least and the most with a chance of ${formatNumber(chance * 100, 2)} %`,
    formula: "(n - 1) / (n + 1), n broods",
    source: "Wilks 1941, Ann. Math. Stat. 12:91-96 (recalled)",
    from: own.map(whyDeveloped),
  };
}

/** What a stage took in one brood. */
export function whyDeveloped({ brood, from, to, degreeDays, meanC }: Developed): Why {
  const sum = Number.isNaN(degreeDays) ? "" : `, ${degreeDaysText(degreeDays)} degree-days`;
  const mean = Number.isNaN(meanC) ? "" : ` at ${formatNumber(meanC, 3)} C on average`;
  return {
    what: `${brood.name}, ${spokenDay(from)} to ${spokenDay(to)}`,
    value: `${formatNumber(to - from)} d${sum}${mean}`,
    from: [],
  };
}

const temperature = parameterOf("temperature");

/** What the days of a brood rest on, with the tests among them. */
function whyWarmth(logbook: Logbook, brood: Brood, warmth: readonly DayWarmth[]): Why {
  const days = (by: DayWarmth["by"]): number => warmth.filter((day) => day.by === by).length;
  const parts = [
    [days("tests"), "by tests"],
    [days("late tests"), "ahead, as of late"],
    [days("limits"), "assumed: the middle of the limits"],
  ] as const;
  const [first, last] = [warmth[0], warmth.at(-1)];
  const from: Why[] = [];
  const seen = new Set<string>();
  for (const { day } of warmth) {
    const series = logbook.ledgerOf(homeOf(brood, day)).readings[temperature.id];
    if (series === undefined) continue;
    for (let at = series.from(day); at < series.length && series.time[at]! < day + 1; at++) {
      const entry = { block: series.block[at]!, row: series.row[at]! };
      const key = `${entry.block.file.path} ${entry.block.start} ${entry.row}`;
      if (!seen.has(key)) from.push(whyEntry(entry));
      seen.add(key);
    }
  }
  return {
    what:
      first === undefined || last === undefined
        ? "temperature by day"
        : `temperature by day, ${spokenDay(first.day)} to ${spokenDay(last.day)}`,
    value: parts
      .filter(([count]) => count > 0)
      .map(([count, words]) => `${count} ${words}`)
      .join(", "),
    formula: "area under the line from test to test",
    from,
  };
}

const entriesOfShare: Readonly<Record<ShareOf, readonly BroodEntryIs[]>> = {
  "alive of laid": ["spawn", "eggs"],
  "hatched of laid": ["spawn", "hatch"],
  "hatched of alive": ["eggs", "hatch"],
  "swimming of hatched": ["hatch", "swim"],
  "alive after 30 days": ["hatch", "count", "lose", "cull", "move", "sell", "ship"],
  "alive after 30 days, culls left out": ["hatch", "count", "lose", "cull", "move", "sell", "ship"],
};

/** Why a share is what it is. @param value the share in words */
export function whyShare(brood: Brood, share: Share, value: string): Why {
  return {
    what: `${share.what} of ${brood.name}`,
    value,
    formula: `${share.formula} = ${formatNumber(share.count, 6)} / ${formatNumber(share.outOf, 6)}`,
    source: `interval: ${wilsonSource}${share.isAbout ? "; of estimates it tells of chance alone" : ""}`,
    from: entriesOf(brood, ...entriesOfShare[share.what]),
  };
}

/** Entries of a brood of some kinds as leaves. */
export function entriesOf(brood: Brood, ...kinds: readonly BroodEntryIs[]): Why[] {
  return brood.entries.filter(({ is }) => kinds.includes(is)).map(whyEntry);
}

/** Why a brood is inbred, or why it is not known. @param value the coefficient in words */
export function whyInbred(name: string, { paths, groups, founders }: Inbred, value: string): Why {
  return {
    what: `inbreeding of ${name}`,
    value,
    formula:
      paths === undefined
        ? "half the relationship of its parents, by the table"
        : "sum of (1/2)^n (1 + F of the common ancestor) over all paths from parent to parent, n animals in each",
    source:
      "Wright 1922, Am. Nat. 56:330-338; the table: Emik & Terrill 1949, J. Hered. 40:51-55 (recalled), Henderson 1976, Biometrics 32:69-83",
    from: [
      ...(paths ?? []).map(({ through, adds }) => ({
        what: through.join(" - "),
        value: `+ ${formatNumber(adds, 4)}`,
        from: [],
      })),
      ...(groups.length === 0
        ? []
        : [
            {
              what: "lots of several animals among its ancestors: another one each time at the low end, the same one at the high end; of one lot all are taken as brothers and sisters if its parents are known, as unrelated if not",
              value: [...groups].sort().join(", "),
              from: [],
            },
          ]),
      ...(founders.length === 0
        ? []
        : [
            {
              what: "of these no parents are known: they are taken as unrelated",
              value: [...founders].sort().join(", "),
              from: [],
            },
          ]),
    ],
  };
}
