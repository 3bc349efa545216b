import { didYouMean, nearest } from "../quantity/nearest.ts";
import { noUnit } from "../quantity/unit-codes.ts";
import { Mark } from "../syntax/pieces.ts";
import { shelfLifeOf } from "./bind-shelf-life.ts";
import type { Binder } from "./binder.ts";
import { type Defined, nameplace, one, property, wordsOf } from "./defined.ts";
import type { Value } from "./reading.ts";
import type { Remedy } from "./stations.ts";

/**
 * Reports what a remedy is stated to harm and nothing here is called: it would never be held against anything.
 * @param harmed kinds, traits and names of species
 */
export function checkHarms(
  binder: Binder,
  { block, definition }: Defined,
  harmed: ReadonlySet<string>,
): void {
  for (const value of property(definition, "harms")?.words ?? []) {
    if (harmed.has(value.text)) continue;
    const near = nearest(value.text, harmed);
    const mends = near.map((text) => ({ title: `Write “${text}”`, text }));
    const message = `no kind, trait or species is called “${value.text}”${didYouMean(near)}`;
    binder.report(block, "name/trait", value, message, mends);
  }
}

const minutesPerDay = 1440;

/** A remedy with its figures in canonical units. */
export function remedyOf(binder: Binder, id: number, defined: Defined): Remedy {
  const { definition } = defined;
  const said = (word: string): Value | undefined => one(definition, word)?.[word];
  const target = said("target");
  const ceiling = said("ceiling");
  const isByVolume = [target, ceiling, one(definition, "bath")?.strength].some(
    (value) =>
      value !== undefined &&
      value.unit !== noUnit &&
      binder.units.unitFor(value.unit, "volume-concentration")?.dimension === "volume-concentration",
  );
  const dimension = isByVolume ? "volume-concentration" : "concentration";
  const low = binder.number(defined, target, dimension);
  const isCeiling = target?.mark === Mark.atMost || target?.mark === Mark.below;
  const isFloor = target?.mark === Mark.atLeast || target?.mark === Mark.above;
  const strength = said("strength");
  const isLiquid =
    strength !== undefined &&
    binder.units.unitFor(strength.unit, "concentration")?.dimension === "concentration";
  const repeat = one(definition, "repeat");
  const bath = one(definition, "bath");
  const bathLow = binder.number(defined, bath?.strength, dimension);
  const bathLowDays = binder.number(defined, bath?.time, "duration");
  return {
    id,
    name: definition.name,
    title: definition.title,
    place: nameplace(defined),
    unit: isByVolume ? "uL/L" : "mg/L",
    targetLow: isCeiling ? Number.NaN : low,
    targetHigh: isFloor ? Number.NaN : target?.mark === Mark.range ? binder.upper(target, dimension) : low,
    ceiling: binder.number(defined, ceiling, dimension),
    activeFraction:
      strength === undefined || isLiquid ? Number.NaN : binder.number(defined, strength, "fraction"),
    // 1 mg/mL is 1000 mg/L.
    activeMgPerML: isLiquid ? binder.number(defined, strength, "concentration") / 1000 : Number.NaN,
    dropML: binder.number(defined, said("drop"), "volume") * 1000,
    repeatTimes: repeat?.times?.value ?? Number.NaN,
    repeatDays: binder.number(defined, repeat?.interval, "duration"),
    changeBefore: binder.number(defined, said("change-before"), "fraction"),
    changeAfter: binder.number(defined, said("change-after"), "fraction"),
    without: wordsOf(definition, "without"),
    active: (said("active")?.text ?? "").toLowerCase(),
    bathLow,
    bathHigh: bath?.strength?.mark === Mark.range ? binder.upper(bath.strength, dimension) : bathLow,
    bathLowMinutes: bathLowDays * minutesPerDay,
    bathHighMinutes:
      (bath?.time?.mark === Mark.range ? binder.upper(bath.time, "duration") : bathLowDays) * minutesPerDay,
    halfLifeDays: binder.number(defined, said("half-life"), "duration"),
    harms: wordsOf(definition, "harms"),
    withdrawalDays: binder.number(defined, said("withdrawal"), "duration"),
    source: said("source")?.text ?? "",
    ...shelfLifeOf(binder, defined),
  };
}
