import { describe, expect, it } from "vitest";
import { completions } from "../../language/features/completion.ts";
import { hover } from "../../language/features/hover.ts";
import { atCursor } from "../support/cursor.ts";

/** What is offered behind `feed`, and what is told of a food. */

const foods = `food cyclops "Frozen cyclops"
  kind frozen; portion 1 cube = 3.5 g
food daphnia
  kind frozen
food flake
  kind dry
species praecox
  needs frozen at least 2 per 7 d
tank dam
  volume 100 L
2026-02-01
  dam arrive praecox 8
  room left cyclops 70 g
2026-02-20
  dam feed daphnia 2 cubes
2026-02-24
  dam feed daphnia 2 cubes
2026-02-28
  dam feed flake 1 pinch
2026-03-01
  dam feed flake 1 pinch
2026-03-02
  dam feed flake 1 pinch
`;

function offered(line: string): string[] {
  const { view, offset } = atCursor(`${foods}2026-03-05\n  ${line}¦`);
  return completions(view, offset).items.map(({ label, detail }) => `${label} | ${detail}`);
}

describe("behind feed", () => {
  it("what the animals are short of comes first, in the usual amount", () => {
    expect(offered("dam feed ").slice(0, 3)).toEqual([
      "daphnia 2 cubes | frozen 0 of 2 in 7 days",
      "cyclops | frozen 0 of 2 in 7 days",
      "flake 1 pinch | usual for dam",
    ]);
  });

  it("what is gone by the log comes after what is there", () => {
    const log = foods.replace("room left cyclops 70 g", "room left daphnia 4 cubes");
    const { view, offset } = atCursor(`${log}2026-03-05\n  dam feed ¦`);
    expect(
      completions(view, offset)
        .items.slice(0, 2)
        .map(({ label, detail }) => `${label} | ${detail}`),
    ).toEqual([
      "cyclops | frozen 0 of 2 in 7 days",
      "daphnia 2 cubes | frozen 0 of 2 in 7 days, none left by the log",
    ]);
  });

  it("nothing is missing where nothing is owed", () => {
    const { view, offset } = atCursor(
      `${foods}2026-03-04\n  dam feed cyclops\n2026-03-05\n  dam feed daphnia\n  dam feed ¦`,
    );
    expect(completions(view, offset).items.map(({ detail }) => detail)).not.toContainEqual(
      expect.stringContaining(" of 2 in 7 days"),
    );
  });
});

/** Markdown without what keeps a log's words from being more than words. */
const text = (markdown: string): string => markdown.replaceAll("\\", "");

describe("a food under the cursor", () => {
  it("tells what is on hand, how long it lasts, and who got it last", () => {
    const { view, offset } = atCursor(`${foods}2026-03-05\n  dam feed cyc¦lops 2 cubes`);
    const markdown = text(hover(view, offset)!.markdown);
    expect(markdown).toContain("63 g on hand");
    expect(markdown).toContain("last fed 5 March to dam");
  });

  it("says why it cannot be reckoned", () => {
    const { view, offset } = atCursor(`${foods}2026-03-05\n  dam feed fl¦ake`);
    expect(text(hover(view, offset)!.markdown)).toContain(
      "On hand: neither weighed nor bought in the last year.",
    );
  });
});
