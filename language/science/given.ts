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

/** A reason unless a figure is a whole number of 0 or more. */
export function notCounted(name: string, value: number): Outside | undefined {
  return Number.isInteger(value) && value >= 0 ? undefined : outside(`${name} ${value} is no count`);
}

export function notFinite(name: string, value: number): Outside | undefined {
  return Number.isFinite(value) ? undefined : outside(`${name} ${value} is no figure`);
}

function refused(name: string, value: number, unit: string, must: string): Outside {
  return outside(`${name} ${value}${unit === "" ? "" : ` ${unit}`} is not a figure of ${must}`);
}
