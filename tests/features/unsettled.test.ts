import { describe, expect, test } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { boardCard } from "../../language/features/board/board.ts";
import { logLines, takeBackLines } from "../../language/features/board/log-lines.ts";
import { dayCard } from "../../language/features/day-card.ts";
import { tankCard } from "../../language/features/tank-card.ts";
import { viewOf } from "../support/cursor.ts";

/** What the views say while a merge has left two versions in a log, and that they do not reckon with both. */

const room = `tank dam
  volume 100 L
  limits nitrate <= 25 mg/L
  every 7 d change 30 %

`;
const settled = `${room}2026-03-01
  dam  test nitrate 30
  dam  change 30 %
2026-03-02
  dam  feed flake
`;
const marked = settled.replace(
  "  dam  change 30 %\n",
  "<<<<<<< HEAD\n  dam  change 30 %\n=======\n  dam  change 50 %\n  dam  test nitrate 60\n>>>>>>> holiday\n",
);
const today = dayOf("2026-03-02");

describe("while two versions of a merge stand in a log", () => {
  test("what is shown of a tank is that of the upper one, and its card says so first", () => {
    const cards = [settled, marked].map((text) => {
      const { checked } = viewOf(text, undefined, "2026-03-02");
      return tankCard(checked, checked.book.tanks[0]!, today)!;
    });
    const [before, meanwhile] = cards;
    expect(meanwhile!.findings[0]).toMatchObject({ code: "syntax/conflict", severity: "error" });
    expect(meanwhile!.findings[0]?.message).toContain("“HEAD”, counts until you choose");
    expect(meanwhile!.findings.slice(1).map(({ message }) => message)).toEqual(
      before!.findings.map(({ message }) => message),
    );
    expect(JSON.stringify(meanwhile!.water).replace(/"(?:start|end)":\d+/g, "")).toBe(
      JSON.stringify(before!.water).replace(/"(?:start|end)":\d+/g, ""),
    );
  });

  test("each day tells it, its own day with every mark", () => {
    const { checked } = viewOf(marked, undefined, "2026-03-02");
    const codes = (iso: string) =>
      dayCard(checked, dayOf(iso), today)!.findings.filter(({ code }) => code === "syntax/conflict").length;
    expect([codes("2026-03-01"), codes("2026-03-02")]).toEqual([3, 1]);
    expect(dayCard(checked, dayOf("2026-03-01"), today)?.litres).toBe(30);
  });

  test("the board names the file and the line, and writes nothing into it", () => {
    const view = viewOf(marked, undefined, "2026-03-02");
    const card = boardCard(view);
    expect(card.notices[0]).toMatchObject({
      is: "merge",
      lines: [{ tone: "bad", task: null, text: expect.stringMatching(/^line 8: two versions/) }],
    });
    expect(boardCard(viewOf(settled, undefined, "2026-03-02")).notices.map(({ is }) => is)).not.toContain(
      "merge",
    );
    for (const made of [logLines(view, ["dam clean"]), takeBackLines(view, ["dam feed flake"])])
      expect(made).toMatchObject({
        refused: [{ line: 0, message: expect.stringMatching(/^a merge left two/) }],
      });
    expect(logLines(viewOf(settled, undefined, "2026-03-02"), ["dam clean"])).not.toHaveProperty("refused");
  });

  test("marks that are not whole are told as well, and stop the board", () => {
    const view = viewOf(marked.replace("<<<<<<< HEAD\n", ""), undefined, "2026-03-02");
    expect(boardCard(view).notices[0]?.is).toBe("merge");
    expect(logLines(view, ["dam clean"])).toHaveProperty("refused");
  });
});
