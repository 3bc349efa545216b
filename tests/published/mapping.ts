/** Which calculation gives each published quantity. One file of `mapping/` a field. */
import type { Figure } from "../../language/science/result.ts";
import type { Inputs } from "./inputs.ts";
import { ammonia } from "./mapping/ammonia.ts";
import { dilution } from "./mapping/dilution.ts";
import { dosing } from "./mapping/dosing.ts";
import { gases } from "./mapping/gases.ts";
import { livestock } from "./mapping/livestock.ts";
import { salts } from "./mapping/salts.ts";
import { seawater } from "./mapping/seawater.ts";
import { statistics } from "./mapping/statistics.ts";
import { thresholds } from "./mapping/thresholds.ts";
import { units } from "./mapping/units.ts";

/** From a row's inputs to its figure, in the row's unit. */
export type Calculation = (given: Inputs) => Figure;
export type Calculations = Readonly<Record<string, Calculation>>;

export const CALCULATIONS: Calculations = {
  ...ammonia,
  ...dilution,
  ...dosing,
  ...gases,
  ...livestock,
  ...salts,
  ...seawater,
  ...statistics,
  ...thresholds,
  ...units,
};
