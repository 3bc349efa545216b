/**
 * One water and what is dissolved in it, by mass balance, solved exactly between events.
 *
 * Ammonia is made at a constant rate, oxidised to nitrite and on to nitrate, and nitrate is taken up by plants, each
 * of first order: a linear chain, whose solution is Bateman's (1910, Proc. Cambridge Philos. Soc. 15:423-427).
 * Oxidising 1 mg of ammonia nitrogen takes 2 mmol of acid-binding per mmol, 7.14 mg CaCO3 (stoichiometry), which
 * is 0.4 dKH in a litre. Masses do not care for the volume, so evaporation only concentrates them.
 */
import { flowThroughFraction } from "../../language/science/dilution.ts";
import { MINUTES_A_DAY } from "./calendar.ts";
import type { Water } from "./pantry.ts";

/** Molar mass of nitrate over that of nitrogen, and of nitrite: CIAAW 2021 weights. */
export const NITRATE_PER_N = 62.004 / 14.007;
export const NITRITE_PER_N = 46.005 / 14.007;
const DKH_L_PER_MG_N = 7.14 / 17.848;

/** What goes on in the water between two events. */
export interface Regime {
  /** Ammonia nitrogen made by the animals, mg a day. */
  readonly productionMgNPerDay: number;
  /** Ammonia to nitrite and nitrite to nitrate, per day; never equal. */
  readonly ammoniaPerDay: number;
  readonly nitritePerDay: number;
  /** Nitrate taken up by plants, per day; may be 0. */
  readonly uptakePerDay: number;
  readonly evaporationLPerDay: number;
  /** The share of the lost alkalinity that the gravel gives back, 0..1. */
  readonly calcareous: number;
}

export interface Dissolved {
  volumeL: number;
  ammoniaMgN: number;
  nitriteMgN: number;
  nitrateMgN: number;
  /** Degrees times litres. */
  alkalinityDkhL: number;
  hardnessDghL: number;
}

/** What happened to the water, for whoever wants to compute it again. Minutes count from 1970. */
export type WaterEvent =
  | { readonly minute: number; readonly kind: "regime"; readonly regime: Regime }
  | { readonly minute: number; readonly kind: "batch"; readonly outL: number; readonly source: Water }
  | { readonly minute: number; readonly kind: "flow"; readonly throughL: number; readonly source: Water }
  | { readonly minute: number; readonly kind: "top-up"; readonly inL: number; readonly source: Water }
  | { readonly minute: number; readonly kind: "read"; readonly nitrateMgL: number; readonly volumeL: number };

/** A stretch of one regime: `days` may be a fraction of a day. */
export function afterDays(state: Dissolved, regime: Regime, days: number): Dissolved {
  const { productionMgNPerDay: made, ammoniaPerDay: a, nitritePerDay: b, uptakePerDay: u } = regime;
  const fast = Math.exp(-a * days);
  const slow = Math.exp(-b * days);
  const ammonia = made / a + (state.ammoniaMgN - made / a) * fast;
  const shareA = (a * (state.ammoniaMgN - made / a)) / (b - a);
  const shareB = state.nitriteMgN - made / b - shareA;
  const nitrite = made / b + shareA * fast + shareB * slow;
  const oxidised = state.ammoniaMgN + made * days - ammonia;
  return {
    volumeL: state.volumeL - regime.evaporationLPerDay * days,
    ammoniaMgN: ammonia,
    nitriteMgN: nitrite,
    nitrateMgN: nitrateAfter(state.nitrateMgN, made, b * shareA, b * shareB, a, b, u, days),
    alkalinityDkhL: Math.max(0, state.alkalinityDkhL - DKH_L_PER_MG_N * oxidised * (1 - regime.calcareous)),
    hardnessDghL: state.hardnessDghL,
  };
}

