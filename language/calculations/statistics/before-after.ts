import { chanceOfMore, shiftBetween } from "../../science/before-after.ts";
import type { Limits } from "../../science/interval.ts";
import { rankSumP } from "../../science/rank-sum.ts";
import { type Figure, isOutside, map, outside } from "../../science/result.ts";
import { calculation, result, series } from "../calculation.ts";
import { confidence } from "./asked.ts";

const readings = (title: string) => series(title, "", [0, Number.POSITIVE_INFINITY], 1, { isCensored: true });

export const beforeAfter = calculation({
  name: "before-after",
  title: "Readings before a change and after it",
  group: "statistics",
  answers:
    "By how much readings, ratings or weights lie higher after something was changed than before, with an interval that supposes nothing of how they are spread. One odd reading moves it little, and readings such as <5 count for what they say.",
  inputs: {
    before: readings("the readings before, all in one unit"),
    after: readings("the readings after"),
    confidence,
  },
  formula: [
    "shift = median of all differences, each reading after less each before",
    "interval = the k-th least to the k-th greatest of the differences, k the greatest at which 1 - 2 P(U < k) is the confidence or more, U the pairs of which the second is more",
    "chance = (pairs of which the reading after is more + half of those that are equal) / all pairs",
    "p = share of all ways to deal out the ranks that are as far from the middle, or further",
  ],
  range:
    "up to 100 readings in all, taken apart from one another: readings of one day, or of water that hardly changes from test to test, count for fewer than they are, and the truth is wider. Few readings cannot have every confidence: 3 and 3 have 90 % at most, 4 and 4 97 %. Before and after in one tank is no experiment: what else changed, the season, and that a change is mostly made when it is worst, are all in the difference",
  sources: [
    "shift: Hodges & Lehmann 1963, Ann. Math. Stat. 34:598-611",
    "interval: Bauer 1972, J. Am. Stat. Assoc. 67:687-690; Hollander, Wolfe & Chicken 2014, Nonparametric Statistical Methods, 3rd ed., ch. 4; with equal readings: Noether 1967, J. Am. Stat. Assoc. 62:184-188 (recalled)",
    "chance: Vargha & Delaney 2000, J. Educ. Behav. Stat. 25:101-132",
    "p: Wilcoxon 1945, Biometrics Bull. 1:80-83; with < and >: Gehan 1965, Biometrika 52:203-223 (recalled)",
  ],
  examples: [
    {
      given:
        "before=1.15, 0.88, 0.90, 0.74, 1.21 after=0.80, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46",
      gives: {
        shift: "0.305",
        low: "-0.15",
        high: "0.76",
        confidence: "96 %",
        chance: "70 %",
        p: "0.254",
      },
      from: "permeability at term and before, Hollander & Wolfe 1973, p. 69: W = 35 of 50 pairs, p 0.1272 on one side; shift 0.305, 96 % interval -0.15 to 0.76 (recalled)",
    },
    {
      given: "before=3, 2, 3 after=1, 1, <1",
      gives: {
        shift: "-2",
        low: "-3",
        high: "-1",
        confidence: "90 %",
        reached: "no: 3 and 3 readings have 90 % at most",
        chance: "0 %",
        p: "0.1",
      },
      from: "the differences are -2, -2, -1, -1, -2, -2 and, with <1, -3..-2, -2..-1 and -3..-2; 1 - 2 × 1/20 is 90 %",
    },
  ],
  compute({ before, after, confidence: percent }) {
    const shift = shiftBetween(before, after, percent / 100);
    if (isOutside(shift)) return shift;
    const { best, interval, confidence: reached, isReached } = shift;
    const chance = chanceOfMore(before, after);
    const end = (value: number): Figure =>
      reached === 0
        ? outside("one reading before and one after have no interval")
        : Number.isFinite(value)
          ? value
          : outside("a reading says only > or <, so that there is no such end");
    return [
      result("shift", "after is higher by", "", middleOf(best)),
      result("low", "at least", "", end(interval.low)),
      result("high", "at most", "", end(interval.high)),
      result("confidence", "confidence of that interval", "%", 100 * reached),
      result(
        "reached",
        "is that the confidence asked for",
        "",
        isReached
          ? "yes"
          : `no: ${before.length} and ${after.length} readings have ${Math.round(100 * reached)} % at most`,
      ),
      result(
        "chance",
        "a reading after is above one before",
        "%",
        isOutside(chance) ? chance : map(middleOf(chance), (share) => 100 * share),
      ),
      result("p", "chance of so much apart if nothing changed", "", rankSumP(before, after)),
    ];
  },
});

/** The figure; where readings such as <5 leave it open, between what. */
function middleOf({ low, high }: Limits): Figure {
  if (low === high) return low;
  const told = (value: number): string =>
    Number.isFinite(value) ? String(Number(value.toPrecision(3))) : "nobody knows what";
  return outside(`readings such as <5 leave it open: ${told(low)} to ${told(high)}`);
}
