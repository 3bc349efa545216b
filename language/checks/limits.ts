import type { Book } from "../book/book.ts";
import { placeOfSlot } from "../book/entry.ts";
import { floatsPerRow, unitOfAmount } from "../book/facts.ts";
import type { Parameter } from "../book/parameters.ts";
import { type Block, rowOfId } from "../book/source.ts";
import { formatNumber } from "../quantity/format.ts";
import { likelyMeant } from "../quantity/slip.ts";
import { againstLimit } from "../room/against-limit.ts";
import type { Moment, Observer, ReadingSeen } from "../room/observer.ts";
import type { Series } from "../room/series.ts";
import { whyEntry, whyStated } from "../room/why.ts";
import { page } from "./code.ts";
import type { RowFinding } from "./observe.ts";
import { limitText, readingSpan } from "./words.ts";

/** Each reading against the limits of its tank, and against what is possible at all. */

export const limitPages = [
  page({
    code: "limit/above",
    severity: "warning",
    since: "0.1",
    title: "Above the limit",
    says: "The reading is above the limit stated for the tank. A reading that a later one has followed is only a mark at its line.",
    whatToDo:
      "Test again if it is a surprise; change water, feed less, look for what has died. The hint at the line says what change would bring it back.",
    raises: `tank dam
  volume 100 L
  limits nitrate <= 25 mg/L
2026-03-01
  dam test nitrate 30
#                  ^^ limit/above`,
    fine: `tank dam
  volume 100 L
  limits nitrate <= 25 mg/L
2026-03-01
  dam test nitrate 25`,
  }),
  page({
    code: "limit/below",
    severity: "warning",
    since: "0.1",
    title: "Below the limit",
    says: "The reading is below the limit stated for the tank.",
    whatToDo:
      "Test again if it is a surprise, then mend the cause: a heater, a buffer that is used up, too little air.",
    raises: `tank dam
  volume 100 L
  limits temperature 23..27 C
2026-03-01
  dam test temperature 21.5
#                      ^^^^ limit/below`,
    fine: `tank dam
  volume 100 L
  limits temperature 23..27 C
2026-03-01
  dam test temperature 23`,
  }),
  page({
    code: "limit/unsure",
    severity: "hint",
    since: "0.1",
    title: "The test cannot tell",
    says: "The reading is censored or a range, and the limit lies within what it may be: “<0.5” says nothing about a limit of 0.1.",
    whatToDo: "Use a finer test, or dilute the sample where it reads above its scale.",
    raises: `tank dam
  volume 100 L
  limits nitrate <= 3 mg/L
2026-03-01
  dam test nitrate <5
#                  ^^ limit/unsure`,
    fine: `tank dam
  volume 100 L
  limits nitrate <= 5 mg/L
2026-03-01
  dam test nitrate <5`,
  }),
  page({
    code: "value/impossible",
    severity: "error",
    since: "0.1",
    title: "A value that cannot be",
    says: "The reading is outside what can be measured in a fish room at all: a slip of the finger, or another unit. It is left out of every computation.",
    whatToDo: "Correct the number; a lost decimal point is offered.",
    raises: `tank dam
  volume 100 L
2026-03-01
  dam test pH 72
#             ^^ value/impossible`,
    fine: `tank dam
  volume 100 L
2026-03-01
  dam test pH 7.2`,
  }),
] as const;

