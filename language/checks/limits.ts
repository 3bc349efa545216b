import type { Book } from "../book/book.ts";
import { againstLimit } from "../room/against-limit.ts";
import type { Observer, ReadingSeen } from "../room/observer.ts";
import type { Series } from "../room/series.ts";
import { whyEntry, whyStated } from "../room/why.ts";
import { page } from "./code.ts";
import type { RowFinding } from "./observe.ts";
import { likelySlips, numberText } from "./slips.ts";
import { limitText, readingSpan, readingText } from "./words.ts";

/** Each reading against the limits of its tank, and against what is possible at all. */

export const limitPages = [
  page({
    code: "limit/above",
    severity: "warning",
    since: "0.1",
    title: "Above the limit",
    says: "The reading is above the limit stated for the tank. A reading that a later one has followed is only a mark at its line.",
    todo: "Test again if it is a surprise; change water, feed less, look for what has died. The hint at the line says what change would bring it back.",
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
    todo: "Test again if it is a surprise, then mend the cause: a heater, a buffer that is used up, too little air.",
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
    todo: "Use a finer test, or dilute the sample where it reads above its scale.",
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
    todo: "Correct the number; a lost decimal point is offered.",
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
        add(impossible(book, at, reading, seriesOf(reading.parameter.id)));
        return;
      }
      const { limit, low, high, parameter, index } = reading;
      if (limit === undefined) return;
      const against = againstLimit(limit, low, high);
      if (against === "within") return;
      const isLatest = (): boolean => index === (seriesOf(parameter.id)?.length ?? 0) - 1;
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
  at: Parameters<NonNullable<Observer["reading"]>>[0],
  reading: ReadingSeen,
  series: Series | undefined,
): RowFinding {
  const { parameter, low, high, limit, tank } = reading;
  const value = low === 0 && high > 0 ? high : low;
  const last = series !== undefined && series.length > 0 ? series.first[series.length - 1]! : Number.NaN;
  const slips = likelySlips(book, parameter, value, last, limit);
  return {
    code: "value/impossible",
    block: at.block,
    row: at.row,
    slots: ["reading"],
    severity: () => "error",
    message: () => {
      const [from, to] = parameter.possible;
      const bounds = `${from}..${to}${parameter.dimension === "pH" ? "" : ` ${parameter.unit.symbol}`}`;
      const meant = slips[0] === undefined ? "" : `; ${numberText(slips[0])} is meant?`;
      return `${parameter.name} ${readingText(book, parameter, value, 6)} in ${tank.name} cannot be (${bounds})${meant}`;
    },
    fixes: (place) =>
      slips.map((slip, index) => ({
        title: `Write “${numberText(slip)}”`,
        edits: [numberEdit(at.block, place, numberText(slip))],
        isSure: index === 0 && slips.length === 1,
      })),
    why: () => ({
      what: `what ${parameter.name} can be at all`,
      value: parameter.possible.join(".."),
      from: [whyEntry(at)],
    }),
  };
}

/** Replaces the digits of a number and leaves its sign and unit. */
function numberEdit(
  block: Parameters<NonNullable<Observer["reading"]>>[0]["block"],
  place: { start: number; end: number },
  text: string,
) {
  const written = /\d+(?:\.\d+)?/.exec(block.text.slice(place.start, place.end));
  const start = place.start + (written?.index ?? 0);
  return { block, start, end: start + (written?.[0].length ?? 0), text };
}
