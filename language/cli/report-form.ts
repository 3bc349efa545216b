import type { Report } from "../features/document.ts";
import { reportHtml } from "../features/document-html.ts";
import { reportMarkdown } from "../features/document-markdown.ts";
import type { Call, Option } from "./command.ts";
import { reportText } from "./document-text.ts";

/** How a report is written: for the terminal, or to be kept or printed. */
export const formOption: Option = {
  name: "format",
  value: "FORM",
  choices: ["text", "markdown", "html"],
  doc: "text, markdown, or html to print",
};

/** A report in the form that was asked for. */
export function writeReport(call: Call, report: Report): void {
  const { terminal, world } = call;
  switch (call.value("format") ?? "text") {
    case "markdown":
      world.out.write(reportMarkdown(report));
      return;
    case "html":
      world.out.write(reportHtml(report));
      return;
    default:
      world.out.write(reportText(report, terminal));
  }
}
