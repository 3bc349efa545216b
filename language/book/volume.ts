import { formatNumber } from "../quantity/format.ts";
import { isOutside } from "../science/result.ts";
import { netVolumeL, rectangleL } from "../science/volume.ts";
import type { Binder } from "./binder.ts";
import { type Defined, nameplace, one } from "./defined.ts";

/** The net volume of a tank, and how it was found, in words. */
export interface NetVolume {
  /** NaN if it is not known. */
  readonly volumeL: number;
  readonly by: string;
}

const notKnown: NetVolume = { volumeL: Number.NaN, by: "not stated" };

/** The net volume as it is stated, or from the inside, the height of the water and what is displaced. */
export function netVolumeOf(binder: Binder, tank: Defined): NetVolume {
  const { block, definition } = tank;
  const fail = (place: { start: number; end: number }, message: string): NetVolume => {
    binder.report(block, "definition/volume", place, message);
    return notKnown;
  };
  const stated = one(definition, "volume")?.volume;
  if (stated !== undefined) {
    const volumeL = binder.number(tank, stated, "volume");
    return volumeL === 0 ? fail(stated, "the net volume is above zero") : { volumeL, by: "stated" };
  }
  const inside = one(definition, "inside")?.inside;
  if (inside === undefined) {
    const message = `the volume of ${definition.name} is not stated: give volume, or inside and filled`;
    return fail(nameplace(tank), message);
  }
  const cm = (value: number): number => binder.units.canonical(value, inside.unit, "length");
  const filled = one(definition, "filled")?.filled;
  const topCm = cm(inside.third);
  const heightCm = filled === undefined ? topCm : binder.number(tank, filled, "length");
  if (Number.isNaN(heightCm))
    return fail(inside, "inside needs length x width x height, or length x width and filled");
  if (heightCm > topCm && filled !== undefined) {
    const message = `filled to ${figure(heightCm)} cm: higher than the tank is inside (${figure(topCm)} cm)`;
    binder.report(block, "definition/volume", filled, message);
  }
  const displaced = one(definition, "displaced")?.displaced;
  const displacedL = displaced === undefined ? 0 : binder.number(tank, displaced, "volume");
  const lengthCm = cm(inside.value);
  const widthCm = cm(inside.second);
  const net = netVolumeL(rectangleL(lengthCm, widthCm, heightCm), displacedL);
  if (isOutside(net)) return fail(displaced ?? inside, net.outside);
  const less = displaced === undefined ? "" : `, less ${figure(displacedL)} L`;
  return {
    volumeL: net,
    by: `inside ${figure(lengthCm)} x ${figure(widthCm)} cm, filled ${figure(heightCm)} cm${less}`,
  };
}

const figure = (value: number): string => formatNumber(value, 4);
