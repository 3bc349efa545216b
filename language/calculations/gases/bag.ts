import { ammoniaAs } from "../../science/ammonia-forms.ts";
import { type Bag, bagAfter, hoursUntilOxygen } from "../../science/bag.ts";
import { mostFreeMgLN } from "../../science/bag-ammonia.ts";
import { openBag } from "../../science/bag-opening.ts";
import { CO2_PER_OXYGEN, loadGPerL, NITROGEN_PER_OXYGEN } from "../../science/respiration.ts";
import { type Figure, isOutside, outside } from "../../science/result.ts";
import { calculation, choice, type Given, quantity, type Result, result } from "../calculation.ts";
import { airPressureAtm } from "./air-pressure.ts";
import { meqLOf, roomAir } from "./carbonate-inputs.ts";

const inputs = {
  count: quantity("fish", "", [1, 1e6], { isWhole: true }),
  weight: quantity("weight of one", "g", [0, 1e5], { isAbove: true }),
  // More of it holds more oxygen, and draws more out of the gas: the results go both ways with it.
  water: quantity("water, without the fish", "L", [0, 1e6], { isAbove: true, isSingle: true }),
  gas: quantity("gas above it", "L", [0, 1e6]),
  filled: choice("the gas", ["oxygen", "air"], { otherwise: "oxygen" }),
  hours: quantity("time closed", "h", [0, 1000]),
  temperature: quantity("temperature", "C", [-5, 100], { from: "reading temperature" }),
  KH: quantity("alkalinity of the water packed", "dKH", [0, 1000], { from: "reading KH" }),
  pH: quantity("pH of the water packed", "pH", [0, 14], { from: "reading pH" }),
  salinity: quantity("salinity", "g/kg", [0, 100], { otherwise: "0", alike: "g/L" }),
  activity: quantity("oxygen used, times that of a fish at rest", "", [1, 10], { otherwise: "1..3" }),
  fed: choice("still digesting when packed", ["no", "yes"], { otherwise: "no" }),
  least: quantity("oxygen not to fall below", "mg/L", [0, 100], { otherwise: "5 mg/L" }),
  altitude: quantity("height above the sea", "m", [-500, 11_000], { otherwise: "0 m", from: "altitude" }),
  air: roomAir,
  "receiving-pH": quantity("pH of the receiving water", "pH", [0, 14], { optional: true }),
  receiving: quantity("receiving water, of the mixture", "%", [0, 100], { otherwise: "50 %" }),
};

export const bag = calculation({
  name: "bag",
  title: "Fish in a closed bag",
  group: "gases",
  answers:
    "How long the oxygen of a closed bag lasts, what is left of it on arrival, what ammonia and carbon dioxide have come into the water, its pH; and how much free ammonia there is in the closed bag, once it is open and aired, and with receiving water in it.",
  inputs,
  formula: [
    "oxygen used = count × exp(15.7 - 5020 / T) × (weight / 50 g)^0.79 × 31.998 mg/h × activity, T in kelvin",
    "per mole of oxygen: 0.85 of carbon dioxide, and of nitrogen 0.08, where they digest 0.27",
    "water and gas in balance: Henry's law for oxygen and carbon dioxide, ideal gas, a slack bag",
    "pH from alkalinity and carbon dioxide; free ammonia by pH, temperature and salinity",
  ],
  range:
    "bony fish of 0.1 g to 5 kg at 0 to 30 C; carbon dioxide and pH in fresh water of pH 4.5 to 8.3; the water packed in balance with air and without ammonia, what it held adds to the total; a bag that is shaken",
  sources: [
    "oxygen: Clarke & Johnston 1999, J. Anim. Ecol. 68:893-905, abstract; 1 to 3 times the rest: common practice, no source",
    "nitrogen and carbon dioxide: J. Exp. Biol. 1998, 201:3123, abstract; protein only: Lauff & Wood 1996, J. Comp. Physiol. B 166:501-509, recalled",
    "gases: Benson & Krause 1984, Limnol. Oceanogr. 29:620-632; Plummer & Busenberg 1982, Geochim. Cosmochim. Acta 46:1011-1040",
    "free ammonia: Emerson and others 1975, J. Fish. Res. Board Can. 32:2379-2383",
    "5 mg/L of oxygen: Bowser & Buttner 1993, NRAC Bulletin 111, the threshold of cold-water fish; warm-water fish 3",
  ],
  caution:
    "Species differ by a factor of two and more, and this is no licence for a load. In the closed bag the low pH binds the ammonia: do not air it while the fish are in its water. Carriers and the law have rules for packing: fast the fish before, pack no sick ones, count on a delay. Not for shrimp.",
  examples: [
    {
      given:
        "count=60 weight=0.5 g water=1 L gas=1 L hours=24 h temperature=24 KH=2 meq/L pH=7.6 activity=2 receiving-pH=7.6",
      gives: {
        load: "30 g/L",
        lasts: "41.2 h",
        total: "25.7 mg/L N",
        pH: "5.92",
        "free-aired": "7.2 mg/L NH3",
      },
      from: "30 g of zebrafish to a litre, a load said to last 24 hours. One of 0.5 g at rest uses exp(15.7 - 5020 / 297.15) × 0.01^0.79 × 32 = 0.2551 mg/h; 60 of them at twice that in 24 h 735 mg, or 22.97 mmol; × 0.08 × 14.007 = 25.7 mg of nitrogen in the litre. Its 2 + 1.84 meq/L and the carbon dioxide give the pH: 6.36 + log10(3.84 / 10.5)",
    },
  ],
  compute(given) {
    const atm = airPressureAtm(given.altitude, undefined, "no");
    if (isOutside(atm)) return atm;
    const packed = bagOf(given, atm);
    const lasts = hoursUntilOxygen(withoutCO2(packed), given.least);
    const usedUp = hoursUntilOxygen(withoutCO2(packed), 0);
    if (isOutside(lasts)) return lasts;
    if (isOutside(usedUp)) return usedUp;
    return [
      result("load", "fish in a litre", "g/L", loadGPerL(given.count, given.weight, given.water)),
      result("lasts", "the oxygen lasts to that least for", "h", lasts),
      ...onArrival(given.hours < usedUp ? arrived(packed, given) : undefined, given),
    ];
  },
});

