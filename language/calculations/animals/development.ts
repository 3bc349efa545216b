import { ZEBRAFISH_STAGES, zebrafishHours } from "../../science/development.ts";
import { isOutside, outside } from "../../science/result.ts";
import { calculation, choice, quantity, result } from "../calculation.ts";

type Stage = keyof typeof ZEBRAFISH_STAGES;

export const development = calculation({
  name: "development",
  title: "Zebrafish stages by temperature",
  group: "animals",
  answers:
    "How many hours after fertilisation embryos of the zebrafish come to a stage at this temperature. Of other species it is a hint of the shape only.",
  inputs: {
    temperature: quantity("temperature", "C", [-5, 100], { from: "reading temperature" }),
    stage: choice("stage", Object.keys(ZEBRAFISH_STAGES) as Stage[], { optional: true }),
    hours: quantity("or hours that it takes at 28.5 C", "h", [0, 10_000], { optional: true }),
  },
  formula: ["hours = hours at 28.5 C / (0.055 × temperature - 0.57)"],
  range: "zebrafish (Danio rerio) in its first three days, 25 to 33 C",
  sources: ["Kimmel, Ballard, Kimmel, Ullmann & Schilling 1995, Dev. Dyn. 203:253-310, table 2 and figure 2"],
  caution:
    "Eggs of one clutch drift apart by hours. Of another species only its own literature or your own log of hatches tells the time.",
  examples: [
    {
      given: "stage=20-somite temperature=25",
      gives: { hours: "23.6 h" },
      from: "Kimmel and others 1995: 19 h at 28.5 C are 23.6 h at 25 C",
    },
    {
      given: "hours=48 temperature=26",
      gives: { hours: "55.8 h", days: "2.33 d" },
      from: "48 / (0.055 × 26 - 0.57) = 48 / 0.86",
    },
  ],
  compute({ temperature, stage, hours }) {
    if ((stage === undefined) === (hours === undefined))
      return outside("one of stage, hours is needed, and one only");
    const found = zebrafishHours(stage === undefined ? hours! : ZEBRAFISH_STAGES[stage], temperature);
    if (isOutside(found)) return found;
    return [result("hours", "after fertilisation", "h", found), result("days", "in days", "d", found / 24)];
  },
});
