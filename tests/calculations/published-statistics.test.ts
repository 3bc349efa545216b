import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Inputs } from "../published/inputs.ts";
import { readRows, referenceFiles } from "../published/published.ts";
import { type Asking, type Askings, allowed, answerOf, answerTo, asked, plain } from "./asked.ts";

const rows = referenceFiles()
  .filter((file) => /11-[a-z-]+\.csv$/.test(file))
  .flatMap(readRows);

const row = (values: readonly number[]): string => values.map(plain).join(", ");

const trend =
  (figure: string) =>
  (given: Inputs): Asking => {
    const values = given.series("x");
    const times = given.has("t") ? given.series("t") : values.map((_, at) => at + 1);
    return { calculation: "trend", texts: { times: row(times), values: row(values) }, figure };
  };

const chart =
  (figure: string, texts: (given: Inputs) => Record<string, string>) =>
  (given: Inputs): Asking => ({ calculation: "control-chart", texts: texts(given), figure });

const single = (given: Inputs) => ({ values: row(given.series("x")) });
/** What a chart says of mean and moving range stated: the deviation is MR / 1.128. */
const stated = (given: Inputs) => ({
  values: "50, 51",
  centre: given.text("mean"),
  deviation: plain(given.number("mrbar") / given.number("d2")),
});
const average = (given: Inputs) => ({
  values: row(given.series("x").slice(0, given.number("i"))),
  lambda: given.text("lambda"),
  centre: given.text("z0"),
  deviation: "2.0539",
});
const settled = (given: Inputs) => ({
  values: "50, 51",
  lambda: given.text("lambda"),
  centre: given.text("center"),
  deviation: given.text("s"),
  k: given.text("k"),
});

const wilson =
  (figure: string) =>
  (given: Inputs): Asking => ({
    calculation: "proportion",
    texts: { count: given.text("x"), of: given.text("n"), confidence: `${100 * given.number("conf")} %` },
    figure,
  });
const poisson =
  (figure: string) =>
  (given: Inputs): Asking => ({
    calculation: "rate",
    texts: {
      count: given.text("x"),
      exposure: given.text("exposure"),
      per: "1",
      confidence: `${100 * given.number("conf")} %`,
    },
    figure,
  });

const survival =
  (figure: string) =>
  (given: Inputs): Asking => {
    const died = given.series("event");
    const ages = given.series("t").map((age, at) => (died[at] === 1 ? `${age}` : `>${age}`));
    return {
      calculation: "survival",
      texts: { times: `${ages.join(", ")} d`, at: `${given.text("at")} d` },
      figure,
    };
  };

const ratio =
  (figure: string) =>
  (given: Inputs): Asking => ({
    calculation: "rate-ratio",
    texts: {
      first: given.text("x1"),
      "first-exposure": given.text("exposure1"),
      second: given.text("x2"),
      "second-exposure": given.text("exposure2"),
      confidence: `${100 * given.number("conf", 0.95)} %`,
    },
    figure,
  });

const askings: Askings = {
  mann_kendall_S: trend("S"),
  mann_kendall_var: trend("variance"),
  mann_kendall_Z: trend("Z"),
  sen_slope: trend("change"),
  ewma: chart("average", average),
  ewma_ucl_asymptotic: chart("settled-upper", settled),
  ewma_lcl_asymptotic: chart("settled-lower", settled),
  individuals_mean: chart("centre", single),
  individuals_mrbar: chart("range", single),
  individuals_ucl: chart("upper", single),
  individuals_ucl_from_summary: chart("upper", stated),
  individuals_lcl_from_summary: chart("lower", stated),
  wilson_lower: wilson("low"),
  wilson_upper: wilson("high"),
  poisson_exact_lower: poisson("low"),
  poisson_exact_upper: poisson("high"),
  kaplan_meier_S: survival("survival"),
  kaplan_meier_SE_greenwood: survival("error"),
  kaplan_meier_loglog_lower: survival("low"),
  kaplan_meier_loglog_upper: survival("high"),
  rate_ratio: ratio("ratio"),
  rate_ratio_p: ratio("p"),
  rate_ratio_lower: ratio("low"),
  rate_ratio_upper: ratio("high"),
  left_censored_median: (given) => {
    const isBelow = given.series("below");
    const values = given.series("x").map((value, at) => (isBelow[at] === 1 ? `<${value}` : `${value}`));
    return { calculation: "below-detection", texts: { values: values.join(", ") }, figure: "median" };
  },
  detection_sample_size: (given) => ({
    calculation: "sample-size",
    texts: {
      prevalence: `${given.text("prevalence_percent")} %`,
      confidence: `${100 * given.number("conf")} %`,
    },
    figure: "examine",
  }),
  attack_rate: (given) => ({
    calculation: "proportion",
    texts: { count: given.text("ill"), of: given.text("exposed") },
    figure: "share",
  }),
};

/** The row prints the normal p of ten values, where the calculation counts the orders out. */
const NORMAL_P = "mann_kendall_p_two_sided";

