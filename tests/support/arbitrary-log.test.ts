import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { entryKinds } from "../../language/book/entries/registry.ts";
import { arbitraryLog, definitions, entryText, filesOfLog, textOf } from "./arbitrary-log.ts";
import { findingsOf, logbookOf } from "./marked.ts";

/** The generator makes valid logs, and logs of everything. */

const invalid = /^(?:syntax|entry|sheet|unit|value|name|definition|duty\/(?:form|kind))/;
const wrong = (text: string): string[] =>
  findingsOf(text)
    .filter(({ code }) => invalid.test(code))
    .map(
      ({ code, message, block, start }) =>
        `${code} at ${JSON.stringify(block.text.slice(start, start + 40))}: ${message}`,
    );

describe("an arbitrary log", () => {
  it("is valid in its definitions", () => {
    expect(wrong(definitions)).toEqual([]);
  });

  it("is valid in every line", () => {
    fc.assert(
      fc.property(arbitraryLog, (log) => {
        expect(wrong(textOf(log))).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  it.each(entryKinds.map((kind) => [kind.word, kind] as const))("has entries of the kind %s", (_, kind) => {
    fc.assert(
      fc.property(entryText(kind), (text) => {
        const log = `${definitions}2026-01-01\n  ${text}\n`;
        expect(wrong(log)).toEqual([]);
        const { logbook } = logbookOf(log);
        expect(logbook.blocks().at(-1)!.facts.count).toBeGreaterThan(0);
      }),
      { numRuns: 50 },
    );
  });

  it("says the same in several files", () => {
    fc.assert(
      fc.property(arbitraryLog, (log) => {
        const rows = (files: ReadonlyMap<string, string>): number => {
          const parts = [...files].map(([path, text]) => `--- ${path} ---\n${text}`);
          const { logbook } = logbookOf(parts.join("\n"));
          return logbook.blocks().reduce((sum, block) => sum + block.facts.count, 0);
        };
        expect(rows(filesOfLog(log, 3))).toBe(rows(new Map([["log.tank", textOf(log)]])));
      }),
      { numRuns: 30 },
    );
  });
});
