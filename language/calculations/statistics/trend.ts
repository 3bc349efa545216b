import { type Figure, isOutside, outside } from "../../science/result.ts";
import { mannKendall, theilSen } from "../../science/trend.ts";
import { calculation, result, series } from "../calculation.ts";
import { confidence } from "./asked.ts";

export const trend = calculation({
  name: "trend",
  title: "Whether readings rise or fall",
  group: "statistics",
  answers:
    "Whether a row of readings rises or falls more than chance would have it, and by how much a day, with its interval. One bad reading moves it little, and readings such as <5 count for what they say.",
  inputs: {
    times: series("times of the readings", "d", [0, 1e6], 3),
    values: series("the readings, all in one unit", "", [0, Number.POSITIVE_INFINITY], 3, {
      isCensored: true,
    }),
    confidence,
  },
  formula: [
    "S = pairs of readings that rise - pairs that fall; a pair that may do either counts nothing",
    "Z = (S - sign S) / √var S, tau = S / (n (n - 1) / 2)",
    "change = the slope at which as many pairs lie surely above as surely below; of plain figures the median of (y2 - y1) / (t2 - t1)",
    "its interval: the slopes that S does not contradict",
  ],
  range:
    "three readings or more of 0 or more; a straight course. Of water that was changed between the readings it is the trend with the changes in; a limit of detection that itself went up or down can look like one",
  sources: [
    "Mann 1945, Econometrica 13:245-259; Kendall 1975, Rank Correlation Methods",
    "Sen 1968, J. Am. Stat. Assoc. 63:1379-1389; exact up to ten readings: Gilbert 1987, Statistical Methods for Environmental Pollution Monitoring, ch. 16",
    "readings with < and >: Akritas, Murphy & LaValley 1995, J. Am. Stat. Assoc. 90:170-177; variance of S with them: Daniels 1944, Biometrika 33:129-135 (recalled)",
    "value at time 0: Conover 1980, Practical Nonparametric Statistics (recalled)",
  ],
  examples: [
    {
      given:
        "times=1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14 values=12.9, 14.8, 13.2, 15.7, 13.8, 15.6, 12.9, 11.0, 17.3, 15.9, 19.0, 18.3, 20.1, 21.7",
      gives: { direction: "rise", change: "0.567", S: "54", Z: "2.906" },
      from: "a Mann-Kendall example by hand, College of the Holy Cross: S = 54, Z = 2.906; the slope is Sen's of the same figures",
    },
    {
      given: "times=0, 7, 14, 21 values=<5, 10, 12, 20",
      gives: { change: "0.714", start: "5", S: "6", p: "0.0833", way: "exact: each order of 4 readings" },
      from: "the changes a day of the pairs are 5/7..10/7, 7/14..12/14, 15/21..20/21, 2/7, 10/14 and 8/7; at 5/7 one lies surely above, 8/7, and one below, 2/7. All six pairs rise: 1 of 24 orders, and 1 the other way round",
    },
  ],
  compute({ times, values, confidence: percent }) {
    if (new Set(times).size < 2) return outside("times: readings of two times at least are needed");
    const tested = mannKendall(values, times);
    if (isOutside(tested)) return tested;
    const slope = theilSen(times, values, percent / 100);
    const of = (figure: (found: Exclude<typeof slope, { outside: string }>) => Figure): Figure =>
      isOutside(slope) ? slope : figure(slope);
    const end = (which: "low" | "high"): Figure =>
      of(({ interval }) => (isOutside(interval) ? interval : interval[which]));
    const { score, variance, z, p, tau, isExact } = tested;
    return [
      result("direction", "the readings", "", direction(score, p, 1 - percent / 100)),
      result(
        "change",
        "change a day",
        "",
        of(({ perDay }) => perDay),
      ),
      result("low", "at least", "", end("low")),
      result("high", "at most", "", end("high")),
      result(
        "start",
        "on the line at time 0",
        "",
        of(({ intercept }) => intercept),
      ),
      result("S", "S, pairs that rise less those that fall", "", score),
      result("variance", "variance of S", "", variance),
      result("Z", "Z", "", z, 4),
      result("p", "chance of that without a trend", "", p),
      result(
        "way",
        "that chance is",
        "",
        isExact ? `exact: each order of ${values.length} readings` : normal,
      ),
      result("tau", "tau, from -1 to 1", "", tau),
    ];
  },
});

const normal = "approximate: S taken as normal";

function direction(score: number, p: number, allowed: number): string {
  if (p > allowed) return "show no trend";
  return score > 0 ? "rise" : "fall";
}
