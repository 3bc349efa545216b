import { type Facts, unitOfAmount } from "../book/facts.ts";
import type { RoomUnits } from "../book/room-units.ts";
import type { Food } from "../book/stations.ts";
import type { Dimension } from "../quantity/dimension.ts";
import { noUnit } from "../quantity/unit-codes.ts";
import { amountOf } from "./amounts.ts";

/** How much of a food an entry says, by weight where that can be told. */
export interface FoodAmount {
  /** NaN where it has no weight. */
  readonly grams: number;
  /** As written: the number, and the symbol of its unit; of a volume always mL. Empty where nothing is written. */
  readonly value: number;
  readonly symbol: string;
  /** Why it has no weight; empty if it has one. */
  readonly unknown: string;
}

const dimensions: readonly Dimension[] = ["portion", "mass", "volume"];
const mgPerG = 1000;
const mLPerL = 1000;

/** @param food undefined for what is not defined: then only what is written by weight has one */
export function foodAmount(
  food: Food | undefined,
  name: string,
  units: RoomUnits,
  facts: Facts,
  row: number,
): FoodAmount {
  const value = amountOf(facts, row);
  const nothing = { grams: Number.NaN, value: Number.NaN, symbol: "" };
  if (Number.isNaN(value)) return { ...nothing, unknown: "no amount is written" };
  const code = unitOfAmount(facts, row);
  const unit = code === noUnit ? undefined : units.unitAmong(code, dimensions);
  if (unit === undefined) return { ...nothing, unknown: "its unit is not settled" };
  if (unit.dimension === "mass") {
    const grams = (value * unit.factor) / mgPerG;
    return { grams, value: grams, symbol: "g", unknown: "" };
  }
  if (unit.dimension === "volume") {
    const milliliters = value * unit.factor * mLPerL;
    return {
      grams: Number.NaN,
      value: milliliters,
      symbol: "mL",
      unknown: `what a mL of ${name} weighs nobody states`,
    };
  }
  const { symbol } = unit;
  const weight = food?.portionG.get(symbol);
  if (weight === undefined)
    return {
      grams: Number.NaN,
      value,
      symbol,
      unknown: `what a ${symbol} of ${name} weighs is not stated: portion 1 ${symbol} = ... g`,
    };
  return { grams: value * weight, value, symbol, unknown: "" };
}
