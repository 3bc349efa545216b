import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { sheetReport } from "../../language/cli/schema.ts";
import { sheetReportOf } from "../../language/cli/sheet/report.ts";
import { reportHtml } from "../../language/features/document-html.ts";
import { reportMarkdown } from "../../language/features/document-markdown.ts";
import { noKeeper } from "../../language/features/laboratory/keeper.ts";
import { laboratoryReport } from "../../language/features/laboratory/report.ts";
import { laboratorySheet, sheetChoices } from "../../language/features/laboratory-sheet.ts";
import { arbitraryLog, textOf } from "../support/arbitrary-log.ts";
import { lastDay, logbookOf } from "../support/marked.ts";

/** Two cases of which anything may follow. */
const opened = `
2025-06-01
  q1 sick praecox 2 of ~9 signs "flashing, pale" case flukes-1
  @rack sample water 1 kept chilled case spot
`;

/** The sheet of every case of any log, on any of its days. */
describe("a sheet of any log", () => {
  it("can be made, says nothing that is not a figure, and tells nothing of later days", () => {
    let made = 0;
    fc.assert(
      fc.property(arbitraryLog, fc.nat({ max: 20 }), (log, back) => {
        const checked = logbookOf(textOf(log) + opened);
        const today = lastDay(checked) - back;
        checked.logbook.asOf = today;
        for (const { name } of sheetChoices(checked, today)) {
          const sheet = laboratorySheet(checked, name, noKeeper, today)!;
          made++;
          expect(sheet.day).toBeLessThanOrEqual(today);
          const report = laboratoryReport(sheet);
          for (const text of [reportMarkdown(report), reportHtml(report)])
            expect(text).not.toMatch(/\bNaN\b|\bundefined\b|Infinity|\[object/);
          const asked = {
            folder: "log",
            checked,
            isAsked: () => true,
            shown: () => "log",
          } as unknown as Parameters<typeof sheetReportOf>[0];
          const json = sheetReport.parse({
            standpipe: 1,
            command: "sheet",
            ...sheetReportOf(asked, sheet, today),
            unread: [],
          });
          const days = [json.course, json.losses, json.arrivals, json.events, json.samples].flat();
          for (const { day } of days) expect(day <= json.day).toBe(true);
        }
      }),
      { numRuns: 150 },
    );
    expect(made).toBeGreaterThan(150);
  });

  it("of a case that is closed is the one that was made on the day of its close", () => {
    const closed = dayOf("2026-01-20");
    const text = `${opened}2026-01-20\n  q1 close flukes-1 recovered\n`;
    fc.assert(
      fc.property(arbitraryLog, (log) => {
        const [then, later] = [logbookOf(textOf(log) + text), logbookOf(textOf(log) + text)];
        then.logbook.asOf = closed;
        const today = Math.max(closed, lastDay(later));
        const made = laboratorySheet(later, "flukes-1", noKeeper, today)!;
        // It may have come back after.
        fc.pre(made.episode === 1 && made.closed <= closed);
        expect(made).toEqual(laboratorySheet(then, "flukes-1", noKeeper, closed));
      }),
      { numRuns: 150 },
    );
  });
});
