import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { shareOfFirst } from "../../language/science/blend.ts";
import { answerOf, asked, plain } from "./asked.ts";

/** Calculations that answer one question from two sides agree. */

const amount = (low: number, high: number) => fc.double({ min: low, max: high, noNaN: true });
const figure = (name: string, texts: Record<string, string>, of: string): number =>
  asked(name, texts, of).best!;

describe("doses", () => {
  it("what is weighed reaches what was wanted, and so do drops", () => {
    fc.assert(
      fc.property(amount(0.1, 50), amount(5, 500), amount(1, 100), (target, litres, active) => {
        const tank = { volume: plain(litres) };
        const product = { ...tank, active: plain(active) };
        const weight = figure("dose", { ...product, target: plain(target) }, "weight");
        expect(figure("dose-reached", { ...product, weight: plain(weight) }, "concentration")).toBeCloseTo(
          target,
          8,
        );
        const liquid = { ...tank, strength: "10 mg/mL", drop: "0.05 mL" };
        const drops = figure("dose", { ...liquid, target: plain(target) }, "drops");
        expect(figure("dose-reached", { ...liquid, drops: plain(drops) }, "concentration")).toBeCloseTo(
          target,
          8,
        );
      }),
    );
  });

  it("a stock made for doses of so many mL is dosed in so many mL", () => {
    fc.assert(
      fc.property(amount(0.1, 20), amount(5, 500), amount(1, 50), (target, litres, each) => {
        fc.pre((target * litres) / each < 2000);
        const tank = { target: plain(target), volume: plain(litres) };
        const strength = figure("stock", { ...tank, made: "500 mL", each: plain(each) }, "strength");
        expect(figure("dose", { ...tank, strength: plain(strength) }, "liquid")).toBeCloseTo(each, 6);
        const mass = figure("stock", { ...tank, made: "500 mL", each: plain(each) }, "mass");
        expect(figure("stock", { ...tank, made: "500 mL", mass: plain(mass) }, "each")).toBeCloseTo(each, 6);
      }),
    );
  });

  it("two doses with a change between are the first, redosed", () => {
    const left = figure("redose", { dose: "2", change: "30 %", volume: "60 L" }, "left");
    const trough = figure("course", { dose: "2", every: "7 d", doses: "2", change: "30 %" }, "trough");
    expect(trough).toBeCloseTo(left, 12);
  });
});

describe("salts", () => {
  it("a fertiliser weighed for a rise brings that rise", () => {
    fc.assert(
      fc.property(amount(0.1, 50), amount(5, 500), (rise, litres) => {
        const tank = { salt: "KNO3", volume: plain(litres) };
        const mass = figure("fertiliser", { ...tank, rise: plain(rise), of: "NO3" }, "mass");
        expect(figure("fertiliser", { ...tank, mass: plain(mass) }, "NO3")).toBeCloseTo(rise, 8);
      }),
    );
  });

  it("an addition that levels off at a level is the one for that level", () => {
    const highest = figure("fertiliser-level", { addition: "3", change: "30 %", source: "2" }, "highest");
    const back = { level: plain(highest), change: "30 %", source: "2" };
    expect(figure("fertiliser-level", back, "addition")).toBeCloseTo(3, 9);
  });

  it("a recipe of one salt for one wish is that salt for that hardness", () => {
    fc.assert(
      fc.property(amount(0, 10), amount(0.1, 20), amount(5, 500), (source, rise, litres) => {
        const one = { salt: "MgSO4.7H2O", raise: plain(rise), volume: plain(litres) };
        const grams = figure("salt-for-hardness", one, "grams");
        const wish = {
          wanted: `GH ${plain(source + rise)}`,
          salts: "Epsom salt",
          volume: plain(litres),
          "source-GH": plain(source),
        };
        expect(figure("recipe", wish, "MgSO4.7H2O") / grams).toBeCloseTo(1, 6);
      }),
    );
  });

  it("a blend of two waters for one wish is the share by the rule of three", () => {
    fc.assert(
      fc.property(amount(8, 30), amount(0, 4), amount(4, 8), (tap, soft, wanted) => {
        const texts = {
          wanted: `GH ${plain(wanted)}`,
          second: `GH ${plain(soft)}`,
          volume: "40 L",
          "source-GH": plain(tap),
        };
        const share = 100 * (shareOfFirst(tap, soft, wanted) as number);
        expect(figure("blend", texts, "share")).toBeCloseTo(share, 5);
      }),
    );
  });

  it("hardness from its metals is what a blend of that water alone comes to", () => {
    const texts = {
      wanted: "GH 9",
      salts: "NaHCO3",
      volume: "10 L",
      "source-calcium": "50",
      "source-magnesium": "10",
    };
    expect(figure("recipe", texts, "GH")).toBeCloseTo(
      figure("hardness", { calcium: "50", magnesium: "10" }, "GH"),
      9,
    );
  });

  it("each reading of sea water leads back to the salinity that it came from", () => {
    fc.assert(
      fc.property(amount(0.1, 41), amount(5, 34), (salinity, warmth) => {
        const at = { temperature: plain(warmth), reference: "20 C" };
        for (const reading of ["conductivity", "conductivity25", "gravity"]) {
          const said = figure("salinity", { ...at, salinity: plain(salinity) }, reading);
          expect(figure("salinity", { ...at, [reading]: plain(said) }, "salinity"), reading).toBeCloseTo(
            salinity,
            5,
          );
        }
      }),
    );
  });
});

