import type { Book } from "../../book/book.ts";
import { isoOf } from "../../book/dates.ts";
import type { WaterChange, WaterDay, WaterNeed } from "../../features/water-day.ts";
import { notStated } from "../../features/water-unstated.ts";
import { capacityOn } from "../../room/capacity.ts";
import type { Litres } from "../../room/changes-due.ts";
import type { Opened } from "../open.ts";
import type { WaterReport } from "../schema.ts";

type LogbookWater = WaterReport["logbooks"][number];
type Day = LogbookWater["days"][number];

/** Water to prepare in the form of `--json`: days in ISO 8601, null for what is not known. */
export function waterOf(opened: Opened, days: readonly WaterDay[]): LogbookWater {
  const { book } = opened.checked;
  return {
    folder: opened.folder,
    title: book.title,
    capacity: known(book.capacity.litres),
    days: days.map(({ day, changes, waters, litres, minutes }) => ({
      day: isoOf(day),
      capacity: known(capacityOn(book, day).litres),
      away: capacityOn(book, day).away ?? null,
      changes: changes.map(changeOf),
      waters: waters.map((need) => needOf(book, need)),
      litres: litres ?? null,
      minutes: minutes ?? null,
    })),
    notStated: notStated(book, days),
  };
}

const known = (value: number): number | null => (Number.isFinite(value) ? value : null);
const times = ({ low, high }: Litres, factor: number): Litres => ({ low: low * factor, high: high * factor });

function changeOf({ warmth, litres, share, minutes, ...change }: WaterChange): Day["changes"][number] {
  return {
    ...change,
    litres: litres ?? null,
    share: share ?? null,
    minutes: minutes ?? null,
    temperature:
      warmth === undefined
        ? null
        : {
            tank: known(warmth.tankC),
            read: Number.isFinite(warmth.day) ? isoOf(warmth.day) : null,
            source: known(warmth.sourceC),
            change: warmth.change ?? null,
            mix: warmth.mix ?? null,
          },
  };
}

function needOf(
  { units }: Book,
  { name, title, litres, direct, into, made, problem, conditioner }: WaterNeed,
): Day["waters"][number] {
  return {
    water: name,
    title,
    litres,
    direct: direct ?? null,
    into: [...into],
    problem,
    made:
      made === undefined
        ? null
        : {
            isStated: made.isStated,
            parts: made.parts.map(({ water, share }) => ({
              water: water.name,
              share,
              litres: times(litres, share),
            })),
            salts: made.salts.map(({ formula, mgL }) => ({
              formula,
              mgL,
              grams: times(litres, mgL / 1000),
            })),
            reached: made.reached.map(({ parameter, wanted, reached, isMet }) => ({
              parameter: parameter.name,
              unit: units.shown(parameter).symbol,
              wanted: units.fromReading(parameter, wanted),
              reached: units.fromReading(parameter, reached),
              isMet,
            })),
            remarks: [...made.remarks],
          },
    conditioner:
      conditioner === undefined
        ? null
        : {
            totalMgL: conditioner.totalMgL,
            combinedMgL: conditioner.combinedMgL,
            thiosulfateMg: conditioner.crystalsMg,
          },
  };
}