describe("published statistics, asked in words", () => {
  it.each(rows.filter(({ quantity }) => quantity !== NORMAL_P).map((each) => [each.id, each] as const))(
    "%s",
    (_, each) => {
      const [low, high] = allowed(each);
      const got = answerTo(each, askings);
      expect(got).toBeGreaterThanOrEqual(low);
      expect(got).toBeLessThanOrEqual(high);
    },
  );

  it("of ten values the p is the exact one, 0.727 in place of the printed normal 0.721", () => {
    const [printed] = rows.filter(({ quantity }) => quantity === NORMAL_P);
    const values = printed!.inputs.replace("x=", "").replaceAll("|", ", ");
    const texts = { times: "1, 2, 3, 4, 5, 6, 7, 8, 9, 10", values };
    // Kendall 1975: P(S >= 5) of ten untied is 0.364 (Gilbert 1987, table A18, recalled).
    expect(asked("trend", texts, "p").best).toBeCloseTo(2 * 0.364, 2);
    expect(Number(printed!.expected)).toBeCloseTo(0.7205, 4);
  });
});

describe("counts that are known as a range", () => {
  const lost = fc.tuple(fc.integer({ min: 0, max: 40 }), fc.integer({ min: 0, max: 8 }));

  it("every count of the range lies within the ends told for it", () => {
    fc.assert(
      fc.property(lost, fc.nat(8), fc.integer({ min: 50, max: 400 }), ([least, width], step, of) => {
        const one = least + Math.min(step, width);
        for (const [name, more] of [
          ["proportion", { of: String(of) }],
          ["rate", { exposure: String(of) }],
        ] as const) {
          const spans = answerOf(name, { ...more, count: `${least}..${least + width}` }).figures;
          for (const spot of answerOf(name, { ...more, count: String(one) }).figures) {
            const span = spans.find((each) => each.name === spot.name)!;
            expect(spot.low).toBeGreaterThanOrEqual(span.low - 1e-9);
            expect(spot.high).toBeLessThanOrEqual(span.high + 1e-9);
          }
        }
      }),
    );
  });
});

describe("calculations that answer alike agree", () => {
  it("a brood with none sold survives as the share of it says", () => {
    const texts = { times: "1, 3, 7, >30", counts: "4, 2, 1, 33", at: "10 d" };
    expect(asked("survival", texts, "survival").best).toBeCloseTo(
      asked("proportion", { count: "33", of: "40" }, "share").best!,
      9,
    );
  });

  it("in hours as in days, in weeks as in days", () => {
    const days = { times: "6, 6, >9, 14 d", at: "14 d" };
    const weeks = { times: "144 h, 144 h, >216 h, 336 h", at: "2 w" };
    expect(answerOf("survival", weeks).figures).toEqual(answerOf("survival", days).figures);
  });

  it("readings without a limit have their plain mean", () => {
    const { figures } = answerOf("below-detection", { values: "3, 5, 10" });
    const best = Object.fromEntries(figures.map(({ name, best: value }) => [name, value]));
    expect(best).toMatchObject({ mean: 6, "mean-least": 6, median: 5, below: 0 });
  });

  it("as many examined as are asked for find the disease as surely as asked, one fewer do not", () => {
    const texts = { animals: "80", prevalence: "5", sensitivity: "90" };
    const enough = asked("sample-size", texts, "examine").best!;
    const chance = (examined: number) =>
      asked("sample-size", { ...texts, examined: `${examined}` }, "chance").best!;
    expect(chance(enough)).toBeGreaterThanOrEqual(95);
    expect(chance(enough - 1)).toBeLessThan(95);
  });
});

describe("what cannot be is refused, and the input named", () => {
  it.each([
    ["trend", { times: "1, 2, 3", values: "1, 2, x" }, "values: “x” is no figure"],
    ["trend", { times: "1, 2", values: "1, 2, 3" }, "times needs 3 figures at least"],
    ["trend", { times: "1, 2, 3, 4", values: "1, 2, 3" }, "3 values need as many times, not 4"],
    ["trend", { times: "3, 3, 3", values: "1, 2, 3" }, "times: readings of two times at least"],
    ["control-chart", { values: "7, 7, 7, 8", baseline: "3" }, "the first 3 readings are all the same"],
    ["control-chart", { values: "7, 8, 7", baseline: "9" }, "baseline: the first 9 are more than the 3"],
    ["control-chart", { values: "7, 8, 7", centre: "7" }, "centre and deviation go together"],
    ["control-chart", { values: "7, <8, 7" }, "values: “<8” is no single figure"],
    ["proportion", { count: "5", of: "4" }, "5 of 4 are more than all"],
    ["proportion", { count: "2.5", of: "4" }, "count: 2.5 is no whole number"],
    ["rate", { count: ">5", exposure: "100" }, "count needs an upper end too"],
    [
      "rate-ratio",
      { first: "0", "first-exposure": "9", second: "0", "second-exposure": "9" },
      "no case in either",
    ],
    ["survival", { times: "1, <3", at: "2" }, "times: an age is a figure, or >6"],
    ["survival", { times: "1, 3", counts: "2", at: "2" }, "counts: 2 times need as many counts, not 1"],
    ["survival", { times: "1, >3", at: "9" }, "nobody was followed beyond 3"],
    ["below-detection", { values: "<1, <2" }, "no reading is above its limit"],
    ["below-detection", { values: "<1, >2" }, "the values may be figures of 0 or more and < readings only"],
    ["sample-size", { animals: "40..50", prevalence: "5" }, "animals has to be one figure"],
  ] as const)("%s %o", (name, texts, why) => {
    const { problems, outside, figures } = answerOf(name, texts);
    expect(problems[0]?.message ?? outside).toContain(why);
    expect(figures).toEqual([]);
  });
});
