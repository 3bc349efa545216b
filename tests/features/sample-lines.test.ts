import { describe, expect, it } from "vitest";
import { completions } from "../../language/features/completion.ts";
import { inlayHints } from "../../language/features/hints.ts";
import { hover } from "../../language/features/hover.ts";
import { atCursor } from "../support/cursor.ts";
import { lastDay, logbookOf } from "../support/marked.ts";

/** What is offered, told and shown at lines about samples. */

const base = `species praecox
tank q1
  volume 48 L
2026-03-01
  q1 sick praecox 2 of 9 case flukes-1
  08:30 q1 sample gill 2 kept formalin into "jar with blue lid" case flukes-1 to "state laboratory"
2026-03-02
  14:30 room send flukes-1 to "state laboratory" by "night train"
`;

function offered(line: string): string[] {
  const { view, offset } = atCursor(`${base}2026-03-05\n  ${line}¦`);
  return completions(view, offset).items.map(({ label }) => label);
}

describe("behind sample, send and ask", () => {
  it("a container that was used before comes before those that are usual", () => {
    const containers = offered("q1 sample skin 1 into ");
    expect(containers[0]).toBe('"jar with blue lid"');
    expect(containers).toContain('"clean sealed bottle, 0.25 L"');
  });

  it("laboratories of samples are offered for what is sent, and the carriers of before", () => {
    expect(offered("room send flukes-1 to ")).toContain('"state laboratory"');
    expect(offered("room send flukes-1 by ")).toContain('"night train"');
    expect(offered("q1 sample skin 1 to ")).toContain('"state laboratory"');
  });

  it("a question begins with what laboratories do", () => {
    expect(offered("q1 ask flukes-1 ").some((label) => label.startsWith('"Parasitology'))).toBe(true);
  });

  it("nothing of it is offered elsewhere", () => {
    expect(offered("q1 arrive praecox 3 by ")).not.toContain('"night train"');
  });
});

describe("the hover of a way to keep a sample", () => {
  const told = (line: string): string => {
    const { view, offset } = atCursor(`${base}2026-03-05\n  ${line}`);
    return hover(view, offset)?.markdown ?? "";
  };

  it("says what is usual, and what hurts, once", () => {
    const formalin = told("q1 sample gill 2 kept forma¦lin");
    expect(formalin).toContain("10 volumes");
    expect(formalin).toContain("gloves and eye protection");
    expect(formalin.match(/Take care/g)).toHaveLength(1);
    expect(told("q1 sample fin 1 kept etha¦nol")).toMatch(/burns.*carrier/s);
  });

  it("has no caution where nothing hurts", () => {
    expect(told("q1 sample fin 1 kept chil¦led")).toContain("wet ice");
    expect(told("q1 sample fin 1 kept fro¦zen")).toContain("histology");
    expect(told("q1 sample fin 1 kept chil¦led")).not.toContain("Take care");
  });
});

describe("a hint where samples went on, and where a result came", () => {
  const hints = (days: string): string[] => {
    const checked = logbookOf(base + days);
    const [source] = [...checked.logbook.sources.values()];
    const view = { checked, source: source!, worldDay: lastDay(checked) };
    return inlayHints(view, source!.text.indexOf("2026-03-02"), source!.text.length)
      .filter(({ kind }) => kind === "case")
      .map(({ label }) => label);
  };

  it("says how long ago they were taken", () => {
    expect(hints("2026-03-10\n  q1 result flukes-1 positive\n")).toEqual([
      "30 h after it was taken",
      "9 days after it was taken",
    ]);
  });

  it("of a second result counts from what was taken since the first", () => {
    expect(
      hints(`2026-03-10
  q1 result flukes-1 inconclusive
2026-03-12
  q1 sample skin 1 kept chilled case flukes-1
  q1 sample fin 1 kept ethanol case flukes-1
2026-03-13
  room send flukes-1
2026-03-14
  q1 result flukes-1 positive
`).slice(1),
    ).toEqual([
      "9 days after it was taken",
      "1 day after the first was taken",
      "2 days after the first was taken",
    ]);
  });

  it("says nothing of what has no samples", () => {
    const told = hints("2026-03-10\n  q1 sick praecox 1 case other\n  room send other\n");
    expect(told.filter((label) => label.includes("taken"))).toEqual(["30 h after it was taken"]);
  });
});
