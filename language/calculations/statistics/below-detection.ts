import { belowDetection as summary } from "../../science/nondetects.ts";
import { isOutside } from "../../science/result.ts";
import { calculation, result, series } from "../calculation.ts";

export const belowDetection = calculation({
  name: "below-detection",
  title: "The mean of readings below what the test can tell",
  group: "statistics",
  answers:
    "What readings come to on the whole when some are such as <5, from one kit or from several: their mean and median, without putting 0, the limit or half of it in for what nobody knows.",
  inputs: {
    values: series("the readings, all in one unit", "", [0, Number.POSITIVE_INFINITY], 2, {
      isCensored: true,
    }),
  },
  formula: [
    "from the highest figure down: share under x = share up to x × (1 - readings of x / readings of x or less)",
    "<5 counts among the readings of 5 or less; of those above 5 it says nothing",
    "mean = sum of x × (share up to x - share under x); what is left under the lowest figure at the lowest limit, and at 0",
    "median = the figure at which the share passes a half",
  ],
  range:
    "figures of 0 or more and < readings, one figure at least. Where more than half are below their limits the median is a bound only and the mean hangs on what is put in for them",
  sources: [
    "Kaplan & Meier 1958, J. Am. Stat. Assoc. 53:457-481, with the axis turned about: Helsel 2005, Nondetects and Data Analysis (recalled), and Helsel 2012, Statistics for Censored Environmental Data, as the R package NADA has it",
    "what is left under the lowest figure: Efron 1967, Proc. 5th Berkeley Symp. 4:831-853 (recalled)",
  ],
  examples: [
    {
      given: "values=<1, 2, <3, 4, 5",
      gives: { mean: "2.7", "mean-least": "2.4", median: "2", share: "40 %" },
      from: "5 is a fifth of all; 4 a fourth of the other four fifths, a fifth; 2 half of the three fifths under that, as <3 says nothing of it. 5 × 0.2 + 4 × 0.2 + 2 × 0.3 = 2.4, and 0.3 are under 1",
    },
    {
      given:
        "values=7.9, 7.7, 7.1, 6.9, 6.5, 6.2, 6.1, 5.7, 5.6, 5.2, 4.5, 4.1, 4.0, 3.6, 3.5, 3.5, 3.3, 2.6, <2.5, <2.5",
      gives: { median: "4.85", below: "2" },
      from: "sulfate of a river, Newman 1995, Quantitative Methods in Aquatic Ecotoxicology, example 2.3: turned about at 8 the median is 3.15, and 8 - 3.15 = 4.85",
    },
  ],
  compute({ values }) {
    const found = summary(values);
    if (isOutside(found)) return found;
    const { mean, median, readings, below } = found;
    return [
      result("mean", "mean, the lowest at their limit", "", mean.most),
      result("mean-least", "mean, the lowest at 0", "", mean.least),
      result("median", "median", "", median),
      result("readings", "readings", "", readings),
      result("below", "of them below their limit", "", below),
      result("share", "share below", "%", (100 * below) / readings),
    ];
  },
});
