import { ammoniaFromFeedGN } from "../../../language/science/feeding.ts";
import { dayOf, MINUTES_A_DAY } from "../calendar.ts";
import type { Cellar } from "../cellar.ts";
import { speciesOf } from "../species.ts";
import { RACK_WATER, tanks } from "../tanks.ts";
import type { Regime } from "../water.ts";

/** What the foods hold on average, and rations as a share of the body mass, dry weight: round figures, no source. */
const PROTEIN = 0.5;
const ADULT_RATION = 0.008;
const YOUNG_RATION = 0.016;
const WELL_FED = new Set(["b7", "ford", "h1", RACK_WATER]);
const FASTED_SHARE = 0.5;
/** Shrimp and snails live on what is there anyway. */
const GRAZER_SHARE = 0.25;

/** How big the young are against the grown, by the tank they grow up in. */
const youngShare: Readonly<Record<string, number>> = {
  b6: 0.03,
  b7: 0.25,
  r6: 0.5,
  r8: 0.6,
  r9: 0.4,
  r10: 0.5,
  r11: 0.6,
};

/** What a tank without its own figure is: bacteria settled, no plants to speak of. */
const usual = { uptakePerDay: 0.005, evaporationShare: 0.004, calcareous: 0 };
const special: Readonly<Record<string, Partial<typeof usual>>> = {
  dam: { uptakePerDay: 0.01, evaporationShare: 0.003, calcareous: 0.3 },
  ford: { uptakePerDay: 0, evaporationShare: 0.009, calcareous: 0.75 },
  sill: { uptakePerDay: 0.06, evaporationShare: 0.004 },
  b7: { calcareous: 0.5 },
  [RACK_WATER]: { uptakePerDay: 0.01, evaporationShare: 0.006, calcareous: 0.3 },
};

const AMMONIA_PER_DAY = 30;
const NITRITE_PER_DAY = 45;

export function chemistry(cellar: Cellar, day: number): void {
  for (const [name, body] of cellar.bodies) {
    const { uptakePerDay, evaporationShare, calcareous } = { ...usual, ...special[name] };
    const filter = filterShare(name, day);
    const regime: Regime = {
      productionMgNPerDay: productionMgN(cellar, name, day),
      ammoniaPerDay: AMMONIA_PER_DAY * filter.ammonia,
      nitritePerDay: NITRITE_PER_DAY * filter.nitrite,
      uptakePerDay,
      evaporationLPerDay: evaporationShare * body.netL,
      calcareous,
    };
    body.setRegime(day * MINUTES_A_DAY, regime);
  }
}

/** How much ammonia nitrogen the animals of a water make on this day. */
function productionMgN(cellar: Cellar, water: string, day: number): number {
  let sum = 0;
  for (const tank of tanks) {
    if (tank.water !== water) continue;
    const ration = WELL_FED.has(water) ? YOUNG_RATION : ADULT_RATION;
    const fed = (cellar.fed.get(tank.name) ?? []).some((meal) => meal.day >= day - 1);
    for (const species of cellar.stock.speciesIn(tank.name)) {
      const gram = cellar.stock.there(tank.name, species) * massG(species, tank.name, day);
      const share = (speciesOf(species).isFish ? 1 : GRAZER_SHARE) * (fed ? 1 : FASTED_SHARE);
      sum += 1000 * ammoniaFromFeedGN(gram * ration * share, PROTEIN);
    }
  }
  // Leaves, moss and mulm make a little in a tank without animals too.
  return sum + 0.3;
}

/** The young boesemani stay small in the grow-out and grow up in the ford; the rest is as big as it is. */
export function massG(species: string, tank: string, day: number): number {
  if (species === "boesemani" && tank !== "dam") {
    const middle = dayOf("2026-02-25");
    return 2 + 3.7 / (1 + Math.exp(-(day - middle) / 18));
  }
  return speciesOf(species).adultG * (youngShare[tank] ?? 1);
}

/** What is left of the filter bacteria: b7's sponges were washed under the tap on one day in June. */
export const SPONGE_WASHED = dayOf("2025-06-14");

function filterShare(water: string, day: number): { ammonia: number; nitrite: number } {
  const days = day - SPONGE_WASHED;
  if (water !== "b7" || days < 0) return { ammonia: 1, nitrite: 1 };
  return {
    ammonia: Math.min(1, 0.0007 * 2 ** (days / 1.5)),
    nitrite: Math.min(1, 0.004 * 2 ** (days / 1.6)),
  };
}
