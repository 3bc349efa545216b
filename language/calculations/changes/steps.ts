import { formatNumber } from "../../quantity/format.ts";
import { isOutside, type Outside, outside } from "../../science/result.ts";
import type { Step } from "../../science/sequence.ts";
import { quantity } from "../calculation.ts";
import { readInput } from "../read.ts";

/** A row of events as it is written: `dose 2 mg/L, 7 d, 30 %, 50 L flow, top-up 4 L`. */

export interface SaidStep {
  /** As it was written. */
  readonly text: string;
  readonly step: Step;
}

/** What holds of every step that does not say otherwise. */
export interface Usual {
  readonly sourceMgL: number;
  readonly madeMgLPerDay: number;
  readonly halfLifeDays: number | undefined;
  readonly volumeL: number;
}

export const STEPS_FORM = "dose 2 mg/L, 7 d, 30 %, 50 L flow, top-up 4 L with 0 mg/L";

const MOST_STEPS = 500;
const KINDS =
  "a change (30 % or 20 L), a flow (50 L flow), a dose (dose 2 mg/L), a top-up (top-up 4 L) or a time (7 d)";

/** @param input its name, for messages */
export function stepsSaid(input: string, text: string, usual: Usual): readonly SaidStep[] | Outside {
  const steps: SaidStep[] = [];
  for (const piece of text.split(/[,;]/).map((each) => each.trim())) {
    if (piece === "") continue;
    const step = stepSaid(piece, usual);
    if (isOutside(step)) return outside(`${input}: ${step.outside}`);
    steps.push({ text: piece, step });
  }
  if (steps.length > MOST_STEPS)
    return outside(`${input}: ${steps.length} steps are more than ${MOST_STEPS}`);
  return steps.length > 0 ? steps : outside(`${input}: there is none, such as 30 %`);
}

const form =
  /^(?:(?<before>dose|flow|top-?up|change)\s+)?(?<amount>[\d.].*?)(?:\s+(?<after>flow|top-?up|change))?(?:\s+with\s+(?<holds>.+))?$/i;

function stepSaid(piece: string, usual: Usual): Step | Outside {
  const { before, amount, after, holds } = form.exec(piece)?.groups ?? {};
  if (amount === undefined || (before !== undefined && after !== undefined))
    return outside(`“${piece}” is no step: ${KINDS}`);
  const word = (before ?? after ?? "").toLowerCase().replace("topup", "top-up");
  const sourceMgL = holds === undefined ? usual.sourceMgL : figure(piece, holds, "mg/L");
  if (isOutside(sourceMgL)) return sourceMgL;
  if (holds !== undefined && word === "dose") return outside(`“${piece}”: a dose has no water with it`);
  switch (word) {
    case "dose":
      return doseSaid(piece, amount);
    case "flow": {
      const litres = litresOf(piece, amount, usual.volumeL);
      return isOutside(litres) ? litres : { kind: "flow", litres, sourceMgL };
    }
    case "top-up": {
      const litres = litresOf(piece, amount, usual.volumeL);
      return isOutside(litres) ? litres : { kind: "topUp", litres, sourceMgL };
    }
    case "change":
      return changeSaid(piece, amount, sourceMgL);
    default:
      return /%|L$|gal$/.test(amount)
        ? changeSaid(piece, amount, sourceMgL)
        : waitSaid(piece, amount, holds, usual);
  }
}

function doseSaid(piece: string, amount: string): Step | Outside {
  if (/\/\s*L/.test(amount)) {
    const mgL = figure(piece, amount, "mg/L");
    return isOutside(mgL) ? mgL : { kind: "dose", mgL };
  }
  const mg = figure(piece, amount, "mg");
  return isOutside(mg) ? mg : { kind: "dose", mg };
}

function changeSaid(piece: string, amount: string, sourceMgL: number): Step | Outside {
  if (amount.includes("%")) {
    const percent = figure(piece, amount, "%");
    return isOutside(percent) ? percent : { kind: "change", fraction: percent / 100, sourceMgL };
  }
  const litres = figure(piece, amount, "L");
  return isOutside(litres) ? litres : { kind: "change", litres, sourceMgL };
}

function waitSaid(piece: string, amount: string, holds: string | undefined, usual: Usual): Step | Outside {
  if (holds !== undefined || !/[a-z]/i.test(amount)) return outside(`“${piece}” is no step: ${KINDS}`);
  const days = figure(piece, amount, "d");
  if (isOutside(days)) return days;
  const { madeMgLPerDay, halfLifeDays } = usual;
  return { kind: "wait", days, madeMgLPerDay, ...(halfLifeDays === undefined ? {} : { halfLifeDays }) };
}

/** Of a share of the volume, or an amount of water. */
function litresOf(piece: string, amount: string, volumeL: number): number | Outside {
  if (!amount.includes("%")) return figure(piece, amount, "L");
  const percent = figure(piece, amount, "%");
  return isOutside(percent) ? percent : (percent / 100) * volumeL;
}

function figure(piece: string, text: string, unit: string): number | Outside {
  const alike = unit === "mg/L" ? { alike: "mg/L NO3" } : {};
  const read = readInput(piece, quantity(piece, unit, [0, 1e9], { isSingle: true, ...alike }), text, {});
  if ("problem" in read) return outside(read.problem);
  return (read as { readonly low: number }).low;
}

/** `3. 30 %`. */
export const stepTitle = (at: number, text: string): string => `after ${formatNumber(at + 1)}. ${text}`;
