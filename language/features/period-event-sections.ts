import { spokenDay } from "../book/dates.ts";
import { formatNumber } from "../quantity/format.ts";
import { figure, type Line, list, type Part, type Section, table, text } from "./document.ts";
import { lightChangeLines } from "./light-words.ts";
import type { CaseLineCard, PeriodCard } from "./period-cards.ts";

/** Sections of the report of a period: cases, remedies, broods, orders, spending, gear, notes. What there was none of is left out. */

export const eventSections = (card: PeriodCard): readonly (Section | undefined)[] => [
  caseSection(card),
  remedySection(card),
  broodSection(card),
  orderSection(card),
  spendingSection(card),
  gearSection(card),
  lightSection(card),
  noteSection(card),
];

function caseSection({ cases, from, to }: PeriodCard): Section | undefined {
  const { opened, closed, open } = cases;
  if (opened.length + closed.length + open.length === 0) return undefined;
  const line = ({ name, places, since, closed: end, outcome, text: told }: CaseLineCard): Line => ({
    text: `${name === "" ? "signs without a case" : name}: ${[places.join(", "), told].filter(Boolean).join(", ")}`,
    note: `since ${spokenDay(since, to)}${end === null ? "" : `, closed on ${spokenDay(end, to)}${outcome === "" ? "" : `: ${outcome}`}`}`,
  });
  const part = (title: string, all: readonly CaseLineCard[]): Part[] =>
    all.length === 0 ? [] : [text(title), list(all.map(line))];
  return {
    title: "Cases",
    note: `${opened.length} opened, ${closed.length} closed, ${open.length} open`,
    parts: [
      ...part("Opened in this time:", opened),
      ...part("Closed in this time:", closed),
      ...part(
        "Open at the end, from before:",
        open.filter(({ since }) => since < from),
      ),
    ],
  };
}

function remedySection({ remedies }: PeriodCard): Section | undefined {
  if (remedies.length === 0) return undefined;
  return {
    title: "Remedies used",
    parts: [
      table(
        ["remedy", figure("doses"), "given in all", figure("baths")],
        remedies.map(({ remedy, doses, amounts, unknown, baths }) => [
          remedy,
          count(doses),
          [
            ...amounts.map(({ amount, unit }) =>
              unit === "g" && amount < 1
                ? `${formatNumber(amount * 1000)} mg`
                : `${formatNumber(amount)} ${unit}`,
            ),
            ...(unknown > 0 ? [`${count(unknown)} of which nobody knows how much`] : []),
          ].join(", "),
          baths === 0 ? "" : count(baths),
        ]),
      ),
      text("By what the doses say; what went into the vessels of baths is not in it.", "faint"),
    ],
  };
}

function broodSection({ broods }: PeriodCard): Section | undefined {
  if (broods.length === 0) return undefined;
  const told = (times: number, value: number | null, isAbout: boolean): string =>
    times === 0 ? "" : value === null ? "not counted" : `${isAbout ? "~" : ""}${count(value)}`;
  return {
    title: "Broods",
    parts: [
      table(
        ["species", figure("spawnings"), figure("laid"), figure("hatched"), figure("swimming")],
        broods.map(({ species, spawnings, laid, hatched, swimming, hatches, swims, isAbout }) => [
          species,
          spawnings === 0 ? "" : count(spawnings),
          told(spawnings, laid, isAbout),
          told(hatches, hatched, isAbout),
          told(swims, swimming, isAbout),
        ]),
      ),
    ],
  };
}

function orderSection({ orders, to }: PeriodCard): Section | undefined {
  if (orders.length === 0) return undefined;
  const dead = orders.reduce((sum, each) => sum + (each.dead ?? 0), 0);
  const animals = orders.reduce((sum, each) => sum + each.animals, 0);
  return {
    title: "Sold and sent",
    note: `${count(animals)} animals${dead > 0 ? `, ${count(dead)} dead on arrival` : ""}`,
    parts: [
      table(
        ["day", "how", "order", "what", figure("dead on arrival")],
        orders.map(({ day, how, order, text: what, dead: died }) => [
          spokenDay(day, to),
          how === "ship" ? "sent" : "sold",
          order,
          what,
          died === null ? "" : died === 0 ? "none" : { text: count(died), tone: "warning" as const },
        ]),
      ),
      text(
        "Dead on arrival as buyers have reported; empty: no report, or told with an earlier part of the order.",
        "faint",
      ),
    ],
  };
}

function spendingSection({ spending, to }: PeriodCard): Section | undefined {
  const { sums, unpriced } = spending;
  if (sums.length + unpriced.length === 0) return undefined;
  const parts: Part[] = [];
  if (sums.length > 0)
    parts.push(
      table(
        ["currency", "for", figure("purchases"), figure("sum")],
        sums.map(({ currency, is, amount, purchases }) => [
          currency === "" ? "none is written" : currency,
          whats[is],
          count(purchases),
          money(amount),
        ]),
      ),
      text("Currencies are not added to one another.", "faint"),
    );
  if (unpriced.length > 0)
    parts.push(
      text(
        `Without a price: ${unpriced.map(({ name, day }) => `${name} (${spokenDay(day, to)})`).join(", ")}. They are in no sum.`,
      ),
    );
  return { title: "Spent on food and remedies", parts };
}

const whats = { food: "food", remedy: "remedies", other: "what is not defined" } as const;

/** Cents are kept. */
const money = (amount: number): string =>
  (Math.round(amount * 100) / 100).toFixed(Number.isInteger(amount) ? 0 : 2);

function gearSection({ gear, to }: PeriodCard): Section | undefined {
  if (gear.length === 0) return undefined;
  const failed = gear.filter(({ repaired }) => repaired.length > 0);
  return {
    title: "Gear serviced",
    note: count(gear.reduce((sum, { times }) => sum + times, 0)),
    parts: [
      list(gear.map(({ gear: name, text: told }) => `${name}: ${told}`)),
      text(
        failed.length === 0
          ? "None was repaired."
          : `Failed and repaired: ${failed.map(({ gear: name, repaired }) => `${name} (${repaired.map((day) => spokenDay(day, to)).join(", ")})`).join(", ")}.`,
      ),
    ],
  };
}

function noteSection({ notes, to }: PeriodCard): Section | undefined {
  if (notes.length === 0) return undefined;
  return {
    title: "Notes",
    note: count(notes.length),
    parts: [
      list(notes.map(({ day, place, text: told }) => ({ text: `${spokenDay(day, to)}, ${place}: ${told}` }))),
    ],
  };
}

const count = (value: number): string => formatNumber(value, 6);

/** Changes of light of which the days after, as many as before, are over: what can be told of them now. */
function lightSection({ lights, to }: PeriodCard): Section | undefined {
  if (lights.length === 0) return undefined;
  return {
    title: "Light changed, before and after",
    note: `${count(lights.length)}`,
    parts: lights.flatMap((change): Part[] => {
      const [head = "", ...lines] = lightChangeLines(change, to);
      return [
        text(`${change.tank}, ${head}`, "strong"),
        list(lines),
        ...(change.remark === "" ? [] : [text(change.remark, "faint")]),
      ];
    }),
  };
}
