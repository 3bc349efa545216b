import type { Plot } from "../shared/chart/plot.ts";
import type { Stop } from "../shared/chart/stops.ts";
import type { GridCharted } from "./messages.ts";
import { stateWords } from "./row.ts";

/** A column of figures as what a chart shows and where its cursor stops. */

type Column = GridCharted["columns"][number];
type Point = Column["points"][number];

export type Span = Pick<Plot, "from" | "to" | "now">;

/** From the first to the last of all columns, with a little air; names have half a place before and behind. */
export function spanOf({ names, columns, today }: GridCharted): Span {
  if (names !== null) return { from: -0.5, to: names.length - 0.5, now: Number.NEGATIVE_INFINITY };
  let [from, to] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { points } of columns)
    for (const { at } of points) {
      from = Math.min(from, at);
      to = Math.max(to, at);
    }
  const air = Math.max(0.5, (to - from) / 50);
  return { from: from - air, to: to + air, now: today + 1 };
}

export function stopOf(
  { at, low, high, text, state, detail, limit, row }: Point,
  names: GridCharted["names"],
): Stop<string> {
  const name = names?.[at];
  const clock = Math.round((at % 1) * 1440);
  const time = clock === 0 || names !== null ? "" : `${pad(clock / 60)}:${pad(clock % 60)}`;
  const value = low === null ? high : high === null ? low : (low + high) / 2;
  return {
    time: at,
    value,
    text,
    remark: [stateWords[state === "" ? "within" : state], limit?.text, time, detail]
      .filter(Boolean)
      .join(", "),
    at: row,
    ...(name === undefined ? {} : { name }),
  };
}

export function plotOf({ points, limit }: Column, names: GridCharted["names"], span: Span): Plot {
  return {
    ...span,
    ...(names === null ? {} : { names }),
    readings: points.map(({ at, low, high, state, limit: own }) => ({
      time: at,
      low,
      high,
      isOutside: state === "above" || state === "below",
      ...(own === null ? {} : { limit: own }),
    })),
    limit,
    target: null,
    course: [],
    ahead: [],
    changes: [],
    doses: [],
  };
}

const pad = (value: number): string => String(Math.floor(value)).padStart(2, "0");
