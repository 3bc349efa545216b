import { isoOf } from "../../book/dates.ts";
import type { CaseLineCard, PeriodCard, WorkSumCard } from "../../features/period-cards.ts";
import { lightChangeOf } from "../light-form.ts";
import type { Opened } from "../open.ts";
import type { PeriodReport } from "../schema/period.ts";
import { stockReportOf } from "../stock/report.ts";
import { dayOrNull, placesIn } from "../tank/report.ts";

type RoomReport = PeriodReport["logbooks"][number];

/** A period of a logbook in the form of `--json`: days in ISO 8601, places as lines and columns. */
export function periodReportOf(opened: Opened, card: PeriodCard): RoomReport {
  const at = placesIn(opened);
  const { work, water, cases, spending, log } = card;
  return {
    folder: opened.folder,
    title: opened.checked.book.title,
    from: isoOf(card.from),
    to: isoOf(card.to),
    day: isoOf(card.day),
    log: { ...log, begins: dayOrNull(log.begins) },
    work: {
      acts: work.acts.map((each) => ({ ...each })),
      places: work.places.map((each) => ({ ...each })),
      total: totalOf(work.total),
      missed: work.missed.map((each) => ({
        ...each,
        late: each.late.map(({ due, done, days }) => ({ due: isoOf(due), done: isoOf(done), days })),
        open: each.open === null ? null : { due: isoOf(each.open.due), late: each.open.late },
        at: at(each.at),
      })),
    },
    water: {
      ...water,
      places: water.places.map((each) => ({ ...each })),
      sources: water.sources.map((each) => ({ ...each })),
    },
    stock: stockReportOf(opened, card.stock),
    tests: card.tests.map((each) => ({ ...each, day: isoOf(each.day), at: at(each.at) })),
    trends: { ...card.trends, turned: card.trends.turned.map((each) => ({ ...each })) },
    cases: {
      opened: cases.opened.map(caseOf),
      closed: cases.closed.map(caseOf),
      open: cases.open.map(caseOf),
    },
    remedies: card.remedies.map((each) => ({ ...each, amounts: [...each.amounts] })),
    broods: [...card.broods],
    orders: card.orders.map((each) => ({ ...each, day: isoOf(each.day) })),
    spending: {
      sums: [...spending.sums],
      unpriced: spending.unpriced.map((each) => ({ ...each, day: isoOf(each.day), at: at(each.at) })),
    },
    gear: card.gear.map((each) => ({ ...each, repaired: each.repaired.map((day) => isoOf(day)) })),
    lights: card.lights.map((each) => lightChangeOf(each, at)),
    notes: card.notes.map((each) => ({ ...each, day: isoOf(each.day), at: at(each.at) })),
    daily: card.daily.map((each) => ({ ...each, day: isoOf(each.day) })),
  };
}

function totalOf({ name: _, ...sums }: WorkSumCard): RoomReport["work"]["total"] {
  return sums;
}

const caseOf = (each: CaseLineCard): RoomReport["cases"]["open"][number] => ({
  ...each,
  places: [...each.places],
  since: isoOf(each.since),
  closed: dayOrNull(each.closed),
});
