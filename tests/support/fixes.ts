import type { Finding, Fix } from "../../language/checks/finding.ts";

/** What a fix leaves of a log that is one file. */
export function applyFix(text: string, finding: Finding, fix: Fix): string {
  const edits = fix.edits
    .filter(({ block }) => block.file === finding.block.file)
    .map(({ block, start, end, text: inserted }) => ({
      start: block.start + start,
      end: block.start + end,
      inserted,
    }))
    .sort((a, b) => b.start - a.start);
  let fixed = text;
  for (const { start, end, inserted } of edits) fixed = fixed.slice(0, start) + inserted + fixed.slice(end);
  return fixed;
}
