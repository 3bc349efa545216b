import { describe, expect, test } from "vitest";
import { hover } from "../../language/features/hover.ts";
import { atCursor } from "../support/cursor.ts";

const log = `species praecox
tank q1
  volume 50 L
tank h1
  volume 20 L
  role hospital
remedy prazi
  target 2 mg/L
2026-03-01
  q1 sick praecox 3 of 14 signs "white spots, flashing, odd" case flukes-1
  q1 move praecox 3 -> h1
2026-03-03
  h1 dose prazi 40 mg
  h1 lose praecox 1 found
  h1 sample gill 2 of praecox kept ethanol at 96 % case flukes-1 to "state laboratory"
  h1 send flukes-1 sent by "courier"
2026-03-09
  h1 result flukes-1 positive "monogeneans"
`;

const told = (text: string): string[] => {
  const { view, offset } = atCursor(text);
  return hover(view, offset)!
    .markdown.replaceAll("\\", "")
    .split(/\n+/)
    .filter((line) => line !== "");
};

describe("the hover of a case", () => {
  test("says since when, how many of how many, where, what was sampled and found", () => {
    const lines = told(log.replace("result flukes", "result flu¦kes"));
    expect(lines[0]).toBe("**flukes-1** · case · open, day 9 · 7 entries");
    expect(lines).toContain("since 1 March; 2 of 13 praecox show signs; 3 affected, 1 dead");
    expect(lines).toContain("q1: signs since 1 March; h1: sick moved in 1 March");
    expect(lines).toContain("behaviour: flashing; skin: white spots; other: odd");
    expect(lines).toContain("- 3 March 2 gill of praecox, in ethanol at 96 %: result 9 March");
    expect(lines).toContain("- 9 March positive: monogeneans");
    expect(lines).toContain("- 3 March `h1 dose prazi 40 mg`");
    expect(lines).toContain("- 3 March `h1 lose praecox 1 found`");
  });

  test("says the same at a bath or a dose that names it", () => {
    expect(told(`${log}  h1 bath praecox 2 with prazi 9 mg/L for 9 min case fluk¦es-1\n`)[0]).toContain(
      "flukes-1",
    );
    expect(told(`${log}  h1 dose prazi 40 mg case fluk¦es-1\n`)[0]).toContain("flukes-1");
  });

  test("tells of a case that came back what came before", () => {
    const again = `${log}  h1 close flukes-1 recovered\n2026-04-01\n  q1 sick praecox 1 of 13 case fl¦ukes-1\n`;
    const lines = told(again);
    expect(lines[0]).toBe("**flukes-1** · case · open, day 1 · 1 entry");
    expect(lines[1]).toBe(
      "since 1 April; 1 of 13 praecox shows signs; 1 affected, 0 dead; opened before 1 March",
    );
  });

  test("of a name that nothing opened lists what names it", () => {
    expect(told(log.replace("result flukes-1", "result f¦lu-9"))).toEqual([
      "**flu-9** · case · 1 entry",
      '- 2026-03-09 `h1 result flu-9 positive "monogeneans"`',
    ]);
  });

  test("lets no text of the log be markup", () => {
    const { view, offset } = atCursor(
      `${log.replace('"monogeneans"', '"<b>[x](http://y)</b>"').replace("result fl", "result f¦l")}`,
    );
    // What stands in the letters of code is text.
    const markdown = hover(view, offset)!.markdown.replace(/`[^`]*`/g, "");
    expect(markdown).not.toContain("<b>");
    expect(markdown).not.toContain("[x](http");
  });
});
