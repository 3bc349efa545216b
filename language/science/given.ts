/** Figures that a formula is given and cannot use, each named in the reason. */
import { type Outside, outside } from "./result.ts";

/** A reason unless a figure is finite and at least 0. */
export function negative(name: string, value: number, unit = ""): Outside | undefined {
  return value >= 0 && value < Infinity ? undefined : refused(name, value, unit, "0 or more");
}

/** A reason unless a figure is finite and more than 0. */
export function notPositive(name: string, value: number, unit = ""): Outside | undefined {
  return value > 0 && value < Infinity ? undefined : refused(name, value, unit, "more than 0");
}

function refused(name: string, value: number, unit: string, must: string): Outside {
  return outside(`${name} ${value}${unit === "" ? "" : ` ${unit}`} is not a figure of ${must}`);
}
