import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { linesOf } from "../../../language/book/entry.ts";
import { cutBlock } from "../../../language/features/grid/cut.ts";
import { lineCounts } from "../../../language/features/grid/lines.ts";
import { gridRows, gridRowsById } from "../../../language/features/grid/query.ts";
import { roundLines, roundPlace } from "../../../language/features/grid/rounds-on.ts";
import { gridSummary } from "../../../language/features/grid/summary.ts";
import { arbitraryLog, filesOfLog } from "../../support/arbitrary-log.ts";
import { anyText } from "../../support/arbitrary-text.ts";
import { rowsOf, textsIn, viewOfFiles } from "./support.ts";

/** Windows over long logs: what is not seen is not read, and what was read is not read again. */

function year(): Map<string, string> {
  const files = new Map([["room.tank", "tank dam\n  volume 100 L\ntank q1\n  volume 48 L\n"]]);
  for (let month = 1; month <= 12; month++) {
    const days: string[] = [];
    for (let day = 1; day <= 28; day++) {
      const date = `2026-${String(month).padStart(2, "0")}-${String(day).padStart(2, "0")}`;
      days.push(`${date}\n  dam  test nitrate ${10 + (day % 9)}\n  q1   clean\n`);
    }
    files.set(`2026-${String(month).padStart(2, "0")}.tank`, days.join("\n"));
  }
  return files;
}

const entries = { is: "entries" } as const;

describe("a window over a year", () => {
  it("reads the days that are seen, once, and after an edit the day that was edited", () => {
    const view = viewOfFiles(year());
    const first = { ...lineCounts };
    expect(gridRows(view, entries, { from: 501, count: 30 }).total).toBe(12 * 28 * 3);
    expect(lineCounts.scanned - first.scanned).toBe(12 * 28);
    expect(lineCounts.cut - first.cut).toBe(10);
    const again = { ...lineCounts };
    gridRows(view, entries, { from: 503, count: 24 });
    expect(lineCounts).toEqual(again);
    const source = view.checked.logbook.sources.get("2026-06.tank")!;
    const at = source.text.lastIndexOf("q1   clean");
    view.checked.take(source.edit(at, at + 2, "dam"));
    gridRows(view, entries, { from: 501, count: 30 });
    expect(lineCounts.scanned - again.scanned).toBe(1);
    expect(lineCounts.cut - again.cut).toBe(1);
  });

  it("keeps the ids of rows across edits above and below them, and new days beside them", () => {
    const view = viewOfFiles(year());
    const before = rowsOf(view).map(({ id }) => id);
    const source = view.checked.logbook.sources.get("2026-03.tank")!;
    view.checked.take(source.edit(0, 0, "2026-02-29\n\n"));
    const at = source.text.indexOf("  q1   clean");
    view.checked.take(source.edit(at, at, "  # a remark\n  dam  clean\n"));
    const end = source.text.length;
    view.checked.take(source.edit(end, end, "\n2026-03-29\n  dam  clean\n"));
    const after = rowsOf(view).map(({ id }) => id);
    expect(after.length).toBe(before.length + 5);
    expect(after.filter((id) => before.includes(id))).toEqual(before);
  });

  it("sums up more than is on screen", () => {
    const view = viewOfFiles(year());
    const face = { is: "rounds", of: "tank", name: "dam" } as const;
    const ids = gridRows(view, face, { from: 0, count: 28 }).rows.map(({ id }) => id);
    expect(gridSummary(view, face, ids, ["test nitrate"])).toMatchObject({
      numbers: 28,
      unit: "mg/L",
      mean: { low: 389 / 28, high: 389 / 28 },
      median: { low: 14, high: 14 },
    });
    expect(
      gridRowsById(view, face, [ids[3]!, "round dam 1 0 0"], ["test nitrate"]).map(
        ({ cells }) => cells[0]!.text,
      ),
    ).toEqual(["14"]);
  });
});

describe("any day is cut as it is read", () => {
  const logs = fc.oneof(
    arbitraryLog.map((log) => filesOfLog(log)),
    anyText.map((text) => new Map([["log.tank", text]])),
  );
  it("line by line", () => {
    fc.assert(
      fc.property(logs, (files) => {
        const view = viewOfFiles(files);
        for (const block of view.checked.logbook.blocks().filter(({ kind }) => kind === "day")) {
          const cuts = new Map(cutBlock(block).map((line) => [line.first, line]));
          for (const line of linesOf(block)) {
            const cut = cuts.get(line.start)!;
            if (cut.is === "text") continue;
            expect(cut.is).toBe(line.is);
            if (line.is === "sheet") continue;
            expect(cut.tank).toEqual({ start: line.target!.start, end: line.target!.end });
            if (line.is !== "entry" || line.kind === undefined || line.kind.word === "note") continue;
            const note = line.note === undefined ? undefined : { start: line.note.start, end: line.note.end };
            expect(cut.note).toEqual(note);
          }
        }
      }),
      { numRuns: 200 },
    );
  });

  it("and its rounds are the same whether the whole day is read or their lines alone", () => {
    fc.assert(
      fc.property(logs, fc.constantFrom("dam", "q1", "r1"), (files, name) => {
        const view = viewOfFiles(files);
        const place = roundPlace(view, name);
        for (const block of view.checked.logbook.blocks().filter(({ kind }) => kind === "day")) {
          const found = roundLines(block, place).map(({ at, minute, values }) => [at, minute, values]);
          const whole = cutBlock(block).flatMap((line, at) => {
            const isRound =
              line.is === "row" ||
              (line.is === "entry" &&
                /^(?:test|count)$/.test(block.text.slice(line.what?.start ?? 0, line.what?.end ?? 0)));
            return isRound && place.targets.has(block.text.slice(line.tank!.start, line.tank!.end))
              ? [at]
              : [];
          });
          expect(found.map(([at]) => at)).toEqual(whole);
        }
      }),
      { numRuns: 200 },
    );
  });

  it("finds by a quick look at the raw lines what reading all of them finds", () => {
    const needle = fc.oneof(
      fc.constantFrom(
        "= dam",
        "q",
        "r1..r9",
        "test | change",
        "nitrate",
        "=",
        "> 5",
        "!= dam",
        "18 mg/L",
        "2026-01-05",
        "#",
        "ü",
      ),
      anyText,
    );
    fc.assert(
      fc.property(
        arbitraryLog.map((each) => filesOfLog(each)),
        fc.constantFrom("date", "time", "tank", "what", "values", "note", "comment", "slot amount"),
        needle,
        fc.constantFrom(undefined, "test", "change"),
        fc.array(fc.record({ column: fc.constantFrom("values", "tank"), isDown: fc.boolean() }), {
          maxLength: 1,
        }),
        (files, column, wanted, kind, sort) => {
          const face = { ...entries, ...(kind === undefined ? {} : { kind }) };
          const query = { from: 0, count: 10_000, sort, filter: { [column]: wanted }, isUnmarked: true };
          const quick = gridRows(viewOfFiles(files), face, query);
          const read = viewOfFiles(files);
          // What was shown is kept, and gone through whole.
          rowsOf(read);
          const whole = gridRows(read, face, query);
          expect(quick.rows.map(textsIn)).toEqual(whole.rows.map(textsIn));
          expect(quick.problem).toBe(whole.problem);
        },
      ),
      { numRuns: 150 },
    );
  });
});