describe("ammonia", () => {
  it("after the change at once free ammonia stands at the limit", () => {
    fc.assert(
      fc.property(
        amount(0.5, 10),
        amount(7, 9),
        amount(15, 30),
        amount(0.01, 0.05),
        (total, pH, warmth, limit) => {
          const place = { pH: plain(pH), temperature: plain(warmth) };
          const change = figure(
            "ammonia-change",
            { ...place, total: plain(total), limit: plain(limit) },
            "at-once",
          );
          fc.pre(change > 0);
          const left = { ...place, total: plain(total * (1 - change / 100)) };
          expect(figure("free-ammonia", left, "free")).toBeCloseTo(limit, 8);
        },
      ),
    );
  });

  it("so many changes bring it there, and one less does not", () => {
    const place = { pH: "8.2", temperature: "25" };
    const many = figure("ammonia-change", { ...place, total: "3", limit: "0.02", change: "30 %" }, "changes");
    const freeAfter = (count: number) =>
      figure("free-ammonia", { ...place, total: plain(3 * 0.7 ** count) }, "free");
    expect(freeAfter(many)).toBeLessThanOrEqual(0.02);
    expect(freeAfter(many - 1)).toBeGreaterThan(0.02);
  });

  it("new water that is itself above the limit is said to be", () => {
    const texts = { total: "2", pH: "8.5", temperature: "25", source: "1" };
    const { figures } = answerOf("ammonia-change", texts);
    expect(figures.find(({ name }) => name === "at-once")!.outside).toContain(
      "the new water itself holds 1 mg/L N",
    );
  });

  it("a higher pH of the new water may raise it, and is said to", () => {
    const texts = { total: "1", pH: "7", temperature: "25", change: "20 %" };
    const direction = (sourcePH: string) =>
      answerOf("ammonia-change", { ...texts, "source-pH": sourcePH }).figures.find(
        ({ name }) => name === "direction",
      )!.text;
    expect(direction("8")).toBe("may raise free ammonia");
    expect(direction("7")).toBe("does not raise free ammonia");
  });
});

