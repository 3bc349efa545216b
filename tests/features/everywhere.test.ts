import { describe, expect, test } from "vitest";
import { codeActions } from "../../language/features/code-actions.ts";
import { completions, resolveCompletion } from "../../language/features/completion.ts";
import { definitionsAt } from "../../language/features/definition.ts";
import { documentLinks } from "../../language/features/document-links.ts";
import { foldingRanges } from "../../language/features/folding.ts";
import { formatNewLine } from "../../language/features/format.ts";
import { highlightsAt } from "../../language/features/highlights.ts";
import { nameAt } from "../../language/features/names.ts";
import { referencesAt } from "../../language/features/references.ts";
import { prepareRename } from "../../language/features/rename.ts";
import { selectionRanges } from "../../language/features/selection-ranges.ts";
import { semanticTokens } from "../../language/features/semantic-tokens.ts";
import { documentSymbols, workspaceSymbols } from "../../language/features/symbols.ts";
import type { Location, View } from "../../language/features/view.ts";
import { cellarView } from "../support/cellar.ts";

const files = [
  "2026-03.tank",
  "2025-09.tank",
  "tanks.tank",
  "remedies.tank",
  "species.tank",
  "room.tank",
  "gear.tank",
  "foods.tank",
];

/** Offsets all over a file, the same in every run. */
function* offsets(text: string, step: number): Generator<number> {
  for (let at = 0; at <= text.length; at += 1 + ((at * 7 + 3) % step)) yield at;
}

const isPlace = ({ checked }: View, { path, start, end }: Location): boolean => {
  const text = checked.logbook.sources.get(path)?.text;
  return text !== undefined && start >= 0 && end >= start && end <= text.length;
};

describe("anywhere in the sample cellar", () => {
  test.each(files)("every feature answers, and with places that are there: %s", (file) => {
    const view = cellarView(file);
    const { text } = view.source;
    for (const offset of offsets(text, file.startsWith("20") ? 90 : 40)) {
      const use = nameAt(view, offset);
      const ready = prepareRename(view, offset);
      expect(ready === undefined).toBe(use === undefined);
      if (ready !== undefined)
        expect(text.slice(ready.start, ready.end)).toContain(use!.range === undefined ? ready.name : "");
      for (const place of definitionsAt(view, offset)) expect(isPlace(view, place)).toBe(true);
      for (const mark of highlightsAt(view, offset)) expect(text.slice(mark.start, mark.end)).not.toBe("");
      const { items } = completions(view, offset);
      for (const item of items.slice(0, 3)) resolveCompletion(view, item);
      for (const span of selectionRanges(view, offset)) expect(span.end).toBeLessThanOrEqual(text.length);
      formatNewLine(view.source, offset);
    }
    for (const offset of offsets(text, 900)) {
      for (const place of referencesAt(view, offset)) expect(isPlace(view, place)).toBe(true);
      for (const action of codeActions(view, { start: offset, end: offset }))
        expect(action.edits.length).toBeGreaterThan(0);
    }
    for (const link of documentLinks(view)) expect(isPlace(view, link.target)).toBe(true);
    expect(documentSymbols(view.source).length).toBeGreaterThan(0);
    expect(semanticTokens(view).length).toBeGreaterThan(10);
    foldingRanges(view.source);
  });

  test("every name that is defined is found from each of its places", () => {
    const view = cellarView("tanks.tank");
    for (const [name, { place }] of view.checked.book.names) {
      const at = { ...view, source: place.block.file };
      const offset = place.block.start + place.start;
      const places = referencesAt(at, offset);
      expect(places.length, name).toBeGreaterThan(0);
      for (const found of places.slice(0, 12)) {
        const source = view.checked.logbook.sources.get(found.path)!;
        const [given] = definitionsAt({ ...view, source }, found.start);
        // A range of names, r1 .. r12, is met at its first.
        if (source.text.slice(found.start, found.end).includes("..")) continue;
        expect(given, `${name} at ${found.path} ${found.start}`).toEqual({
          path: place.block.file.path,
          start: offset,
          end: place.block.start + place.end,
        });
      }
    }
  });

  test("names are gone to by their letters", () => {
    const view = cellarView("tanks.tank");
    expect(workspaceSymbols(view.checked, "rainbowf")[0]).toMatchObject({ name: "dam", sort: "tank" });
    expect(workspaceSymbols(view.checked, "tuft-1")[0]).toMatchObject({ sort: "case" });
  });
});
