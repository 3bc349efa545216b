import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inlayHints } from "../../language/features/hints.ts";
import { hover } from "../../language/features/hover.ts";
import { codeLenses, lensTitle } from "../../language/features/lenses.ts";
import { signatureHelp } from "../../language/features/signature-help.ts";
import type { View } from "../../language/features/view.ts";
import { whyAt, whyText } from "../../language/features/why.ts";
import { viewOf } from "../support/cursor.ts";

const log = `room "Cellar"
  quarantine 28 d
water tap
  content nitrate 6 mg/L
system rack
  sump 20 L
tank r1
  volume 24 L
  system rack
tank dam
  volume 100 L
  limits nitrate <= 40 mg/L
  every 7 d change 20..30 %
tank q1
  volume 50 L
  role quarantine
group all = dam, r1
species horn
remedy prazi
  target 2 mg/L
  repeat 3 times every 7 d
2026-03-01
  dam count horn 8
  dam test nitrate 20, pH 7.2
  08:00 @all change 10 %
2026-03-02
  dam test nitrate 22
  q1 dose prazi 100 mg
2026-03-03
  sheet nitrate pH
    dam 24 7
    r1  <5 -
  dam move horn 2 -> r1
2026-03-04
  dam test nitrate 26, ammonia 0.2, temperature 25, pH 8
  dam change 30 L flow
  q1 arrive horn 3
  dam count horn 6
  q1 change 50 %
`;

/** What a keeper may do to a log, and worse. */
const pieces = [
  "30 %",
  "dam ",
  "\n",
  "  ",
  "2026-03-02\n",
  "->",
  "<",
  '"',
  "#",
  "@all ",
  "q1 dose prazi 50 mg\n",
  "x",
  "7",
  "tank dam\n",
  "",
];
const edits = fc.array(
  fc.record({
    at: fc.nat(log.length + 40),
    length: fc.nat(12),
    text: fc.constantFrom(...pieces),
  }),
  { minLength: 1, maxLength: 5 },
);

function hintsOf(view: View): string[] {
  return inlayHints(view, 0, view.source.text.length).map(({ offset, label }) => `${offset} ${label}`);
}
const titlesOf = (view: View): (string | undefined)[] =>
  codeLenses(view).map((lens) => lensTitle(view, lens)?.title);

// Many logbooks are read: on a busy machine that takes its time.
describe("after any edits", () => {
  test("hints, lenses and reasons are those of a fresh reading", () => {
    fc.assert(
      fc.property(edits, (all) => {
        const view = viewOf(log);
        hintsOf(view);
        titlesOf(view);
        for (const { at, length, text } of all) {
          const { source, checked } = view;
          const start = Math.min(at, source.text.length);
          checked.take(source.edit(start, Math.min(source.text.length, start + length), text));
          hintsOf(view);
        }
        const fresh = viewOf(view.source.text);
        const now = { ...view, worldDay: fresh.worldDay };
        expect(hintsOf(now)).toEqual(hintsOf(fresh));
        expect(titlesOf(now)).toEqual(titlesOf(fresh));
        const reasons = (of: View): string[] =>
          [0.3, 0.6, 0.8, 0.95].map((share) => {
            const why = whyAt(of, Math.floor(share * of.source.text.length));
            return why === undefined ? "" : whyText(why);
          });
        expect(reasons(now)).toEqual(reasons(fresh));
      }),
      { numRuns: 60 },
    );
  });

  test("nothing that is asked of a place throws", () => {
    fc.assert(
      fc.property(edits, fc.nat(log.length + 20), (all, place) => {
        let text = log;
        for (const { at, length, text: inserted } of all)
          text = text.slice(0, at) + inserted + text.slice(at + length);
        const view = viewOf(text);
        const offset = Math.min(place, text.length);
        hover(view, offset);
        signatureHelp(view, offset);
        whyAt(view, offset);
        expect(inlayHints(view, offset, offset).length).toBeLessThanOrEqual(2);
      }),
      { numRuns: 150 },
    );
  });
});
