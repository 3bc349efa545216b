import { formatNumber } from "../quantity/format.ts";
import { deadReports } from "../room/dead-on-arrival.ts";
import type { Logbook } from "../room/logbook.ts";
import { type Gone, goneUntil } from "../room/orders.ts";
import { placeOfRow, whyEntry } from "../room/why.ts";
import { page } from "./code.ts";
import type { RowFinding } from "./observe.ts";
import { replacing } from "./offers.ts";

/** What buyers reported of shipments against the shipments. */

const prelude = `species praecox
tank dam
  volume 300 L
`;

export const arrivalPages = [
  page({
    code: "doa/no-shipment",
    severity: "warning",
    since: "0.2",
    title: "Dead on arrival without a shipment",
    says: "A buyer's report names an order, or animals, of which no shipment is written down before it. It counts in no figure.",
    whatToDo: "Correct the order, or write the shipment that is missing with its order.",
    raises: `${prelude}2026-03-10
  dam count praecox 20
  dam ship praecox 6 order o-1
2026-03-12
  room doa praecox 1 order o-7
#                          ^^^ doa/no-shipment`,
    fine: `${prelude}2026-03-10
  dam count praecox 20
  dam ship praecox 6 order o-1
2026-03-12
  room doa praecox 1 order o-1`,
  }),
  page({
    code: "doa/more-than-sent",
    severity: "warning",
    since: "0.2",
    title: "More dead than were sent",
    says: "With this report more animals of the species arrived dead than were shipped for the order.",
    whatToDo: "Correct the number, or the shipment.",
    raises: `${prelude}2026-03-10
  dam count praecox 20
  dam ship praecox 6 order o-1
2026-03-12
  room doa praecox 8 order o-1
#                  ^ doa/more-than-sent`,
    fine: `${prelude}2026-03-10
  dam count praecox 20
  dam ship praecox 6 order o-1
2026-03-12
  room doa praecox 6 order o-1`,
  }),
] as const;

const severityOf = (code: (typeof arrivalPages)[number]["code"]) =>
  arrivalPages.find((each) => each.code === code)!.severity;

export function* reportFindings(logbook: Logbook): Iterable<RowFinding> {
  const dead = new Map<string, number>();
  const all = deadReports(logbook, Number.POSITIVE_INFINITY);
  if (all.length === 0) return;
  const shipped = goneUntil(logbook, Number.POSITIVE_INFINITY).filter(({ how }) => how === "ship");
  const byOrder = new Map<string, Gone[]>();
  for (const each of shipped) {
    const known = byOrder.get(each.order);
    if (known === undefined) byOrder.set(each.order, [each]);
    else known.push(each);
  }
  for (const { row, order: name, species, dead: count } of all) {
    const ofOrder = (byOrder.get(name) ?? []).filter((each) => each.row.time <= row.time);
    const sent = ofOrder.filter((each) => each.species === species);
    const base = { block: row.block, row: row.id };
    const related = () =>
      sent.slice(-3).flatMap(({ row: each }) => {
        const place = placeOfRow(each.block, each.id);
        return place === undefined ? [] : [{ place, message: "the shipment" }];
      });
    if (ofOrder.length === 0 || (species !== "none" && sent.length === 0)) {
      yield {
        ...base,
        code: "doa/no-shipment",
        slots: ofOrder.length === 0 ? ["order"] : ["species"],
        severity: () => severityOf("doa/no-shipment"),
        message: () =>
          ofOrder.length === 0
            ? `no shipment of ${name} is written down before this`
            : `no ${species} were shipped for ${name}`,
        fixes: (place) =>
          ofOrder.length === 0
            ? replacing(row.block, place, unreported(shipped, all, row.time, species))
            : [],
      };
      continue;
    }
    if (species === "none") continue;
    const key = `${name} ${species}`;
    const together = (dead.get(key) ?? 0) + count;
    dead.set(key, together);
    const packed = sent.reduce((sum, { animals }) => sum + animals, 0);
    if (together <= packed) continue;
    yield {
      ...base,
      code: "doa/more-than-sent",
      slots: ["animals"],
      severity: () => severityOf("doa/more-than-sent"),
      message: () =>
        `${formatNumber(together, 6)} ${species} arrived dead of ${formatNumber(packed, 6)} that were shipped for ${name}`,
      related,
      why: () => ({
        what: `${species} shipped for ${name}`,
        value: formatNumber(packed, 6),
        from: sent.map(({ row: each }) => whyEntry({ block: each.block, row: each.id })),
      }),
    };
  }
}

/** Orders that were shipped before a time and of which no buyer has reported, the latest first. */
function unreported(
  shipped: readonly Gone[],
  reports: ReturnType<typeof deadReports>,
  time: number,
  species: string,
): string[] {
  const told = new Set(reports.map(({ order: name }) => name));
  const names = shipped
    .filter((each) => each.order !== "" && each.row.time <= time && !told.has(each.order))
    .filter((each) => species === "none" || each.species === species)
    .map(({ order: name }) => name);
  return [...new Set(names.reverse())].slice(0, 3);
}
