import type { Species } from "../book/stations.ts";
import { type Bag, type BagState, bagAfter, hoursUntilOxygen } from "../science/bag.ts";
import { type OpenedBag, openBag } from "../science/bag-opening.ts";
import { atmFromHPa, standardPressurePa } from "../science/oxygen.ts";
import { CO2_PER_OXYGEN, loadGPerL, NITROGEN_PER_OXYGEN } from "../science/respiration.ts";
import { type Figure, isOutside, map, type Outside, outside } from "../science/result.ts";
import type { Why } from "./why.ts";

/**
 * How many animals of a species a bag that the keeper states holds, so that at the end of the longest journey, at its warmest, the oxygen
 * is above a least and ammonia and CO2 are below a most that the keeper states too. What comes out is arithmetic over rates of resting
 * fish, never a recommendation.
 */

/** The bag and the bounds, as the keeper states them. */
export interface BagAsked {
  readonly waterL: number;
  readonly gasL: number;
  readonly gas: "oxygen" | "air";
  /** Times the resting rate of oxygen use. */
  readonly activity: number;
  readonly hours: number;
  readonly temperatureC: number;
  readonly leastOxygenMgL: number;
  /** As N; Infinity for no bound. */
  readonly mostTotalMgLN: number;
  readonly mostFreeMgLN: number;
  readonly mostCo2MgL: number;
  /** Animals to the water. */
  readonly mostLoadGPerL: number;
}

/** The water that goes into the bag, as it was last read in a tank. */
export interface PackedWater {
  readonly pH: number;
  readonly alkalinityMeqL: number;
  readonly totalMgLN: number;
  readonly temperatureC: number;
  readonly from: readonly Why[];
}

/** What one animal weighs, and what says so. */
export interface Weight {
  readonly grams: number;
  readonly why: Why;
}

export type Bound = "oxygen" | "total ammonia" | "free ammonia" | "CO2" | "load";

export interface PackingPlan {
  readonly species: string;
  readonly weight: Weight | undefined;
  readonly water: PackedWater | undefined;
  /** The most to a bag by the bounds; a reason where it cannot be reckoned. */
  readonly most: Figure;
  /** What bounds it; empty where it cannot be reckoned. */
  readonly boundBy: Bound | "";
  /** Of a bag with that many, or as many as are asked for. */
  readonly count: number;
  readonly state: BagState | Outside;
  readonly loadGPerL: Figure;
  /** Until the oxygen has come down to its least. */
  readonly hours: Figure;
  readonly opened: OpenedBag | Outside;
  /** Bounds that could not be held against, and why. */
  readonly unheld: readonly string[];
  readonly bag: Bag | undefined;
}

/** So many animals at most are tried; a bag of more is beyond what the formulas are for. */
const mostTried = 5000;
/** Of the room's air. A choice of this tool: a room with people in it. */
const co2InAirPpm = 600;

/**
 * @param atMost animals to a bag that the keeper states; NaN for none
 * @param wanted animals there are to pack: no bag holds more
 */
