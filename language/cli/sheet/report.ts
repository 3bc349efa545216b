import { clockOf, isoOf } from "../../book/dates.ts";
import { known } from "../../features/card-parts.ts";
import type { Field } from "../../features/laboratory/field.ts";
import { missingFields } from "../../features/laboratory/report-parts.ts";
import type { LaboratorySheet } from "../../features/laboratory-sheet.ts";
import type { Opened } from "../open.ts";
import { logbookReport } from "../report.ts";
import type { SheetReport } from "../schema.ts";

/** A laboratory sheet in the form of `--json`: days in ISO 8601, null where nobody says. Charts are left out: their figures are here. */
export function sheetReportOf(
  opened: Opened,
  sheet: LaboratorySheet,
  worldDay: number,
): Omit<SheetReport, "standpipe" | "command" | "unread"> {
  const { disease, parcel, closed } = sheet;
  return {
    ...logbookReport(opened, worldDay),
    case: sheet.case,
    day: isoOf(sheet.day),
    since: isoOf(sheet.since),
    episode: sheet.episode,
    closed: Number.isNaN(closed) ? null : isoOf(closed),
    keeper: sheet.keeper.map(fieldOf),
    laboratory: fieldOf(parcel.laboratory),
    asked: fieldOf(parcel.asked),
    questions: [...parcel.questions],
    firstSign: fieldOf(disease.first),
    tanks: sheet.tanks.map((tank) => ({ ...tank, fields: tank.fields.map(fieldOf) })),
    animals: sheet.animals.map((row) => ({ ...row, age: fieldOf(row.age), size: fieldOf(row.size) })),
    arrivals: sheet.arrivals.map(dated),
    course: disease.course.map(({ affected, atRisk, fresh, ...row }) => ({
      ...dated(row),
      affected: known(affected),
      atRisk: known(atRisk),
      new: known(fresh),
    })),
    signs: disease.signs.map((sign) => ({ ...sign, first: isoOf(sign.first), last: isoOf(sign.last) })),
    otherSigns: [...disease.otherSigns],
    rates: [...disease.rates],
    losses: disease.losses.map(dated),
    waters: sheet.waters.map(({ of, rows, figures }) => ({
      of,
      rows: rows.map(({ parameter, unit, latest, short, long, limit }) => ({
        parameter,
        unit,
        latest: latest === null ? null : dated(latest),
        last30: { ...short },
        last90: { ...long },
        limit,
      })),
      figures: figures.map(dated),
    })),
    sources: sheet.sources.map((source) => ({ ...source, content: fieldOf(source.content) })),
    changes: sheet.changes.map(dated),
    feedings: sheet.feedings.map(({ tank, last, often, foods }) => ({
      tank,
      last: fieldOf(last),
      often: fieldOf(often),
      foods: foods.map((food) => ({ ...food, last: isoOf(food.last) })),
    })),
    events: sheet.events.map(dated),
    treatments: sheet.treatments.map(({ of, remedy, title, state, fields, doses }) => ({
      of,
      remedy,
      title,
      state,
      fields: fields.map(fieldOf),
      doses: doses.map(timed),
    })),
    baths: sheet.baths.map(timed),
    exposed: {
      window: sheet.exposed.window,
      hold: sheet.exposed.hold.map((row) => ({ ...row, since: isoOf(row.since) })),
      back: sheet.exposed.back.map((row) => ({ ...row, last: isoOf(row.last) })),
    },
    samples: parcel.samples.map(
      ({
        time,
        isTimed,
        text: _,
        keptText: _kept,
        strengthLow,
        strengthHigh,
        missing,
        count,
        volumes,
        ...sample
      }) => ({
        ...stampOf(time, isTimed),
        ...sample,
        count: known(count),
        volumes: known(volumes),
        strengthPercent: Number.isNaN(strengthLow) ? null : { low: strengthLow, high: strengthHigh },
        missing: [...missing],
      }),
    ),
    custody: parcel.custody.map(({ time, isTimed, ...step }) => ({ ...stampOf(time, isTimed), ...step })),
    results: parcel.results.map(dated),
    missing: missingFields(sheet),
  };
}

const fieldOf = ({ name, text, missing }: Field): SheetReport["asked"] => ({
  name,
  text: text === "" ? null : text,
  missing: text === "" ? missing : null,
});

const dated = <T extends { readonly day: number }>(row: T): Omit<T, "day"> & { day: string } => ({
  ...row,
  day: isoOf(row.day),
});

const stampOf = (time: number, isTimed: boolean): { day: string; clock: string | null } => ({
  day: isoOf(time),
  clock: isTimed ? clockOf(time) : null,
});

/** What counts as at 00:00 has no time of day that is known. */
const timed = <T extends { readonly time: number }>({ time, ...row }: T) => ({
  ...stampOf(time, clockOf(time) !== "00:00"),
  ...row,
});
