import fc from "fast-check";
import { expect, test } from "vitest";
import { Causes, Reach } from "../../../language/history/review/causes.ts";

const indices = fc.array(fc.nat({ max: 30 }), { maxLength: 12 });

test("causes are listed the nearest first, each once, and are as many as are counted", () => {
  const part = fc.record({ near: indices, rest: fc.option(fc.nat({ max: 3 })) });
  fc.assert(
    fc.property(
      fc.array(part, { minLength: 1, maxLength: 5 }),
      fc.tuple(indices, indices, indices, indices),
      fc.nat({ max: 40 }),
      (parts, lists, most) => {
        const reaches = lists.map((list) => new Reach(list));
        const all = parts
          .map(({ near, rest }) => Causes.of(near, rest === null ? undefined : reaches[rest]))
          .reduce((one, other) => one.with(other));
        const plain = [
          ...new Set(parts.flatMap(({ near, rest }) => [...near, ...(rest === null ? [] : lists[rest]!)])),
        ];
        expect(all.list()).toEqual(plain);
        expect(all.list(most)).toEqual(plain.slice(0, most));
        expect(all.count).toBe(plain.length);
        expect(all.near).toBe(Math.max(...parts.map(({ near }) => new Set(near).size)));
      },
    ),
    { numRuns: Number(process.env.RUNS ?? 200) },
  );
});
