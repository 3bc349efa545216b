import { describe, expect, test } from "vitest";
import { reportText } from "../../language/cli/document-text.ts";
import { caution, figure, list, type Report, table, text } from "../../language/features/document.ts";
import { reportHtml } from "../../language/features/document-html.ts";
import { reportMarkdown } from "../../language/features/document-markdown.ts";

/** One report in three forms; none of them obeys what a log says. */

const evil = '<img src=x onerror="alert(1)"> | `x` [link](http://x) \u202e \u001b[31m =1+1';

/** What a terminal or an editor would obey. */
const obeyed = /(?!\n)[\p{Cf}\p{Cc}]/u;

const report: Report = {
  title: "Stock",
  about: "Cellar, 31 March 2026",
  sections: [
    {
      title: "By tank",
      note: "2 tanks",
      parts: [
        text("All of them."),
        table(
          ["tank", figure("animals")],
          [
            ["dam", "24"],
            [{ text: "q1", tone: "warning" }, "9"],
          ],
        ),
        list([{ text: "one short", note: "since 3 March", tone: "warning" }]),
        caution("Follow the label."),
        { is: "picture", svg: "<svg xmlns='http://www.w3.org/2000/svg'/>", alt: "falls from 30 to 24" },
      ],
    },
  ],
};

const terminal = (columns: number) => ({
  columns,
  hasSigns: true,
  paint: (_: string, painted: string) => painted,
});

describe("a report", () => {
  test("on a terminal has its columns side by side, or one below the other where it is narrow", () => {
    expect(reportText(report, terminal(60)).split("\n")).toEqual([
      "Stock",
      "Cellar, 31 March 2026",
      "",
      "By tank                                              2 tanks",
      "  All of them.",
      "  tank  animals",
      "  dam        24",
      "  q1          9",
      "  one short  since 3 March",
      "  Take care: Follow the label.",
      "  falls from 30 to 24",
      "",
    ]);
    const wide = {
      ...report,
      sections: [{ title: "x", parts: [table(["tank", "title"], [["dam", "a".repeat(40)]])] }],
    };
    for (const line of reportText(wide, terminal(30)).split("\n"))
      expect(line.length).toBeLessThanOrEqual(30);
  });

  test("as Markdown is a table, a list and a quoted caution", () => {
    const made = reportMarkdown(report);
    expect(made).toContain("| tank | animals |\n| --- | ---: |\n| dam | 24 |\n| **q1** | 9 |");
    expect(made).toContain("- **one short** *since 3 March*");
    expect(made).toContain("> **Take care.** Follow the label.");
  });

  test("as a page holds no script and fetches nothing", () => {
    const made = reportHtml(report);
    expect(made).toContain('<td class="figure">24</td>');
    expect(made).toContain("default-src 'none'");
    expect(made).not.toMatch(/<script|https?:(?!\/\/www\.w3\.org)/);
  });

  test("shows what a log says as text, in each form", () => {
    const spoiled: Report = {
      title: evil,
      about: evil,
      sections: [
        {
          title: evil,
          note: evil,
          parts: [text(evil), list([{ text: evil, note: evil }]), table([evil], [[evil]])],
        },
      ],
    };
    const page = reportHtml(spoiled);
    expect(page).not.toContain("<img src=x");
    expect(page).not.toMatch(obeyed);
    const markdown = reportMarkdown(spoiled);
    expect(markdown).not.toMatch(/[^\\]<img|[^\\]\[link/);
    expect(markdown).not.toMatch(obeyed);
    // Each cell of the table is one cell.
    for (const line of markdown.split("\n").filter((each) => each.startsWith("|")))
      expect(line.match(/(?<!\\)\|/g)).toHaveLength(2);
    expect(reportText(spoiled, terminal(80))).not.toMatch(obeyed);
  });
});
