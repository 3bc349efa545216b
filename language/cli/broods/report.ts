import { isoOf } from "../../book/dates.ts";
import type { BroodCard, BroodsCard, LotCard } from "../../features/brood-cards.ts";
import type { Opened } from "../open.ts";
import type { BroodsReport } from "../schema.ts";
import { type At, dayOrNull, placesIn, whyOf } from "../tank/report.ts";

type LogbookBroods = BroodsReport["logbooks"][number];

/** The broods of a logbook in the form of `--json`: days in ISO 8601, places as lines and columns. @param asked the lot asked for */
export function broodsReportOf(opened: Opened, card: BroodsCard, asked: LotCard | undefined): LogbookBroods {
  const at = placesIn(opened);
  return {
    folder: opened.folder,
    title: opened.checked.book.title,
    day: isoOf(card.day),
    broods: (asked === undefined ? card.broods : [asked.brood])
      .filter((brood) => brood !== null)
      .map((brood) => broodOf(brood, at)),
    pairs:
      asked !== undefined
        ? []
        : card.pairs.map((each) => ({
            ...each,
            shares: each.shares.map((share) => ({ ...share })),
            at: at(each.at),
          })),
    compared: asked !== undefined ? [] : card.compared.map((each) => ({ ...each })),
    lot: asked === undefined ? null : lotOf(asked, at),
  };
}

export function broodOf(card: BroodCard, at: At): LogbookBroods["broods"][number] {
  const { expected } = card;
  return {
    ...card,
    where: card.where.map((each) => ({ ...each })),
    stages: card.stages.map((each) => ({ ...each, day: isoOf(each.day), at: at(each.at) })),
    shares: card.shares.map((each) => ({ ...each, why: whyOf(each.why, at) })),
    expected:
      expected === null
        ? null
        : {
            ...expected,
            earliest: dayOrNull(expected.earliest),
            likely: dayOrNull(expected.likely),
            latest: dayOrNull(expected.latest),
            why: whyOf(expected.why, at),
          },
    took: card.took.map((each) => ({ ...each })),
    inbreeding: inbreedingOf(card.inbreeding, at),
    at: at(card.at),
  };
}

function lotOf(card: LotCard, at: At): NonNullable<LogbookBroods["lot"]> {
  return {
    ...card,
    born: dayOrNull(card.born),
    brood: card.brood === null ? null : broodOf(card.brood, at),
    entries: card.entries.map((each) => ({ ...each, day: isoOf(each.day), at: at(each.at) })),
    ancestors: card.ancestors.map((each) => ({ ...each, at: at(each.at) })),
    inbreeding: inbreedingOf(card.inbreeding, at),
    young: card.young.map((each) => ({ ...each, at: at(each.at) })),
  };
}

const inbreedingOf = (inbreeding: BroodCard["inbreeding"], at: At) =>
  inbreeding === null ? null : { ...inbreeding, why: whyOf(inbreeding.why, at) };
