import { expect, test } from "vitest";
import { inlayHints } from "../../language/features/hints.ts";
import { codeLenses, lensTitle } from "../../language/features/lenses.ts";
import { viewOf } from "../support/cursor.ts";

const log = `species praecox
tank q1
  volume 50 L
2026-03-01
  q1 sick praecox 2 of 14 new 2 signs "flashing" case c-1
2026-03-03
  q1 lose praecox 1 found
  q1 sick praecox 3 of 13 new 2 case c-1
  q1 sick praecox 1
2026-03-10
  q1 sick praecox 0 of 13 case c-1
  q1 close c-1 recovered
`;

const hints = (text: string, options = {}): string[] =>
  inlayHints(viewOf(text), 0, text.length, options)
    .filter(({ kind }) => kind === "case")
    .map(({ label }) => label);

test("an entry of sick animals says the day of its case and how many were affected by then", () => {
  expect(hints(log)).toEqual([
    "day 1 · 2 of 14 affected, 14.3 %",
    "day 3 · 4 of 14 affected, 28.6 %",
    "day 10 · 4 of 14 affected, 28.6 %",
    "10 days · 4 of 14 affected, 28.6 % · 1 dead",
  ]);
});

test("why, with the entries and the interval", () => {
  const [, second] = inlayHints(viewOf(log), 0, log.length).filter(({ kind }) => kind === "case");
  const why = second!.tooltip.replaceAll("\\", "");
  expect(why).toContain("4 of 14, 28.6 %");
  expect(why).toContain("Wilson 1927");
  expect(why).toContain("2026-03-03 q1 lose praecox 1 found");
  expect(why).not.toContain("2026-03-10");
});

test("it can be switched off", () => {
  expect(hints(log, { off: new Set(["case"]) })).toEqual([]);
});

test("without a number at risk it is the day alone, from the second on", () => {
  const bare = log.replaceAll(" of 14", "").replaceAll(" of 13", "");
  expect(hints(bare).slice(0, 2)).toEqual(["day 3", "day 10"]);
});

test("the small print over a tank names its open case", () => {
  const open = log.replace("  q1 close c-1 recovered\n", "");
  const view = viewOf(open);
  const lens = codeLenses(view).find(({ is }) => is === "tank")!;
  expect(lensTitle(view, lens)?.title).toContain("case c-1 open");
});
