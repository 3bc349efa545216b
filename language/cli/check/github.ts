import { pageOf } from "../../checks/codes.ts";
import type { Severity } from "../../checks/finding.ts";
import type { FindingReport } from "../schema.ts";

/** Workflow commands of GitHub Actions, which show a finding beside its line ("Workflow commands", docs.github.com). */

const levels: Readonly<Record<Severity, string>> = {
  error: "error",
  warning: "warning",
  information: "notice",
  hint: "notice",
};

/** @param file the path from the root of the repository */
export function githubLine(finding: FindingReport, file: string): string {
  const { place, code } = finding;
  const properties = {
    file,
    line: place.line,
    endLine: place.endLine,
    col: place.column,
    endColumn: place.endColumn,
    title: `${pageOf(code).title} (${code})`,
  };
  const written = Object.entries(properties).map(([name, value]) => `${name}=${property(String(value))}`);
  const toDo = finding.fixes.length > 0 ? `\n${finding.fixes.map(({ title }) => title).join(", or ")}` : "";
  return `::${levels[finding.severity]} ${written.join(",")}::${data(finding.message + toDo)}`;
}

export function githubTrouble(file: string, message: string): string {
  return `::error file=${property(file)}::${data(message)}`;
}

const data = (text: string): string =>
  text.replaceAll("%", "%25").replaceAll("\r", "%0D").replaceAll("\n", "%0A");
const property = (text: string): string => data(text).replaceAll(":", "%3A").replaceAll(",", "%2C");
