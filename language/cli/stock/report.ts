import { isoOf } from "../../book/dates.ts";
import type { Register } from "../../features/register.ts";
import type { StockCard, StockLine } from "../../features/stock-cards.ts";
import type { Opened } from "../open.ts";
import type { StockRegisterReport, StockReport } from "../schema/stock.ts";
import { type At, dayOrNull, placesIn, whyOf } from "../tank/report.ts";

/** The stock of a logbook in the form of `--json`: days in ISO 8601, places as lines and columns. */
export function stockReportOf(opened: Opened, card: StockCard): StockReport["logbooks"][number] {
  const at = placesIn(opened);
  return {
    ...roomOf(opened, card),
    lines: card.lines.map((line) => lineOf(line, at)),
    total: lineOf(card.total, at),
    deadOnArrival: card.dead.map(({ by, name, consignments, animals, dead, best, low, high, after }) => ({
      by: by === "carrier" ? "carrier" : "supplier",
      name,
      consignments,
      animals,
      dead,
      best,
      low,
      high,
      lostAfter: after === null ? null : after.lost,
    })),
    lots: card.lots.map((lot) => ({
      ...lot,
      born: dayOrNull(lot.born),
      homes: [...lot.homes],
      life:
        lot.life === null ? null : { ...lot.life, since: isoOf(lot.life.since), table: [...lot.life.table] },
      at: at(lot.at),
    })),
    tanks: card.tanks.map((tank) => ({
      ...tank,
      unweighed: [...tank.unweighed],
      oxygen:
        tank.oxygen === null
          ? null
          : { ...tank.oxygen, without: [...tank.oxygen.without], why: whyOf(tank.oxygen.why, at) },
      why: whyOf(tank.why, at),
    })),
    measured: card.measured.map(({ sexes, trends, ...names }) => ({
      ...names,
      sexes: sexes === null ? null : { ...sexes, day: isoOf(sexes.day), at: at(sexes.at) },
      trends: trends.map((trend) => ({ ...trend, day: isoOf(trend.day), at: at(trend.at) })),
    })),
  };
}

export function registerOf(opened: Opened, register: Register): StockRegisterReport["register"][number] {
  const at = placesIn(opened);
  return {
    ...roomOf(opened, register),
    entries: register.entries.map((entry) => ({ ...entry, day: isoOf(entry.day), at: at(entry.at) })),
    list: [...register.list],
  };
}

function roomOf({ folder, checked }: Opened, { from, to }: { readonly from: number; readonly to: number }) {
  return { folder, title: checked.book.title, from: isoOf(from), to: isoOf(to) };
}

function lineOf({ why, ...line }: StockLine, at: At): StockReport["logbooks"][number]["total"] {
  return { ...line, why: why === null ? null : whyOf(why, at) };
}
