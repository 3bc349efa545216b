import { isoOf } from "../../book/dates.ts";
import { reportHtml } from "../../features/document-html.ts";
import { reportMarkdown } from "../../features/document-markdown.ts";
import { caseAt } from "../../features/laboratory/case-at.ts";
import { laboratoryReport } from "../../features/laboratory/report.ts";
import { laboratorySheet, sheetChoices } from "../../features/laboratory-sheet.ts";
import type { Group } from "../group.ts";
import { laboratorySheetRequest, sheetCasesRequest } from "../protocol.ts";
import { about } from "./own-requests.ts";

/** The laboratory sheet of a case: which cases there are, and the sheet as a text. */
export const laboratory: Group = {
  capabilities: () => ({}),
  serve(session) {
    about(session, sheetCasesRequest, [], ({ view, document }, { position }) => {
      const here = position === undefined ? "" : caseAt(view, document.offsetAt(position));
      return sheetChoices(view.checked, view.worldDay).map(({ name, since, closed, tanks, samples }) => ({
        name,
        since: isoOf(since),
        closed: closed === null ? null : isoOf(closed),
        tanks,
        samples,
        isHere: name === here,
      }));
    });
    about(session, laboratorySheetRequest, null, ({ view }, { case: name, form }) => {
      const sheet = laboratorySheet(view.checked, name, session.settings.keeper, view.worldDay);
      if (sheet === undefined) return null;
      const report = laboratoryReport(sheet);
      return form === "html" ? reportHtml(report) : reportMarkdown(report);
    });
  },
};
