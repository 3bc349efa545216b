import { describe, expect, it } from "vitest";
import { codePages } from "../../language/checks/codes.ts";
import { expectedFindings, findingsOf, shown } from "../support/marked.ts";

describe("the table of codes", () => {
  it("has each code once", () => {
    const codes = codePages.map((page) => page.code);
    expect(new Set(codes).size).toBe(codes.length);
  });

  for (const page of codePages) {
    describe(page.code, () => {
      it("is raised at the marked place", () => {
        const expected = expectedFindings(page.raises);
        expect(expected, "the page marks a place").not.toHaveLength(0);
        const found = findingsOf(page.raises).map(shown);
        for (const mark of expected) {
          const { message: _, ...place } = found.find(
            (each) => each.code === mark.code && each.line === mark.line,
          ) ?? { message: "" };
          expect(place, JSON.stringify(found, undefined, 1)).toEqual(mark);
        }
      });

      it("has the severity that its page says", () => {
        const found = findingsOf(page.raises).find((each) => each.code === page.code);
        expect(found?.severity).toBe(page.severity);
      });

      it("is not raised where all is well", () => {
        expect(findingsOf(page.fine).map((finding) => finding.code)).not.toContain(page.code);
      });
    });
  }
});
