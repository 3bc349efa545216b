import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { Calculation, QuantityInput } from "../../language/calculations/calculation.ts";
import { groups } from "../../language/calculations/calculation.ts";
import { evaluate, type Texts } from "../../language/calculations/evaluate.ts";
import { givenIn } from "../../language/calculations/given.ts";
import { calculationPage } from "../../language/calculations/page.ts";
import { calculations } from "../../language/calculations/registry.ts";
import { fromCanonical, toCanonical } from "../../language/quantity/quantity.ts";
import { UNITS, unitOf } from "../../language/quantity/units.ts";

/** What holds of every calculation, whatever it reckons. */

const textsOf = (line: string): Texts => {
  const read = givenIn(line);
  if ("stray" in read) throw new Error(`“${line}” begins with no input`);
  return read.texts;
};

const cases = calculations.map((each) => [each.name, each] as const);

it("has names of its own, in an order by groups", () => {
  expect(new Set(calculations.map(({ name }) => name)).size).toBe(calculations.length);
  const order = calculations.map(({ group }) => groups.indexOf(group));
  expect(order).toEqual([...order].sort((a, b) => a - b));
});

describe.each(cases)("%s", (_, each) => {
  it("says where its formula is from, where it holds, and what it takes", () => {
    expect(each.name).toMatch(/^[a-z][a-z0-9-]*$/);
    expect(each.sources.length).toBeGreaterThan(0);
    for (const source of each.sources)
      expect(source).toMatch(/\d{4}|common practice|definition|exact|arithmetic/i);
    expect(each.formula.length).toBeGreaterThan(0);
    expect(each.range).not.toBe("");
    for (const [name, input] of Object.entries(each.inputs)) {
      expect(name).toMatch(/^[\p{L}][\p{L}\p{N}-]*$/u);
      if (input.is === "quantity" && input.unit !== "") expect(() => unitOf(input.unit)).not.toThrow();
    }
  });

  it("never says that something is harmless", () => {
    expect(JSON.stringify(each)).not.toMatch(/\bsafe(ly)?\b/i);
  });

  it.each(each.examples.map((example) => [example.given, example] as const))(
    "worked example: %s",
    (given, { gives }) => {
      const { problems, outside, figures } = evaluate(each, textsOf(given));
      expect({ problems, outside }).toEqual({ problems: [], outside: undefined });
      const shown = Object.fromEntries(figures.map(({ name, text }) => [name, text]));
      expect(shown).toMatchObject(gives);
      expect(Object.keys(gives).length).toBeGreaterThan(0);
    },
  );

  it("has an example that gives each of its figures, and a page", () => {
    expect(each.examples.length).toBeGreaterThan(0);
    const page = calculationPage(each);
    expect(page).toContain(`# ${each.title}`);
    for (const name of Object.keys(each.inputs)) expect(page).toContain(`\`${name}\``);
  });

  const [first] = each.examples;
  const texts = textsOf(first?.given ?? "");
  const quantities = Object.entries(each.inputs).filter(
    (entry): entry is [string, QuantityInput] => entry[1].is === "quantity" && texts[entry[0]] !== undefined,
  );

  it("does not mind the unit of what it is given", () => {
    const plain = evaluate(each, texts);
    for (const [name, { unit: symbol }] of quantities) {
      if (symbol === "" || symbol === "pH") continue;
      const own = unitOf(symbol);
      const taken = numberOf(each, name, texts);
      for (const other of UNITS) {
        const isOther = other.dimension === own.dimension && other.basis === own.basis && other !== own;
        if (!isOther || other.spellings.length === 0) continue;
        const value = fromCanonical(toCanonical(taken, own.id), other.id);
        if (!Number.isFinite(value) || Math.abs(value) < 1e-6 || Math.abs(value) >= 1e15) continue;
        const said = evaluate(each, { ...texts, [name]: `${value.toFixed(12)} ${other.spellings[0]}` });
        expect(said.problems, `${name} in ${other.symbol}`).toEqual([]);
        said.figures.forEach((figure, at) => {
          const was = plain.figures[at]!;
          if (Number.isNaN(was.low)) return;
          expect(figure.low, `${figure.name} with ${name} in ${other.symbol}`).toBeCloseTo(
            was.low,
            near(was.low),
          );
        });
      }
    }
  });

  it("refuses what cannot be, and names the input", () => {
    for (const [name, { low, high, isAbove }] of quantities) {
      const wrong = [
        "NaN",
        "much",
        "7,2",
        ...(Number.isFinite(low) ? [String(low - 1), ...(isAbove ? [String(low)] : [])] : []),
        ...(Number.isFinite(high) ? [String(high * 2 + 1)] : []),
        "3 parsecs",
      ];
      for (const text of wrong) {
        const { problems, figures } = evaluate(each, { ...texts, [name]: text });
        expect(
          problems.map(({ input }) => input),
          `${name}=${text}`,
        ).toEqual([name]);
        expect(problems[0]!.message).toContain(name);
        expect(figures).toEqual([]);
      }
    }
  });

  it("names an input that is missing, and one that there is not", () => {
    const needed = Object.entries(each.inputs).filter(
      ([, { otherwise, optional }]) => otherwise === undefined && optional !== true,
    );
    expect(evaluate(each, {}).problems.map(({ input }) => input)).toEqual(needed.map(([name]) => name));
    expect(evaluate(each, { ...texts, colour: "3" }).problems.map(({ input }) => input)).toEqual(["colour"]);
  });

  it("holds every result of a range within the ends it gives for the range", () => {
    const ranging = quantities.filter(([, { isSingle }]) => isSingle !== true);
    if (ranging.length === 0) return;
    const bands = ranging.map(([name, input]) => {
      const middle = numberOf(each, name, texts);
      return { name, input, middle };
    });
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(fc.double({ min: 0, max: 0.2, noNaN: true }), fc.double({ min: -1, max: 1, noNaN: true })),
          {
            minLength: bands.length,
            maxLength: bands.length,
          },
        ),
        fc.nat({ max: bands.length - 1 }),
        fc.nat({ max: bands.length - 1 }),
        (draws, one, other) => {
          const ranged: Record<string, string | undefined> = { ...texts };
          const inside: Record<string, string | undefined> = { ...texts };
          for (const at of new Set([one, other])) {
            const { name, input, middle } = bands[at]!;
            const [width, where] = draws[at]!;
            const half = Math.abs(middle) * width;
            const whole = (value: number): number => (input.isWhole === true ? Math.round(value) : value);
            const low = whole(Math.max(input.low, middle - half));
            const high = whole(Math.min(input.high, middle + half));
            if (input.isAbove === true && low <= input.low) continue;
            const plain = (value: number): string => value.toFixed(9);
            if (plain(low) === plain(high)) continue;
            ranged[name] = `${plain(low)}..${plain(high)} ${input.unit === "pH" ? "" : input.unit}`;
            const spot = whole(
              Number(plain(low)) + ((where + 1) / 2) * (Number(plain(high)) - Number(plain(low))),
            );
            inside[name] = `${spot.toFixed(12)} ${input.unit === "pH" ? "" : input.unit}`;
          }
          const span = evaluate(each, ranged);
          const spot = evaluate(each, inside);
          if (span.problems.length > 0 || span.outside !== undefined) return;
          expect(spot.problems).toEqual([]);
          for (const figure of span.figures) {
            if (Number.isNaN(figure.low)) continue;
            const got = spot.figures.find(({ name }) => name === figure.name);
            if (got === undefined || Number.isNaN(got.low)) continue;
            const slack = 1e-9 * (1 + Math.abs(figure.low) + Math.abs(figure.high));
            expect(got.low, figure.name).toBeGreaterThanOrEqual(figure.low - slack);
            expect(got.high, figure.name).toBeLessThanOrEqual(figure.high + slack);
          }
        },
      ),
      { numRuns: 60 },
    );
  });

  it("never gives a number that is none", () => {
    const { figures } = evaluate(each, texts);
    for (const figure of figures) {
      if (figure.outside !== undefined) continue;
      if (figure.best !== undefined) expect(figure.best, figure.name).not.toBeNaN();
    }
  });
});

function near(value: number): number {
  return Math.max(0, 7 - Math.ceil(Math.log10(Math.abs(value) + 1e-9)));
}

/** What was given for an input, in its own unit. */
function numberOf(each: Calculation, name: string, texts: Texts): number {
  let seen = Number.NaN;
  const spy: Calculation = {
    ...each,
    compute(given) {
      if (Number.isNaN(seen)) seen = (given as Record<string, number>)[name]!;
      return each.compute(given);
    },
  };
  evaluate(spy, texts);
  return seen;
}
