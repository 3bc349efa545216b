import { daysToLimit, type Regular } from "../../science/forecast.ts";
import { calculation, choice, quantity, result } from "../calculation.ts";
import { level, source, WELL_MIXED } from "./shared.ts";

const NEVER = Number.POSITIVE_INFINITY;

export const limitDay = calculation({
  name: "limit-day",
  title: "Days until a limit",
  group: "changes",
  answers:
    "After how many days a level that rises or falls steadily reaches a limit: left alone, and with the regular change of water.",
  inputs: {
    level: level("level now"),
    rise: quantity("rise; a fall with a minus", "mg/L/d", [-1e6, 1e6]),
    limit: level("limit"),
    "limit-is": choice("the limit is", ["most", "least"], { otherwise: "most" }),
    change: quantity("one change", "%", [0, 100], { otherwise: "30 %", isSingle: true, from: "change" }),
    every: quantity("from one change to the next", "d", [0, 3650], {
      otherwise: "7 d",
      isAbove: true,
      isSingle: true,
    }),
    next: quantity("days to the next change, else as many as from one to the next", "d", [0, 3650], {
      optional: true,
      isSingle: true,
    }),
    source,
  },
  formula: [
    "left alone: (limit - level) / rise",
    "with changes: level + rise × days to the next change, × (1 - change) + source × change, and so on, to the first day beyond the limit",
  ],
  range: "the same rise all the time, well mixed; what is not reached within ten years counts as never",
  sources: [WELL_MIXED],
  caution: "A forecast of today's rise, and no promise: new fish, more food, a dead one change it. Test.",
  examples: [
    {
      given: "level=20 mg/L rise=2 mg/L/d limit=40 mg/L change=10 % every=7 d source=0",
      gives: { alone: "10 d", "with-changes": "11.7 d" },
      from: "20 / 2 = 10 days; the change on day 7 takes 34 to 30.6, and 9.4 / 2 = 4.7 days later it is 40: 11.7",
    },
  ],
  compute(given) {
    const { level: now, rise, limit, change, every } = given;
    const side = given["limit-is"] === "most" ? "ceiling" : "floor";
    const duty: Regular = {
      firstInDays: given.next ?? every,
      everyDays: every,
      fraction: change / 100,
      sourceMgL: given.source,
    };
    const kept = daysToLimit(now, rise, limit, side, duty);
    return [
      result("alone", "left alone, the limit is reached in", "d", daysToLimit(now, rise, limit, side)),
      result("with-changes", "with the changes in", "d", kept),
      result(
        "verdict",
        "these changes",
        "",
        kept === NEVER ? "hold the limit for ten years and more" : "do not hold the limit",
      ),
    ];
  },
});