/** Solves X' = made + p e^(-at) + q e^(-bt) - uX. */
function nitrateAfter(
  start: number,
  made: number,
  p: number,
  q: number,
  a: number,
  b: number,
  u: number,
  days: number,
): number {
  if (u === 0) return start + made * days - (p / a) * Math.expm1(-a * days) - (q / b) * Math.expm1(-b * days);
  const own = start - made / u - p / (u - a) - q / (u - b);
  return (
    made / u +
    (p / (u - a)) * Math.exp(-a * days) +
    (q / (u - b)) * Math.exp(-b * days) +
    own * Math.exp(-u * days)
  );
}

/** A water through the year: it moves on in time, is changed, topped up and read, and remembers what was done. */
export class Body {
  readonly name: string;
  readonly netL: number;
  readonly start: Dissolved;
  readonly events: WaterEvent[] = [];
  #state: Dissolved;
  #minute: number;
  #regime: Regime | undefined;

  constructor(name: string, netL: number, minute: number, start: Omit<Dissolved, "volumeL">) {
    this.name = name;
    this.netL = netL;
    this.start = { volumeL: netL, ...start };
    this.#state = { ...this.start };
    this.#minute = minute;
  }

  /** What is in the water at this minute. */
  at(minute: number): Readonly<Dissolved> {
    const days = (minute - this.#minute) / MINUTES_A_DAY;
    if (days < 0) throw new RangeError(`${this.name}: the water cannot go back in time`);
    if (this.#regime !== undefined && days > 0) this.#state = afterDays(this.#state, this.#regime, days);
    this.#minute = minute;
    return this.#state;
  }

  setRegime(minute: number, regime: Regime): void {
    this.at(minute);
    this.#regime = regime;
    this.events.push({ minute, kind: "regime", regime });
  }

  /** Litres of the full tank out, then filled to the mark. */
  batch(minute: number, outL: number, source: Water): void {
    const { volumeL } = this.at(minute);
    this.#keep(1 - outL / volumeL, source, this.netL - (volumeL - outL));
    this.events.push({ minute, kind: "batch", outL, source });
  }

  /** Filled to the mark, then litres through at constant level. */
  flow(minute: number, throughL: number, source: Water): void {
    const { volumeL } = this.at(minute);
    this.#keep(1, source, this.netL - volumeL);
    const replaced = flowThroughFraction(throughL, this.netL);
    this.#keep(1 - replaced, source, replaced * this.netL);
    this.events.push({ minute, kind: "flow", throughL, source });
  }

  /** Fills to the mark in whole half litres. @returns the litres put in, 0 if it was full */
  topUp(minute: number, source: Water): number {
    const missing = this.netL - this.at(minute).volumeL;
    const inL = Math.floor(missing * 2) / 2;
    if (inL <= 0) return 0;
    this.#keep(1, source, inL);
    this.#state.volumeL -= missing - inL;
    this.events.push({ minute, kind: "top-up", inL, source });
    return inL;
  }

  nitrateMgL(minute: number): number {
    const { nitrateMgN, volumeL } = this.at(minute);
    const nitrateMgL = (nitrateMgN * NITRATE_PER_N) / volumeL;
    this.events.push({ minute, kind: "read", nitrateMgL, volumeL });
    return nitrateMgL;
  }

  /** Keeps a share of all that is there and adds litres of source water. */
  #keep(share: number, source: Water, inL: number): void {
    const { ammoniaMgN, nitriteMgN, nitrateMgN, alkalinityDkhL, hardnessDghL } = this.#state;
    this.#state = {
      volumeL: this.netL,
      ammoniaMgN: ammoniaMgN * share,
      nitriteMgN: nitriteMgN * share,
      nitrateMgN: nitrateMgN * share + (inL * source.nitrateMgL) / NITRATE_PER_N,
      alkalinityDkhL: alkalinityDkhL * share + inL * source.alkalinityDkh,
      hardnessDghL: hardnessDghL * share + inL * source.hardnessDgh,
    };
  }
}
