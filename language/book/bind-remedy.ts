import { UNITS } from "../quantity/units.ts";
import { Mark } from "../syntax/pieces.ts";
import { type Book, one, property, wordsOf } from "./book.ts";
import type { Definition } from "./definition.ts";
import type { Place, Remedy } from "./stations.ts";

/** A remedy with its figures in canonical units. */
export function remedyOf(book: Book, id: number, definition: Definition, place: Place): Remedy {
  const { block } = place;
  const target = one(definition, "target")?.target;
  const ceiling = one(definition, "ceiling")?.ceiling;
  const dimension = [target, ceiling].some(
    (value) => value !== undefined && UNITS[value.unit]?.dimension === "volume-concentration",
  )
    ? "volume-concentration"
    : "concentration";
  const low = book.number(block, target, dimension);
  const high =
    target?.mark === Mark.range ? book.units.canonical(target.second, target.unit, dimension) : low;
  const strength = one(definition, "strength")?.strength;
  const isLiquid = strength !== undefined && UNITS[strength.unit]?.dimension === "concentration";
  const repeat = one(definition, "repeat");
  const harms = property(definition, "harms");
  const before = one(definition, "change-before")?.["change-before"];
  return {
    id,
    name: definition.name,
    title: definition.title,
    place,
    unit: dimension === "concentration" ? "mg/L" : "uL/L",
    targetLow: target?.mark === Mark.atMost ? Number.NaN : low,
    targetHigh: high,
    ceiling: book.number(block, ceiling, dimension),
    activeFraction:
      strength === undefined || isLiquid ? Number.NaN : book.number(block, strength, "fraction"),
    // mg/L of the product is ug in each mL.
    activeMgPerML: isLiquid ? book.number(block, strength, "concentration") / 1000 : Number.NaN,
    dropML: book.number(block, one(definition, "drop")?.drop, "volume") * 1000,
    repeatTimes: repeat?.times?.value ?? Number.NaN,
    repeatDays: book.number(block, repeat?.interval, "duration"),
    changeBefore: before === undefined ? Number.NaN : book.number(block, before, "fraction"),
    halfLifeDays: book.number(block, one(definition, "half-life")?.["half-life"], "duration"),
    harms: harms === undefined ? [] : wordsOf(block, harms),
    withdrawalDays: book.number(block, one(definition, "withdrawal")?.withdrawal, "duration"),
    source: one(definition, "source")?.source?.text ?? "",
  };
}
