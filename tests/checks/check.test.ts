import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CheckedLogbook } from "../../language/checks/check.ts";
import { codePages } from "../../language/checks/codes.ts";
import type { Severity } from "../../language/checks/finding.ts";
import { arbitraryLog, filesOfLog } from "../support/arbitrary-log.ts";
import { damagedLog } from "../support/arbitrary-text.ts";
import { findingText } from "../support/figures.ts";
import { findingsOf } from "../support/marked.ts";

/** Findings, however they are asked for. */

const today = 20_454 + 60;
const anyFiles = fc.oneof(
  arbitraryLog.map((log) => filesOfLog(log, 2)),
  damagedLog.map((text) => new Map([["log.tank", text]])),
);

function checkedOf(files: ReadonlyMap<string, string>): CheckedLogbook {
  const checked = new CheckedLogbook();
  for (const [path, text] of files) checked.set(path, text);
  return checked;
}

describe("the findings of a logbook", () => {
  it("are those of its files, and of their blocks; counted they are as many", () => {
    fc.assert(
      fc.property(anyFiles, (files) => {
        const checked = checkedOf(files);
        const all = checked.findings(today).map(findingText);
        const sources = [...checked.logbook.sources.values()];
        expect(
          sources.flatMap((source) => checked.findingsIn(source, today).map(findingText)).sort(),
        ).toEqual([...all].sort());
        const blocks = checked.logbook.blocks();
        expect(blocks.flatMap((block) => checked.findingsOn(block, today).map(findingText)).sort()).toEqual(
          [...all].sort(),
        );
        const counts: Record<Severity, number> = { error: 0, warning: 0, information: 0, hint: 0 };
        for (const { severity } of checked.findings(today)) counts[severity]++;
        expect(checked.count(today)).toEqual(counts);
      }),
      { numRuns: 100 },
    );
  });

  it("stand within their blocks, in order, with codes that have a page", () => {
    const known = new Set<string>(codePages.map(({ code }) => code));
    fc.assert(
      fc.property(anyFiles, (files) => {
        const found = checkedOf(files).findings(today);
        let last = { path: "", at: 0 };
        for (const { code, block, start, end, message, fixes, related } of found) {
          expect(known, code).toContain(code);
          expect(message).not.toBe("");
          expect(start).toBeLessThanOrEqual(end);
          expect(end).toBeLessThanOrEqual(block.text.length);
          const place = { path: block.file.path, at: block.start + start };
          expect(place.path > last.path || (place.path === last.path && place.at >= last.at)).toBe(true);
          last = place;
          const places = [...fixes.flatMap((fix) => fix.edits), ...related.map((each) => each.place)];
          for (const { block: at, start: from, end: to } of places) {
            expect(from).toBeLessThanOrEqual(to);
            expect(to).toBeLessThanOrEqual(at.text.length);
          }
        }
      }),
      { numRuns: 100 },
    );
  });
});

describe("a log of any text", () => {
  it("is checked without failing", () => {
    fc.assert(
      fc.property(damagedLog, (text) => {
        expect(() => findingsOf(text)).not.toThrow();
      }),
      { numRuns: 200 },
    );
  });
});
