import { spokenDay } from "../../book/dates.ts";
import { limitText, readingSpan } from "../../checks/words.ts";
import { kept } from "../../room/kept.ts";
import { justAfter } from "../../room/past.ts";
import { type Balance, balanceUntil, settledTime } from "../../room/water.ts";
import { type Why, whyEntry, whyStated } from "../../room/why.ts";
import { isOutside } from "../../science/result.ts";
import { isSure, rateText, whyBalance } from "./level.ts";
import { type Read, readOf } from "./read.ts";
import { roundText } from "./round.ts";
import { type LineFigure, type Row, tankOf } from "./row.ts";

/** What the tests of a line add to what was known: free ammonia, production a day, or what changed since the last. */

/** The one figure of a line of tests that tells most. */
export function testFigure(rows: readonly Row[]): LineFigure | undefined {
  const reads = rows.map(readOf).filter((read) => read !== undefined);
  const together = roundText(reads);
  if (together !== undefined) return { kind: "test", ...together };
  const inOrder = reads.sort((a, b) => rank(a) - rank(b));
  const name = ({ parameter }: Read): string => (reads.length > 1 ? `${parameter.name} ` : "");
  for (const read of inOrder) {
    if (rank(read) > limited) break;
    const production = balanceOf(read)?.production;
    if (production === undefined || isOutside(production) || !isSure(production)) continue;
    const label = name(read) + rateText(read.ledger, read.parameter, production);
    return { kind: "test", label, why: () => whyReading(read) };
  }
  // Of the rest only the first is told: a line of hints is read at a glance or not at all.
  const first = inOrder[0];
  const since = first === undefined ? "" : sinceText(first);
  if (first === undefined || since === "") return undefined;
  return { kind: "test", label: name(first) + since, why: () => whyReading(first) };
}

const limited = 1;

/** Nitrate first, then what is limited and mixes, then what mixes, then the rest; within each as written. */
function rank({ row, ledger, parameter }: Read): number {
  if (parameter.name === "nitrate") return 0;
  if (!parameter.mixes || parameter.dimension === "temperature") return 3;
  return tankOf(row, ledger)?.limits.has(parameter.id) === true ? limited : 2;
}

/** What the readings said together when this one was the last. */
function balanceOf({ ledger, parameter, index }: Read): Balance | undefined {
  return kept(ledger, `balance ${parameter.id} ${index}`, () =>
    balanceUntil(ledger, parameter, settledTime(ledger.readings[parameter.id]!, index) + justAfter),
  );
}

/** `+3 mg/L since 22 February`; empty where nothing changed, or it cannot be told. */
function sinceText({ ledger, parameter, index }: Read): string {
  const series = ledger.readings[parameter.id]!;
  let last = index - 1;
  while (last >= 0 && series.time[last] === series.time[index]) last--;
  if (last < 0 || [last, index].some((at) => series.first[at] !== series.second[at])) return "";
  const before = ledger.book.units.fromReading(parameter, series.first[last]!);
  const now = ledger.book.units.fromReading(parameter, series.first[index]!);
  const off = Number((now - before).toPrecision(10));
  if (off === 0) return "";
  const { symbol } = ledger.book.units.shown(parameter);
  const unit = parameter.dimension === "pH" ? "" : ` ${symbol}`;
  const sign = off > 0 ? "+" : "";
  const day = spokenDay(series.time[last]!, series.time[index]!);
  return `${sign}${Number(off.toPrecision(3))}${unit} since ${day}`;
}

/** Why a reading says what it says: itself, the one before, the production that follows, its limit. */
export function whyReading(read: Read): Why {
  const { row, ledger, parameter, index } = read;
  const series = ledger.readings[parameter.id]!;
  const { book } = ledger;
  const balance = balanceOf(read);
  const limit = tankOf(row, ledger)?.limits.get(parameter.id);
  const until = settledTime(series, index) + justAfter;
  const before =
    index === 0
      ? []
      : [
          {
            ...whyEntry({ block: series.block[index - 1]!, row: series.row[index - 1]! }),
            value: "the reading before",
          },
        ];
  return {
    what: `${parameter.name} in ${ledger.body?.name} on ${spokenDay(row.block.day)}`,
    value: readingSpan(book, parameter, series.first[index]!, series.second[index]!),
    from: [
      whyEntry({ block: row.block, row: row.id }),
      ...before,
      ...(balance === undefined
        ? []
        : [whyBalance(ledger, parameter, balance, until, `${parameter.name} just then, by all readings`)]),
      ...(limit === undefined ? [] : [{ ...whyStated(limit.place), value: limitText(book, limit) }]),
    ],
  };
}
