import { describe, expect, it } from "vitest";
import { codePages } from "../../language/checks/codes.ts";
import { applyFix } from "../support/fixes.ts";
import { findingsOf } from "../support/marked.ts";

/** Every fix that is offered mends what it is offered for, and breaks nothing else. */

const pages = codePages.map((page) => [page.code, page.raises] as const);
const errorsIn = (text: string): string[] =>
  findingsOf(text)
    .filter(({ severity }) => severity === "error")
    .map(({ code, message }) => `${code}: ${message}`);

describe("the fixes of a finding", () => {
  it.each(pages)("%s", (code, raises) => {
    const finding = findingsOf(raises).find((each) => each.code === code)!;
    const before = errorsIn(raises);
    for (const [rank, fix] of finding.fixes.entries()) {
      const fixed = applyFix(raises, finding, fix);
      expect(fixed, fix.title).not.toBe(raises);
      const after = findingsOf(fixed);
      const place = finding.block.start + finding.start;
      const same = after.filter((each) => each.code === code && each.block.start + each.start === place);
      expect(
        same.map(({ message }) => message),
        `${fix.title} leaves:\n${fixed}`,
      ).toEqual([]);
      if (rank > 0) continue;
      // Of the first: what could not be checked before may now be a warning, and nothing is an error that was none.
      const fresh = errorsIn(fixed).filter((error) => !before.includes(error));
      expect(fresh, `${fix.title} makes:\n${fixed}`).toEqual([]);
    }
  });

  it("are there for most of what a slip of the finger does", () => {
    const mended = codePages.filter(
      ({ code, raises }) => findingsOf(raises).find((each) => each.code === code)!.fixes.length > 0,
    );
    expect(mended.map(({ code }) => code)).toEqual(
      expect.arrayContaining([
        "entry/kind",
        "entry/unexpected",
        "entry/twice",
        "syntax/text",
        "unit/unknown",
        "unit/spelling",
        "unit/missing",
        "unit/wrong-kind",
        "unit/ambiguous",
        "value/decimal-comma",
        "value/form",
        "value/range",
        "value/negative",
        "value/impossible",
        "name/parameter",
        "name/target",
        "name/species",
        "definition/property",
        "definition/limit",
        "change/too-much",
      ]),
    );
  });

  it("of which the surest is marked sure only where there is one", () => {
    for (const [code, raises] of pages) {
      const { fixes } = findingsOf(raises).find((each) => each.code === code)!;
      expect(fixes.filter((fix) => fix.isSure).length, code).toBeLessThanOrEqual(1);
    }
  });

  it("keep the line ends of the file", () => {
    for (const [code, raises] of pages) {
      const log = raises.replaceAll("\n", "\r\n");
      const finding = findingsOf(log).find((each) => each.code === code);
      for (const fix of finding?.fixes ?? []) {
        const fixed = applyFix(log, finding!, fix);
        expect(fixed.replaceAll("\r\n", ""), `${code}: ${fix.title}`).not.toContain("\n");
      }
    }
  });
});

describe("what the tool makes up", () => {
  it("is no figure: a definition that is offered leaves them to the keeper", () => {
    for (const line of [
      "dmm change 30 %",
      "dam dose prazi 96 mg",
      "dam change 30 % from rain",
      "dam count precox 4",
    ]) {
      const log = `tank dam\n  volume 100 L\n2026-03-01\n  ${line}`;
      const finding = findingsOf(log)[0]!;
      const fix = finding.fixes.find(({ title }) => title.startsWith("Define"))!;
      const [edit] = fix.edits;
      expect(edit!.text, line).not.toMatch(/\d/);
      expect(edit!.text, line).toContain("# ");
    }
  });
});
