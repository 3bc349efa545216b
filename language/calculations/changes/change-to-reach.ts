import { formatNumber } from "../../quantity/format.ts";
import { changesNeeded, fractionToReach } from "../../science/dilution.ts";
import { isOutside, type Outside, outside } from "../../science/result.ts";
import {
  type Calculation,
  calculation,
  type QuantityInput,
  quantity,
  type Result,
  result,
} from "../calculation.ts";
import { changeEntry, level, optionalVolume, SHOCK, source, WELL_MIXED } from "./shared.ts";

interface Levels {
  readonly level: QuantityInput;
  readonly target: QuantityInput;
  readonly source: QuantityInput & { readonly otherwise: string };
}

type Named = Pick<Calculation, "name" | "title" | "answers" | "examples">;

/** @param isMost the target is not to be exceeded; else it is to be reached, from below or from above */
function toReach(named: Named, levels: Levels, isMost: boolean): Calculation {
  return calculation({
    ...named,
    group: "changes",
    inputs: {
      ...levels,
      change: quantity("or in several changes of", "%", [0, 100], {
        otherwise: "25 %",
        isAbove: true,
        from: "change",
      }),
      volume: optionalVolume,
    },
    formula: [
      "at once = (level - target) / (level - source)",
      "changes = ln((target - source) / (level - source)) / ln(1 - change), to the next whole one",
    ],
    range: "well mixed, nothing made or used up between the changes; levels all counted alike",
    sources: [WELL_MIXED],
    caution: SHOCK,
    compute({ level: now, target, source: holds, change, volume }) {
      if (isMost && now <= target) return reached(volume !== undefined);
      const away = leadsAway(now, target, holds);
      if (away !== undefined) return away;
      const atOnce = fractionToReach(now, holds, target);
      if (isOutside(atOnce)) return atOnce;
      const results: Result[] = [result("at-once", "change at once", "%", atOnce * 100)];
      if (volume !== undefined) results.push(result("litres", "that is", "L", atOnce * volume));
      results.push(
        result("changes", "or changes of that size", "", changesNeeded(now, target, change / 100, holds)),
      );
      return results;
    },
    entry: (_, results) => changeEntry(results.find(({ name }) => name === "at-once")?.value),
  });
}

/** Every change leads away from a target that lies on the other side of the tank than the new water. */
function leadsAway(now: number, target: number, holds: number): Outside | undefined {
  if ((target - now) * (holds - now) >= 0) return undefined;
  return outside(
    `source: the new water holds ${formatNumber(holds)}, and every change leads away from the target`,
  );
}

function reached(isVolumeKnown: boolean): readonly Result[] {
  return [
    result("at-once", "change at once", "%", 0),
    ...(isVolumeKnown ? [result("litres", "that is", "L", 0)] : []),
    result("changes", "or changes of that size", "", 0),
  ];
}

export const changeToReach = toReach(
  {
    name: "change-to-reach",
    title: "Change of water to reach a level",
    answers:
      "What change of water brings a level to a target, in one go or in equal changes, with what the new water itself holds. It works both ways, down and up; against nitrate see nitrate-change.",
    examples: [
      {
        given: "level=80 mg/L target=20 mg/L change=25 % volume=200 L",
        gives: { "at-once": "75 %", litres: "150 L", changes: "5" },
        from: "(80 - 20) / 80 = 75 %; 0.75^5 × 80 = 18.98 is under 20, 0.75^4 × 80 = 25.3 is not",
      },
      {
        given: "level=100 mg/L target=30 mg/L source=10 change=50 %",
        gives: { "at-once": "77.8 %", changes: "3" },
        from: "(100 - 30) / (100 - 10) = 77.8 %; halves leave 55, 32.5, 21.25",
      },
    ],
  },
  { level: level("level now"), target: level("level wanted"), source },
  false,
);

const nitrate = "mg/L NO3";

export const nitrateChange = toReach(
  {
    name: "nitrate-change",
    title: "Change of water against nitrate",
    answers:
      "What change of water brings nitrate down to a level, in one go or in equal changes, with the nitrate of the new water; a tank of the log gives its last test and its water.",
    examples: [
      {
        given: "level=60 target=20 source=10 change=30 %",
        gives: { "at-once": "80 %", changes: "5" },
        from: "(60 - 20) / (60 - 10) = 80 %; 10 + 50 × 0.7^5 = 18.4 is under 20, 10 + 50 × 0.7^4 = 22 is not",
      },
    ],
  },
  {
    level: quantity("nitrate now", nitrate, [0, 1e5], { from: "reading nitrate" }),
    target: quantity("nitrate wanted", nitrate, [0, 1e5]),
    source: quantity("nitrate of the new water", nitrate, [0, 1e5], {
      otherwise: "0",
      from: "source nitrate",
    }),
  },
  true,
);
