import { spokenDay } from "../book/dates.ts";
import { property } from "../book/defined.ts";
import type { Order } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";
import type { Logbook } from "../room/logbook.ts";
import {
  type Gone,
  goneUntil,
  type OrderLine,
  type OrderState,
  ordersOn,
  promised,
  wantsOf,
} from "../room/orders.ts";
import { placeOfRow, type Why, whyEntry, whyStated } from "../room/why.ts";
import { page } from "./code.ts";
import type { Finding } from "./finding.ts";
import type { RowFinding } from "./observe.ts";
import { replacing } from "./offers.ts";
import { reasonsText } from "./shipping-words.ts";
import { days } from "./words.ts";

/** Orders against what was sold and shipped for them. */

const prelude = `species praecox
species horn
  kind snail
tank dam
  volume 300 L
`;
const order = `order o-1
  wants praecox 6; due 2026-03-20
`;

export const orderPages = [
  page({
    code: "order/late",
    severity: "warning",
    since: "0.2",
    title: "An order is late",
    says: "The day on which the order was to leave is past, and not all of it has been sold or shipped.",
    whatToDo:
      "Send what is missing, with the order named on the line; or change the day, or what is wanted, to what was agreed with the buyer.",
    raises: `order o-1
  wants praecox 6; due 2026-03-20
#                  ^^^^^^^^^^^^^^ order/late
${prelude}2026-03-21
  dam count praecox 20`,
    fine: `${order}${prelude}2026-03-20
  dam count praecox 20`,
  }),
  page({
    code: "order/short",
    severity: "warning",
    since: "0.2",
    title: "An order is due and cannot be filled",
    says: "The order is due within two days, and by the book there are too few animals, or something speaks against letting them go until after that day.",
    whatToDo:
      "Tell the buyer; or look what could be sent instead: standpipe orders says which tanks have them and from when.",
    raises: `order o-1
  wants praecox 6; due 2026-03-20
# ^^^^^^^^^^^^^^^ order/short
${prelude}2026-03-18
  dam count praecox 4`,
    fine: `${order}${prelude}2026-03-17
  dam count praecox 4`,
  }),
  page({
    code: "order/unknown",
    severity: "information",
    since: "0.2",
    title: "The order named is not defined",
    says: "An order is named that is not defined, while one that is defined waits for these animals: it would go on waiting.",
    whatToDo: "Correct the name, or define the order.",
    raises: `${order}${prelude}2026-03-10
  dam count praecox 20
  dam ship praecox 6 order o-7
#                          ^^^ order/unknown`,
    fine: `${order}${prelude}2026-03-10
  dam count praecox 20
  dam ship praecox 6 order o-1`,
  }),
  page({
    code: "order/not-wanted",
    severity: "warning",
    since: "0.2",
    title: "The order does not want this",
    says: "Animals were sold or shipped for an order that does not ask for their species.",
    whatToDo: "Correct the species or the order, or add to what the order wants.",
    raises: `${order}${prelude}2026-03-10
  dam count horn 20
  dam ship horn 2 order o-1
#          ^^^^ order/not-wanted`,
    fine: `${order}${prelude}2026-03-10
  dam count praecox 20
  dam ship praecox 2 order o-1`,
  }),
  page({
    code: "order/more-than-wanted",
    severity: "warning",
    since: "0.2",
    title: "More than the order wants",
    says: "With this line more animals have been sold and shipped for the order than it asks for; it may have been written down twice.",
    whatToDo:
      "Strike the line that is there twice, correct the number or the order; what was given on top goes in a line without the order.",
    raises: `${order}${prelude}2026-03-10
  dam count praecox 20
  dam ship praecox 6 order o-1
2026-03-11
  dam ship praecox 6 order o-1
#                  ^ order/more-than-wanted`,
    fine: `${order}${prelude}2026-03-10
  dam count praecox 20
  dam ship praecox 2 order o-1
2026-03-11
  dam ship praecox 4 order o-1`,
  }),
] as const;

type OrderCode = (typeof orderPages)[number]["code"];
const severityOf = (code: OrderCode) => orderPages.find((each) => each.code === code)!.severity;

/** So many days before an order is due it is said that it cannot be filled. A choice of this tool: there is time to tell the buyer. */
const warnDays = 2;

export function* orderFindings(logbook: Logbook, day: number): Iterable<Finding | RowFinding> {
  for (const state of ordersOn(logbook, day)) yield* ofOrder(logbook, state, day);
  yield* ofGone(logbook);
}

function* ofOrder(logbook: Logbook, state: OrderState, day: number): Iterable<Finding> {
  const { order, missing, late } = state;
  if (missing === 0 || Number.isNaN(late)) return;
  const what = state.lines
    .filter((line) => line.missing > 0)
    .map(({ species, missing: count }) => `${formatNumber(count, 6)} ${species}`)
    .join(", ");
  if (late > 0)
    yield definitionFinding(
      order,
      "order/late",
      "due",
      `${order.name} was due on ${spokenDay(order.due, day)}, ${days(late)} ago: ${what} are missing`,
      () => whyOrder(state),
    );
  if (late < -warnDays) return;
  const last = Math.max(order.due, day);
  const lacking = state.lines.filter((line) => line.missing > 0 && !(line.from <= last));
  if (lacking.length === 0) return;
  const why = lacking.map((line) => lackText(logbook, line, day)).join("; ");
  const when = late > 0 ? "is late" : late === 0 ? "is due today" : `is due on ${spokenDay(order.due, day)}`;
  yield definitionFinding(
    order,
    "order/short",
    "wants",
    `${order.name} ${when} and cannot be filled: ${why}`,
    () => whyOrder(state),
  );
}