describe("what does not read", () => {
  const recipe = { wanted: "GH 6", salts: "CaCl2.2H2O", volume: "40 L" };
  it.each([
    ["recipe", { ...recipe, wanted: "GH" }, "wanted: “GH” is no name with a figure, such as GH 6"],
    ["recipe", { ...recipe, wanted: "GH 6, GH 7" }, "wanted: GH is stated twice"],
    ["recipe", { ...recipe, wanted: "GH 6..7" }, "wanted: GH 6..7 is no single figure"],
    [
      "recipe",
      { ...recipe, wanted: "sodum 6" },
      "wanted: “sodum” cannot be stated of a water; what can is “sodium”",
    ],
    [
      "recipe",
      { ...recipe, wanted: "GH 6 mg/L N" },
      "wanted: GH: mg/L N is a concentration; GH is measured in dGH",
    ],
    [
      "recipe",
      { ...recipe, wanted: "Ca:Mg 3", "source-GH": "4" },
      "wanted: for Ca:Mg each water has to state its calcium and magnesium, not its GH alone",
    ],
    ["recipe", { ...recipe, salts: "gypsum, CaSO4.2H2O" }, "salts: CaSO4.2H2O stands in the list twice"],
    ["recipe", { ...recipe, salts: "Fe2(SO4)3" }, "salts: what Fe2(SO4)3 dissolves to is not known here"],
    [
      "recipe",
      { ...recipe, salts: "calcium chloride" },
      "salts: “calcium chloride” is no formula of known elements and no salt known by that name; known is “calcium chloride dihydrate”, “calcium chloride anhydrous” or “calcium chloride hexahydrate”",
    ],
    [
      "recipe",
      { ...recipe, "source-GH": "3", "source-calcium": "50" },
      "source: its calcium alone is more than its GH of 3 dGH",
    ],
    [
      "blend",
      { wanted: "GH 6", second: "Ca:Mg 3", volume: "40" },
      "second: Ca:Mg can be wanted; of a water state calcium, magnesium",
    ],
    [
      "salt-for-hardness",
      { salt: "KCl", raise: "3", volume: "10" },
      "KCl brings neither hardness nor alkalinity",
    ],
    [
      "salt-for-hardness",
      { salt: "chalk", raise: "3", volume: "10" },
      "CaCO3 brings both: say of=GH or of=KH",
    ],
    ["fertiliser", { salt: "KNO3", volume: "10", rise: "3", of: "PO4" }, "of: KNO3 is not known to hold PO4"],
    [
      "chlorine",
      { total: "1", combined: "2", volume: "9" },
      "combined chlorine 2 mg/L is more than the total 1",
    ],
    [
      "dose",
      { target: "1", volume: "9", remedy: "a b" },
      "remedy: “a b” is no name of a log: letters, digits and hyphens, no blanks",
    ],
    [
      "salinity",
      { temperature: "25", salinity: "3", gravity: "1.02" },
      "salinity and gravity are given, and only one of them can lead",
    ],
    [
      "stock",
      { target: "20", volume: "500", made: "100", each: "1" },
      "10000 mg of product do not go into one mL: let one dose be more mL",
    ],
    ["formalin", { volume: "10" }, "one of target, weight is needed, and none is given"],
    [
      "fixative",
      { tissue: "5", fixative: "ethanol", strength: "96", stock: "70" },
      "no 96 % can be made from a stock of 70 %",
    ],
    [
      "fixative",
      { tissue: "5", stock: "70" },
      "stock is of ethanol: formalin is told by its share of what is sold as formalin",
    ],
    ["attack-rate", { "at-risk": "5", cases: "7" }, "7 of 5 are more than all"],
    ["attack-rate", { "at-risk": "9", cases: "2", deaths: "3" }, "3 of 2 are more than all that fell ill"],
  ] as const)("of %s %o", (name, texts, reason) => {
    const { problems, outside, figures } = answerOf(name, texts);
    expect(problems).toEqual([]);
    expect(outside).toBe(reason);
    expect(figures).toEqual([]);
  });
});

it("a recipe says what it does not reach, and why", () => {
  const texts = { wanted: "GH 6, K 5", salts: "CaCl2.2H2O, KCl", volume: "40 L", "source-GH": "8" };
  const { figures } = answerOf("recipe", texts);
  const missed = figures.find(({ name }) => name === "missed")!.text;
  expect(missed).toContain("GH comes to 8 and not 6 dGH: hardness stands above the target");
  expect(missed).not.toContain("potassium");
  expect(figures.find(({ name }) => name === "counted-0")!.text).toBe("potassium, chloride");
  const without = answerOf("recipe", { ...texts, salts: "CaCl2.2H2O" }).figures;
  expect(without.find(({ name }) => name === "missed")!.text).toContain(
    "potassium comes to 0 and not 5 mg/L: no salt of the list raises potassium",
  );
  expect(
    without.map(({ name }) => name),
    "of alkalinity nothing is stated",
  ).not.toContain("KH");
});
