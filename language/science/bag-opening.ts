/**
 * Opening a bag of fish. In the closed bag CO2 has kept the pH down and most of the ammonia bound; as the CO2
 * leaves, the pH rises and the same total turns into free ammonia. That jump, not the total alone, is why a
 * bag is not aerated before the fish are out of its water.
 */
import { aeratedPH } from "./aeration.ts";
import { unionisedFraction } from "./ammonia.ts";
import { type AmmoniaWater, type FreeAfterChange, freeAfterChange } from "./ammonia-change.ts";
import type { Bag, BagState } from "./bag.ts";
import { negative } from "./given.ts";
import { type Figure, isOutside, map, type Outside } from "./result.ts";

export interface OpenedBag {
  /** Free ammonia as N in the closed bag. */
  readonly closedMgLN: Figure;
  /** pH of its water when it has given off what CO2 it can to the room's air, and free ammonia then. */
  readonly aeratedPH: Figure;
  readonly aeratedMgLN: Figure;
  /** With the receiving water poured in. */
  readonly mixed: FreeAfterChange | Outside;
}

/**
 * @param receiving the water of the tank that the fish go into; `litres` of it are poured into the bag
 * @param co2InAirPpm of the room
 */
export function openBag(
  bag: Bag,
  state: BagState,
  receiving: AmmoniaWater & { readonly litres: number },
  co2InAirPpm: number,
): OpenedBag {
  const { temperatureC, salinityGPerKg } = bag;
  const { alkalinityMeqL, totalMgLN, pH } = state;
  const aerated = isOutside(state.co2MgL)
    ? state.co2MgL
    : aeratedPH(alkalinityMeqL, temperatureC, co2InAirPpm);
  const share = isOutside(aerated) ? aerated : unionisedFraction(aerated, temperatureC, salinityGPerKg);
  const refused = negative("receiving water", receiving.litres, "L");
  const mixed =
    refused ??
    (isOutside(pH)
      ? pH
      : freeAfterChange(
          { totalMgLN, pH, temperatureC, salinityGPerKg },
          receiving,
          receiving.litres / (receiving.litres + bag.waterL),
        ));
  return {
    closedMgLN: state.freeMgLN,
    aeratedPH: aerated,
    aeratedMgLN: map(share, (part) => part * totalMgLN),
    mixed,
  };
}