/** `praecox 2 short`, `praecox not before 4 April (q1: quarantine until 4 April)`. */
function lackText({ book }: Logbook, { species, short, from, sources }: OrderLine, day: number): string {
  if (short > 0) return `${species} ${formatNumber(short, 6)} short`;
  const when = Number.isFinite(from) ? `not before ${spokenDay(from, day)}` : "nobody can say from when";
  const held = sources
    .filter(({ release }) => release.reasons.length > 0)
    .slice(0, 3)
    .map(({ release }) => `${release.tank.name}: ${reasonsText(book, release.reasons, day)}`);
  return `${species} ${when} (${held.join("; ")})`;
}

function definitionFinding(
  order: Order,
  code: OrderCode,
  word: string,
  message: string,
  why: () => Why,
): Finding {
  const { block } = order.place;
  const { start, end } = property(block.definition, word) ?? order.place;
  return {
    code,
    severity: severityOf(code),
    block,
    start,
    end,
    message,
    fixes: [],
    related: [],
    get why() {
      return why();
    },
  };
}

/** What an order wants, what went, and what is there for the rest. */
export function whyOrder({ order, lines, gone }: OrderState): Why {
  return {
    what: `order ${order.name}`,
    value: lines.map(({ species, missing }) => `${formatNumber(missing, 6)} ${species} missing`).join(", "),
    formula: "missing = wanted - sold - shipped, by the entries that name the order",
    from: lines.map((line) => ({
      what: `${line.species}: ${formatNumber(line.wanted, 6)} wanted`,
      value: `${formatNumber(line.gone, 6)} gone`,
      place: line.place,
      from: [
        ...gone
          .filter(({ species }) => species === line.species)
          .map(({ row }) => whyEntry({ block: row.block, row: row.id })),
        ...line.sources.map(({ release, animals }) => ({
          what: `${release.tank.name}: ${formatNumber(animals, 6)} there, less what orders before it take`,
          value: Number.isFinite(release.from)
            ? `from ${spokenDay(release.from)}`
            : "nobody can say from when",
          from: release.reasons.map((reason) => reason.why()),
        })),
      ],
    })),
  };
}

function* ofGone(logbook: Logbook): Iterable<RowFinding> {
  const { orders } = logbook.book;
  if (orders.size === 0) return;
  const sent = new Map<string, { animals: number; rows: Gone[] }>();
  for (const gone of goneUntil(logbook, Number.POSITIVE_INFINITY)) {
    const { order: name, species, animals, row } = gone;
    if (name === "") continue;
    const base = { block: row.block, row: row.id };
    const known = orders.get(name);
    if (known === undefined) {
      const waiting = waitingFor(logbook, species, row.day);
      if (waiting.length > 0)
        yield {
          ...base,
          code: "order/unknown",
          slots: ["order"],
          severity: () => severityOf("order/unknown"),
          message: () =>
            `${name} is not defined; ${waiting.map((each) => each.name).join(" and ")} ${waiting.length === 1 ? "waits" : "wait"} for ${species}`,
          related: () => waiting.map((each) => ({ place: each.place, message: `order ${each.name}` })),
          fixes: (place) =>
            replacing(
              row.block,
              place,
              waiting.map((each) => each.name),
            ),
        };
      continue;
    }
    const wanted = wantsOf(known).get(species);
    if (wanted === undefined) {
      yield {
        ...base,
        code: "order/not-wanted",
        slots: ["species"],
        severity: () => severityOf("order/not-wanted"),
        message: () => `${name} does not want ${species}; it wants ${[...wantsOf(known).keys()].join(", ")}`,
        related: () => [{ place: known.place, message: `order ${name}` }],
        why: () => whyStated(known.place),
      };
      continue;
    }
    const key = `${name} ${species}`;
    const before = sent.get(key) ?? { animals: 0, rows: [] };
    const after = before.animals + animals;
    sent.set(key, { animals: after, rows: [...before.rows, gone] });
    if (after <= wanted.animals) continue;
    const earlier = before.rows;
    yield {
      ...base,
      code: "order/more-than-wanted",
      slots: ["animals"],
      severity: () => severityOf("order/more-than-wanted"),
      message: () =>
        `${name} wants ${formatNumber(wanted.animals, 6)} ${species}; with these ${formatNumber(after, 6)} have gone`,
      related: () => [
        { place: wanted.place, message: "what it wants" },
        ...earlier.slice(-3).flatMap(({ row: each }) => {
          const place = placeOfRow(each.block, each.id);
          return place === undefined ? [] : [{ place, message: "gone before" }];
        }),
      ],
      why: () => ({
        what: `${species} gone for ${name}`,
        value: `${formatNumber(after, 6)} of ${formatNumber(wanted.animals, 6)}`,
        from: [
          whyStated(wanted.place),
          ...[...earlier, gone].map(({ row: each }) => whyEntry({ block: each.block, row: each.id })),
        ],
      }),
    };
  }
}

/** Orders that wait for a species on a day: placed by then, not long over, and not filled by the end of it. */
const waitingFor = (logbook: Logbook, species: string, day: number): Order[] =>
  promised(logbook, species, day, "")
    .map(({ order }) => order)
    .filter(({ due }) => !(due + longOverDays < day));

/** An order that was due so long ago is not what a line of today means. A choice of this tool. */
const longOverDays = 30;