/** Listens to readings. @param seriesOf the readings of a parameter in a ledger, to know which is the latest */
export function limitChecks(book: Book, seriesOf: (parameter: number) => Series | undefined) {
  return (add: (finding: RowFinding) => void): Observer => ({
    reading(at, reading) {
      if (reading.index < 0) {
        add(impossible(book, at, reading, () => seriesOf(reading.parameter.id)));
        return;
      }
      const { limit, low, high, parameter } = reading;
      if (limit === undefined) return;
      const against = againstLimit(limit, low, high);
      if (against === "within") return;
      const isLatest = (): boolean => {
        const series = seriesOf(parameter.id)!;
        const last = series.length - 1;
        return series.row[last] === at.row && series.block[last] === at.block;
      };
      const is = readingSpan.bind(undefined, book, parameter, low, high);
      add({
        code: `limit/${against}`,
        block: at.block,
        row: at.row,
        slots: ["reading"],
        severity: () => (against !== "unsure" && isLatest() ? "warning" : "hint"),
        message: () =>
          against !== "unsure"
            ? `${parameter.name} ${is()} in ${reading.tank.name} is ${against} its limit: ${limitText(book, limit)}`
            : `${parameter.name} ${is()} in ${reading.tank.name}: this reading cannot tell whether the limit holds (${limitText(book, limit)})`,
        related: () => [{ place: limit.place, message: `limit stated in ${limit.by}` }],
        why: () => ({
          what: `${parameter.name} against its limit`,
          value: `${is()}, ${limitText(book, limit)}`,
          from: [whyEntry(at), whyStated(limit.place)],
        }),
      });
    },
  });
}

function impossible(
  book: Book,
  at: Moment,
  reading: ReadingSeen,
  series: () => Series | undefined,
): RowFinding {
  const { parameter, tank } = reading;
  const meant = (): string | undefined => slipOf(book, at, parameter, usualLevel(at, reading, series()));
  return {
    code: "value/impossible",
    block: at.block,
    row: at.row,
    slots: ["reading"],
    severity: () => "error",
    message: () => {
      const [from, to] = parameter.possible;
      const unit = parameter.dimension === "pH" ? "" : ` ${parameter.unit.symbol}`;
      const slip = meant();
      const { start, end } = placeOfSlot(at.block, at.row, "reading");
      return `${parameter.name} ${at.block.text.slice(start, end)} in ${tank.name} cannot be (${from}..${to}${unit})${slip === undefined ? "" : `; did you mean ${slip}?`}`;
    },
    fixes: (place) => {
      const slip = meant();
      return slip === undefined
        ? []
        : [{ title: `Write “${slip}”`, edits: [numberEdit(at.block, place, slip)], isSure: true }];
    },
    why: () => ({
      what: `what ${parameter.name} can be at all`,
      value: parameter.possible.join(".."),
      from: [whyEntry(at)],
    }),
  };
}

/** The level that would be no surprise, canonical: the last reading before, else the middle of the limit; undefined if there is neither. */
function usualLevel(
  { time }: Moment,
  { limit, order }: ReadingSeen,
  series: Series | undefined,
): number | undefined {
  if (series !== undefined) {
    let before = series.from(time);
    while (before < series.length && series.time[before] === time && series.order[before]! < order) before++;
    if (before > 0) return series.first[before - 1]!;
  }
  const middle = limit === undefined ? Number.NaN : (limit.low + limit.high) / 2;
  return Number.isFinite(middle) ? middle : undefined;
}

/** What was most likely meant, in the unit it was written in. */
function slipOf(book: Book, at: Moment, parameter: Parameter, usual: number | undefined): string | undefined {
  const row = rowOfId(at.block, at.row);
  if (row < 0) return undefined;
  const { facts } = at.block;
  const code = unitOfAmount(facts, row);
  const written = facts.floats[row * floatsPerRow]!;
  const zero = book.units.reading(parameter, 0, code);
  const step = book.units.reading(parameter, 1, code) - zero;
  const asWritten = (canonical: number): number => (canonical - zero) / step;
  const [low, high] = parameter.possible.map((bound) =>
    asWritten(bound * parameter.unit.factor + parameter.unit.offset),
  );
  const meant = likelyMeant(written, low!, high!, usual === undefined ? undefined : asWritten(usual));
  return meant === undefined ? undefined : formatNumber(meant, 6);
}

/** Replaces the digits of a number and leaves its sign and unit. */
function numberEdit(block: Block, place: { start: number; end: number }, text: string) {
  const written = /-?(?:\d+(?:\.\d+)?|\.\d+)/.exec(block.text.slice(place.start, place.end));
  const start = place.start + (written?.index ?? 0);
  return { block, start, end: start + (written?.[0].length ?? 0), text };
}
