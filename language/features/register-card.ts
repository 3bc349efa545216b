import { spokenDay } from "../book/dates.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { formatNumber } from "../quantity/format.ts";
import { registerOf } from "../room/register.ts";
import { known, rowLocation } from "./card-parts.ts";
import { type Cell, caution, figure, type Report, table, text } from "./document.ts";
import type { Location } from "./view.ts";

/** What was sold and shipped in a period, as plain JSON. Days as in `cards.ts`. */
export interface RegisterCard {
  readonly is: "register";
  readonly from: number;
  readonly to: number;
  readonly rows: readonly {
    readonly day: number;
    readonly how: "sell" | "ship";
    readonly buyer: string;
    readonly order: string;
    readonly carrier: string;
    readonly species: string;
    readonly title: string;
    readonly animals: number;
    readonly lot: string;
    readonly tank: string;
    /** The last dose of each remedy within a year before. */
    readonly treatments: readonly { readonly remedy: string; readonly day: number }[];
    /**
     * The first day after quarantine, by the clock of its tank or since the last animal from outside came into it; null where none came in
     * two years, or no quarantine is stated.
     */
    readonly quarantineEnd: number | null;
    readonly at: Location | null;
  }[];
  readonly totals: readonly { readonly species: string; readonly sold: number; readonly shipped: number }[];
}

export function registerCard(checked: CheckedLogbook, from: number, to: number): RegisterCard {
  const all = registerOf(checked.logbook, from, to);
  const totals = new Map<string, { sold: number; shipped: number }>();
  for (const { gone, animals } of all) {
    const total = totals.get(gone.species) ?? { sold: 0, shipped: 0 };
    if (gone.how === "sell") total.sold += animals;
    else total.shipped += animals;
    totals.set(gone.species, total);
  }
  return {
    is: "register",
    from,
    to,
    rows: all.map(({ gone, tank, animals, buyer, carrier, treatments, quarantineEnd }) => ({
      day: gone.row.day,
      how: gone.how,
      buyer,
      order: gone.order,
      carrier,
      species: gone.species,
      title: checked.book.species.get(gone.species)?.title ?? "",
      animals,
      lot: gone.lot,
      tank: tank?.name ?? "",
      treatments: treatments.map(({ remedy, day }) => ({ remedy: remedy.name, day })),
      quarantineEnd: known(quarantineEnd),
      at: rowLocation(gone.row.block, gone.row.id),
    })),
    totals: [...totals].map(([species, total]) => ({ species, ...total })),
  };
}

export function registerReport({ from, to, rows, totals }: RegisterCard, title: string): Report {
  const about = [title, `${spokenDay(from)} to ${spokenDay(to)}`].filter(Boolean).join(", ");
  const count = (animals: number): string => formatNumber(animals, 6);
  if (rows.length === 0)
    return {
      title: "Sold and shipped",
      about,
      sections: [{ title: "Register", parts: [text("Nothing was sold or shipped in this time.")] }],
    };
  return {
    title: "Sold and shipped",
    about,
    sections: [
      {
        title: "Register",
        note: `${rows.length} ${rows.length === 1 ? "row" : "rows"}`,
        parts: [
          table(
            [
              "Day",
              "",
              "Buyer",
              "Order",
              "Species",
              figure("Animals"),
              "Lot",
              "Tank",
              "Treated",
              "Quarantine ended",
            ],
            rows.map((row): Cell[] => [
              `${spokenDay(row.day, to)}, ${row.how === "sell" ? "sold" : "shipped"}`,
              row.buyer,
              row.order,
              row.species,
              count(row.animals),
              row.lot,
              row.tank,
              row.treatments.map(({ remedy, day }) => `${remedy} ${spokenDay(day, to)}`).join(", "),
              row.quarantineEnd === null
                ? ""
                : row.quarantineEnd > row.day
                  ? { text: `not before ${spokenDay(row.quarantineEnd, to)}`, tone: "warning" }
                  : spokenDay(row.quarantineEnd, to),
            ]),
          ),
          text(
            "Treated: the last dose of each remedy in the water within a year before. Quarantine: since the last animals from outside came into that tank.",
            "faint",
          ),
          caution(
            "Which records a seller must keep, and how long, the law of the place says; this holds what the log says and no more.",
          ),
        ],
      },
      {
        title: "By species",
        parts: [
          table(
            ["Species", figure("Sold"), figure("Shipped")],
            totals.map(({ species, sold, shipped }): Cell[] => [species, count(sold), count(shipped)]),
          ),
        ],
      },
    ],
  };
}