function bagOf(given: Given<typeof inputs>, pressureAtm: number): Bag {
  return {
    waterL: given.water,
    gasL: given.gas,
    gas: given.filled,
    pressureAtm,
    temperatureC: given.temperature,
    salinityGPerKg: given.salinity,
    count: given.count,
    massG: given.weight,
    activity: given.activity,
    nitrogenPerOxygen: given.fed === "yes" ? NITROGEN_PER_OXYGEN.proteinOnly : NITROGEN_PER_OXYGEN.resting,
    co2PerOxygen: CO2_PER_OXYGEN,
    alkalinityMeqL: meqLOf(given.KH),
    pH: given.pH,
    // With ammonia from the start the free part falls, rises and falls, and no range could be told of it.
    totalMgLN: 0,
  };
}

/**
 * The carbon dioxide of the water packed, and what ammonia binds of it, move the oxygen by a hundredth, and above
 * pH 8.3 nobody knows them: for the oxygen they are left out, so that the pH of the water has no part in it.
 */
const withoutCO2 = (packed: Bag): Bag => ({ ...packed, pH: Number.NaN });

type Arrived = Readonly<
  Record<"oxygen" | "total" | "co2" | "pH" | "freeClosed" | "pHAired" | "freeAired" | "freeMixed", Figure>
>;

function onArrival(arrived: Arrived | undefined, given: Given<typeof inputs>): readonly Result[] {
  const figure = (name: keyof Arrived): Figure =>
    arrived?.[name] ?? outside("the oxygen does not last so long");
  const mixed = result(
    "free-mixed",
    "free ammonia in the mixture at the receiving pH",
    "mg/L NH3",
    figure("freeMixed"),
    2,
  );
  return [
    result("oxygen", "oxygen on arrival", "mg/L", figure("oxygen")),
    result("total", "total ammonia on arrival", "mg/L N", figure("total")),
    result("co2", "carbon dioxide on arrival", "mg/L", figure("co2")),
    result("pH", "pH on arrival", "pH", figure("pH")),
    result("free-closed", "free ammonia in the closed bag, at most", "mg/L NH3", figure("freeClosed"), 2),
    result("pH-aired", "pH once aired", "pH", figure("pHAired")),
    result("free-aired", "free ammonia once aired", "mg/L NH3", figure("freeAired"), 2),
    ...(given["receiving-pH"] === undefined ? [] : [mixed]),
  ];
}

/** Nothing where the bag does not last so long. */
function arrived(packed: Bag, given: Given<typeof inputs>): Arrived | undefined {
  const state = bagAfter(packed, given.hours);
  const drawn = bagAfter(withoutCO2(packed), given.hours);
  if (isOutside(state) || isOutside(drawn)) return undefined;
  const { aeratedPH, aeratedMgLN, mixed } = openBag(packed, state, receivingWater(packed, given), given.air);
  return {
    oxygen: drawn.oxygenMgL,
    total: state.totalMgLN,
    co2: state.co2MgL,
    pH: state.pH,
    freeClosed: asNH3(mostFreeMgLN(packed, given.hours)),
    pHAired: aeratedPH,
    freeAired: asNH3(aeratedMgLN),
    freeMixed: isOutside(mixed) ? mixed : asNH3(mixed.freeIfPHOfSourceMgLN),
  };
}

/** As warm and as salt as the bag, without ammonia; so much of it that it is the stated share of the mixture. */
function receivingWater(packed: Bag, { receiving, "receiving-pH": pH }: Given<typeof inputs>) {
  const { temperatureC, salinityGPerKg, waterL } = packed;
  const share = receiving / 100;
  const litres = share === 1 ? waterL * 1e9 : (waterL * share) / (1 - share);
  return { totalMgLN: 0, pH: pH ?? packed.pH, temperatureC, salinityGPerKg, litres };
}

const asNH3 = (mgLN: Figure): Figure => (isOutside(mgLN) ? mgLN : ammoniaAs(mgLN, "N", "NH3"));