export function packingPlan(
  species: { readonly name: string; readonly known: Species | undefined },
  weight: Weight | undefined,
  water: PackedWater | undefined,
  asked: BagAsked,
  altitudeM: number,
  atMost: number,
  wanted: number,
): PackingPlan {
  const base = { species: species.name, weight, water };
  const pascal = standardPressurePa(Number.isNaN(altitudeM) ? 0 : altitudeM);
  const pressure = map(pascal, (value) => atmFromHPa(value / 100));
  const kind = species.known?.kind ?? "fish";
  const none =
    kind !== "fish"
      ? outside(`no published rate of oxygen use is known here for a ${kind}: state how many go into a bag`)
      : weight === undefined
        ? outside("what one weighs is not known: write a condition entry with weight, or the adult weight")
        : isOutside(pressure)
          ? pressure
          : undefined;
  if (none !== undefined || weight === undefined || isOutside(pressure)) {
    const reason = none ?? outside("what one weighs is not known");
    const count = Number.isNaN(atMost) ? 0 : Math.min(atMost, wanted);
    const load = weight === undefined || count === 0 ? reason : loadGPerL(count, weight.grams, asked.waterL);
    return {
      ...base,
      most: reason,
      boundBy: "",
      count,
      state: reason,
      loadGPerL: load,
      hours: reason,
      opened: reason,
      unheld: [],
      bag: undefined,
    };
  }
  const bagOf = (count: number): Bag => ({
    waterL: asked.waterL,
    gasL: asked.gasL,
    gas: asked.gas,
    pressureAtm: pressure,
    temperatureC: asked.temperatureC,
    salinityGPerKg: 0,
    count,
    massG: weight.grams,
    activity: asked.activity,
    nitrogenPerOxygen: NITROGEN_PER_OXYGEN.resting,
    co2PerOxygen: CO2_PER_OXYGEN,
    // Water that was not read bounds nothing: what rests on it is left out below.
    alkalinityMeqL: water?.alkalinityMeqL ?? 1,
    pH: water?.pH ?? 7,
    totalMgLN: water?.totalMgLN ?? 0,
  });
  const hasWater = water !== undefined;
  const { most, boundBy } = mostThatFit(bagOf, asked, hasWater);
  const fits = isOutside(most) ? 0 : most;
  const count = Math.min(Number.isNaN(atMost) ? fits : atMost, wanted);
  const bag = bagOf(count);
  const state = bagAfter(bag, asked.hours);
  return {
    ...base,
    most,
    boundBy,
    count,
    state,
    loadGPerL: loadGPerL(count, weight.grams, asked.waterL),
    hours: count === 0 ? outside("no animal is packed") : hoursUntilOxygen(bag, asked.leastOxygenMgL),
    opened: openedInTo(bag, state, water),
    unheld: hasWater ? [] : ["free ammonia, CO2 and pH: the water was not tested for pH and KH"],
    bag,
  };
}

/** The first bound that a bag breaks at the end of its journey, of those that more animals only break sooner; empty where it keeps all. */
function brokenBy(bag: Bag, asked: BagAsked, hasWater: boolean): Bound | "" {
  if ((bag.count * bag.massG) / bag.waterL > asked.mostLoadGPerL) return "load";
  const state = bagAfter(bag, asked.hours);
  if (isOutside(state) || state.oxygenMgL < asked.leastOxygenMgL) return "oxygen";
  if (state.totalMgLN > asked.mostTotalMgLN) return "total ammonia";
  return hasWater && !isOutside(state.co2MgL) && state.co2MgL > asked.mostCo2MgL ? "CO2" : "";
}

/**
 * The most animals that keep all bounds. Oxygen, total ammonia, CO2 and load are kept up to one number. Free ammonia need not be: of water
 * that has ammonia in it already few animals leave more of it free than many, whose CO2 makes it sourer. So it is looked for downwards.
 */
function mostThatFit(
  bagOf: (count: number) => Bag,
  asked: BagAsked,
  hasWater: boolean,
): { readonly most: Figure; readonly boundBy: Bound | "" } {
  const broken = (count: number): Bound | "" => brokenBy(bagOf(count), asked, hasWater);
  const [empty, one] = [broken(0), broken(1)];
  if (empty !== "")
    return { most: outside(`${empty} is out of its bound without any animal`), boundBy: empty };
  if (one !== "") return { most: outside(`one animal alone breaks the bound of ${one}`), boundBy: one };
  let [low, high] = [1, 2];
  while (high <= mostTried && broken(high) === "") [low, high] = [high, high * 2];
  if (high > mostTried) return { most: outside(`more than ${mostTried} fit by the bounds`), boundBy: "" };
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (broken(middle) === "") low = middle;
    else high = middle;
  }
  if (!hasWater || !Number.isFinite(asked.mostFreeMgLN)) return { most: low, boundBy: broken(high) };
  for (let count = low; count > 0; count--) {
    const state = bagAfter(bagOf(count), asked.hours);
    if (isOutside(state) || isOutside(state.freeMgLN) || state.freeMgLN <= asked.mostFreeMgLN)
      return { most: count, boundBy: count === low ? broken(high) : "free ammonia" };
  }
  return { most: outside("free ammonia is above its bound whatever the number"), boundBy: "free ammonia" };
}

/** The bag opened and mixed half and half with water as it was packed: the pH jumps as the CO2 leaves. */
function openedInTo(
  bag: Bag,
  state: BagState | Outside,
  water: PackedWater | undefined,
): OpenedBag | Outside {
  if (isOutside(state)) return state;
  if (water === undefined) return outside("the water was not tested for pH and KH");
  const receiving = {
    totalMgLN: water.totalMgLN,
    pH: water.pH,
    temperatureC: bag.temperatureC,
    salinityGPerKg: 0,
    litres: bag.waterL,
  };
  return openBag(bag, state, receiving, co2InAirPpm);
}
