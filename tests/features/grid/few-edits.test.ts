import fc from "fast-check";
import { expect, it } from "vitest";
import { applied } from "../../../language/features/grid/block-edits.ts";
import { fewEdits } from "../../../language/features/grid/few-edits.ts";

const edits = fc
  .array(fc.record({ gap: fc.nat(90), removed: fc.nat(5), text: fc.string({ maxLength: 4 }) }), {
    maxLength: 900,
  })
  .map((each) => {
    let at = 0;
    return each.map(({ gap, removed, text }) => {
      const start = at + gap;
      at = start + removed;
      return { start, end: at, text };
    });
  });

it("very many edits come to the same text by fewer", () => {
  fc.assert(
    fc.property(edits, (each) => {
      const text = "0123456789".repeat(1 + Math.ceil((each.at(-1)?.end ?? 0) / 10));
      const few = fewEdits(text, each);
      expect(few.length).toBeLessThanOrEqual(400);
      expect(applied(text, few)).toBe(applied(text, each));
      if (each.length <= 400) expect(few).toBe(each);
    }),
    { numRuns: 60 },
  );
});
