import { atmFromHPa, atmFromMmHg, standardPressurePa, stationPressureAtm } from "../../science/oxygen.ts";
import { type Figure, map, outside } from "../../science/result.ts";
import { choice, quantity, words } from "../calculation.ts";

/** Where the air above the water is as thick as it is: by the height, or by a barometer. */
export const airInputs = {
  altitude: quantity("height above the sea", "m", [-500, 11_000], { otherwise: "0 m", from: "altitude" }),
  pressure: words("air pressure, before the height", "1013 hPa", { optional: true }),
  "sea-level": choice("that pressure is reduced to sea level, as in a weather report", ["no", "yes"], {
    otherwise: "no",
  }),
};

const MM_PER_INCH = 25.4;
const ATM_OF: Readonly<Record<string, (value: number) => number>> = {
  hpa: atmFromHPa,
  mbar: atmFromHPa,
  kpa: (kilopascal) => atmFromHPa(kilopascal * 10),
  mmhg: atmFromMmHg,
  inhg: (inches) => atmFromMmHg(inches * MM_PER_INCH),
  atm: (atm) => atm,
};

/** Air pressure at the tank, atm. */
export function airPressureAtm(
  heightM: number,
  pressure: string | undefined,
  isSeaLevel: "no" | "yes",
): Figure {
  if (pressure === undefined) return map(standardPressurePa(heightM), (pascal) => atmFromHPa(pascal / 100));
  const { figure = "", unit = "" } =
    /^(?<figure>\d+(?:\.\d+)?)\s*(?<unit>[A-Za-z]+)$/.exec(pressure)?.groups ?? {};
  const asAtm = ATM_OF[unit.toLowerCase()];
  if (asAtm === undefined)
    return outside(`pressure: “${pressure}” is no figure in hPa, kPa, mbar, mmHg, inHg or atm`);
  const atm = asAtm(Number(figure));
  return isSeaLevel === "no" ? atm : stationPressureAtm(atm / atmFromHPa(1), heightM);
}
