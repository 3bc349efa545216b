/**
 * Animals in transport water. Loads are what experienced hauliers published for their fish, not a licence for
 * others.
 */
import { negative } from "./given.ts";
import { beyond, type Figure, outside } from "./result.ts";

/**
 * Load at another temperature, linear in the difference (Piper et al. 1982, Fish Hatchery Management p. 356;
 * trout 5.56 %/F).
 */
export function loadAtTemperature(load: number, fromF: number, toF: number, percentPerF: number): Figure {
  const share = 1 - (percentPerF / 100) * (toF - fromF);
  const refused =
    negative("load", load) ??
    beyond("temperature of the load", fromF, 32, 120, "F") ??
    beyond("temperature", toF, 32, 120, "F") ??
    beyond("change of the load", percentPerF, 0, 100, "%/F");
  if (refused !== undefined) return refused;
  return share > 0 ? load * share : outside("so far from the reference temperature the rule gives no load");
}

/**
 * Channel catfish of 16 inches, lb per US gallon: 4 at 65 F, a quarter less for each 10 F warmer and as much
 * more for each colder (Piper et al. 1982 p. 362).
 */
export function catfishLoadLbPerGal(lengthIn: number, temperatureF: number): Figure {
  if (lengthIn !== 16) return outside("the figure is for catfish of 16 inches");
  return beyond("temperature", temperatureF, 45, 85, "F") ?? loadAtTemperature(4, 65, temperatureF, 2.5);
}
