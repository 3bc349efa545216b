import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { inbreeding, type Parents, relationships } from "../../language/science/pedigree.ts";
import { inbreedingBounds } from "../../language/science/pedigree-groups.ts";
import { pathsOf, sumOf } from "../../language/science/pedigree-paths.ts";
import { isOutside } from "../../language/science/result.ts";

/** Rows `animal father mother`, numbered from 1 in order; 0 is not known. */
const pedigree = (rows: string): Parents[] =>
  rows
    .trim()
    .split("\n")
    .map((row) => {
      const [, father = 0, mother = 0] = row.trim().split(/\s+/).map(Number);
      return {
        father: father === 0 ? undefined : father - 1,
        mother: mother === 0 ? undefined : mother - 1,
      };
    });

const f = (rows: string): number => (inbreeding(pedigree(rows)) as number[]).at(-1)!;

describe("inbreeding by the table", () => {
  it("is an eighth from half sibs and a quarter from full sibs, or from a parent and its young", () => {
    expect(f("1\n2\n3\n4 1 2\n5 1 3\n6 4 5")).toBe(0.125);
    expect(f("1\n2\n3 1 2\n4 1 2\n5 3 4")).toBe(0.25);
    expect(f("1\n2\n3 1 2\n4 1 3")).toBe(0.25);
    expect(f("1\n2\n3 1 2")).toBe(0);
  });

  // Christensen, K., Population Genetics (lecture notes, Royal Veterinary and Agricultural University), section 4.5 and the matrix
  // printed with its applet; the notes cut the last digit off, so the figures agree to 0.001.
  it("fills the table that Christensen prints", () => {
    const table = relationships(pedigree("1\n2 1 0\n3 1 0\n4 1 0\n5 2 3\n6 4 3\n7 5 6"));
    const printed = [
      [1, 0.5, 0.5, 0.5, 0.5, 0.5, 0.5],
      [0.5, 1, 0.25, 0.25, 0.625, 0.25, 0.437],
      [0.5, 0.25, 1, 0.25, 0.625, 0.625, 0.625],
      [0.5, 0.25, 0.25, 1, 0.25, 0.625, 0.437],
      [0.5, 0.625, 0.625, 0.25, 1.125, 0.437, 0.781],
      [0.5, 0.25, 0.625, 0.625, 0.437, 1.125, 0.781],
      [0.5, 0.437, 0.625, 0.437, 0.781, 0.781, 1.218],
    ];
    printed.forEach((row, at) => {
      row.forEach((value, column) => {
        expect((table as number[][])[at]![column]! - value).toBeGreaterThanOrEqual(0);
        expect((table as number[][])[at]![column]! - value).toBeLessThan(0.001);
      });
    });
  });

  // Mrode 2014, Linear Models for the Prediction of Animal Breeding Values, 3rd ed.: the pedigree of section 2.2, the part of its matrix
  // among sires 1, 4 and 5 on p. 32, and F of calf 5 in appendix B, p. 310.
  it("agrees with Mrode's calves", () => {
    const table = relationships(pedigree("1\n2\n3 1 2\n4 1 0\n5 4 3\n6 5 2")) as number[][];
    const sires = [0, 3, 4];
    expect(sires.map((one) => sires.map((other) => table[one]![other]))).toEqual([
      [1, 0.5, 0.5],
      [0.5, 1, 0.625],
      [0.5, 0.625, 1.125],
    ]);
  });

  // Falconer & Mackay 1996, Introduction to Quantitative Genetics, table 5.1 (recalled): repeated mating of full brothers and sisters.
  it("grows as printed where brother meets sister for eight generations", () => {
    const rows = ["1", "2"];
    for (let pair = 1; pair <= 8; pair++)
      rows.push(`${2 * pair + 1} ${2 * pair - 1} ${2 * pair}`, `${2 * pair + 2} ${2 * pair - 1} ${2 * pair}`);
    const all = inbreeding(pedigree(rows.join("\n"))) as number[];
    const byGeneration = Array.from({ length: 7 }, (_, at) => Number(all[4 + 2 * at]!.toFixed(3)));
    expect(byGeneration).toEqual([0.25, 0.375, 0.5, 0.594, 0.672, 0.734, 0.785]);
  });

  it("gives a reason for an animal that would be its own ancestor", () => {
    expect(relationships([{ father: 1 }, { mother: 0 }])).toEqual({
      outside: "an animal would be its own ancestor",
    });
    expect(relationships([{ father: 3 }])).toEqual({ outside: "parent 3 is not in the pedigree" });
  });

  it("reads a line of ten thousand generations", () => {
    const line = Array.from({ length: 10_000 }, (_, at) => (at === 9999 ? {} : { father: at + 1 }));
    expect(isOutside(inbreedingBounds(line.map((each) => ({ ...each, isGroup: false }))))).toBe(false);
  });
});

/** Any pedigree in which parents come first; males are even, females odd. */
const anyPedigree = fc.array(fc.tuple(fc.nat(), fc.nat()), { minLength: 3, maxLength: 11 }).map((rows) =>
  rows.map(([one, other], at): Parents => {
    const fathers = Array.from({ length: at }, (_, each) => each).filter((each) => each % 2 === 0);
    const mothers = Array.from({ length: at }, (_, each) => each).filter((each) => each % 2 === 1);
    return { father: fathers[one % (fathers.length + 1)], mother: mothers[other % (mothers.length + 1)] };
  }),
);

describe("inbreeding by Wright's paths", () => {
  it("names the paths: of half sibs one, through their father", () => {
    const half = pedigree("1\n2\n3\n4 1 2\n5 1 3\n6 4 5");
    expect(pathsOf(half, 5)).toEqual([{ through: [3, 0, 4], ancestor: 0, adds: 0.125 }]);
  });

  it("gives a reason where there are more paths than anybody would read", () => {
    const pairs = Array.from({ length: 44 }, (_, at): Parents => {
      const pair = at - (at % 2);
      return pair === 0 ? {} : { father: pair - 2, mother: pair - 1 };
    });
    expect(pathsOf(pairs, 43)).toEqual({ outside: "more than 20000 paths" });
  });

  it("comes to what the table gives, on any pedigree", () => {
    fc.assert(
      fc.property(anyPedigree, (animals) => {
        const table = inbreeding(animals) as number[];
        animals.forEach((_, animal) => {
          const paths = pathsOf(animals, animal);
          expect(isOutside(paths) ? Number.NaN : sumOf(paths)).toBeCloseTo(table[animal]!, 12);
        });
      }),
    );
  });

  it("is between 0 and 1, and does not hang on the order in which the animals are written", () => {
    fc.assert(
      fc.property(anyPedigree, (animals) => {
        const turned = [...animals].reverse().map(({ father, mother }) => ({
          father: father === undefined ? undefined : animals.length - 1 - father,
          mother: mother === undefined ? undefined : animals.length - 1 - mother,
        }));
        const table = inbreeding(animals) as number[];
        for (const value of table) expect(value >= 0 && value < 1).toBe(true);
        expect([...(inbreeding(turned) as number[])].reverse()).toEqual(table);
      }),
    );
  });
});

describe("parents that are one of a group", () => {
  it("gives one figure where all have names", () => {
    fc.assert(
      fc.property(anyPedigree, (animals) => {
        const bounds = inbreedingBounds(animals.map((each) => ({ ...each, isGroup: false })));
        const table = inbreeding(animals) as number[];
        if (isOutside(bounds)) throw new Error(bounds.outside);
        bounds.forEach(({ low, high }, at) => {
          expect(low).toBeCloseTo(table[at]!, 12);
          expect(high).toBeCloseTo(table[at]!, 12);
        });
      }),
    );
  });

  it("is a quarter where a brood is bred with itself", () => {
    const kin = pedigree("1\n2\n3 1 2\n4 3 3").map((each, at) => ({ ...each, isGroup: at >= 2 }));
    expect(inbreedingBounds(kin)).toMatchObject([{}, {}, {}, { low: 0.25, high: 0.25 }]);
  });

  it("is an eighth at most where two broods may have a father of one group in common", () => {
    // 1 is a group of males, 2 and 3 single females; 4 and 5 are broods, mated with each other.
    const kin = pedigree("1\n2\n3\n4 1 2\n5 1 3\n6 4 5").map((each, at) => ({
      ...each,
      isGroup: at === 0 || at >= 3,
    }));
    expect(inbreedingBounds(kin)).toMatchObject([{}, {}, {}, {}, {}, { low: 0, high: 0.125 }]);
  });

  it("holds whatever animals of the groups were the parents", () => {
    const groups = fc.array(fc.boolean(), { minLength: 11, maxLength: 11 });
    const picks = fc.infiniteStream(fc.nat(2));
    fc.assert(
      fc.property(anyPedigree, groups, picks, (animals, isGroup, pick) => {
        const kin = animals.map((each, at) => ({ ...each, isGroup: isGroup[at]! }));
        const bounds = inbreedingBounds(kin);
        if (isOutside(bounds)) throw new Error(bounds.outside);
        // Each group becomes three males and three females, all of one father and mother that are drawn once.
        const born: Parents[] = [];
        const first: number[] = [];
        const drawn = (lot: number | undefined, isMale: boolean): number | undefined => {
          if (lot === undefined) return undefined;
          return kin[lot]!.isGroup ? first[lot]! + (isMale ? 0 : 3) + pick.next().value! : first[lot]!;
        };
        kin.forEach(({ father, mother, isGroup: isMany }) => {
          const parents = { father: drawn(father, true), mother: drawn(mother, false) };
          first.push(born.length);
          for (let at = 0; at < (isMany ? 6 : 1); at++) born.push(parents);
        });
        const table = inbreeding(born) as number[];
        bounds.forEach(({ low, high }, at) => {
          expect(table[first[at]!]!).toBeGreaterThanOrEqual(low - 1e-12);
          expect(table[first[at]!]!).toBeLessThanOrEqual(high + 1e-12);
        });
      }),
    );
  });
});
