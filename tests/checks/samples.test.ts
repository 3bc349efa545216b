import { describe, expect, it } from "vitest";
import { expectMarks, findingsOf } from "../support/marked.ts";

/** Findings at samples, beside those of their pages. */

const prelude = `species praecox
tank q1
  volume 48 L
`;
const messages = (log: string, code: string, today?: string): string[] =>
  findingsOf(prelude + log, today)
    .filter((each) => each.code === code)
    .map(({ message }) => message);

describe("the fixative", () => {
  it("is held against what laboratories ask for: at the bound nothing is said", () => {
    expectMarks(
      `${prelude}2026-03-01
  q1 sample gill 1 kept formalin volumes 9.9
#                                        ^^^ sample/ratio
  q1 sample gill 1 kept ethanol volumes 9
#                                       ^ sample/ratio
  q1 sample gill 1 kept formalin at 8 %
  q1 sample gill 1 kept formalin at 7 %
#                                   ^^^ sample/strength
  q1 sample gill 1 kept formalin at 9..11 %
  q1 sample gill 1 kept formalin at 10..40 %
#                                   ^^^^^^^^ sample/strength
  q1 sample gill 1 kept formalin at 4 %
  q1 sample gill 1 kept ethanol at 69 %
#                                  ^^^^ sample/strength
  q1 sample gill 1 kept ethanol at 96 %
  q1 sample gill 1 kept chilled volumes 2
`,
      "sample",
    );
  });
});

describe("a frozen sample", () => {
  it("alone is remarked on, beside another way of keeping and for PCR it is not", () => {
    const frozen = "sample whole 1 kept frozen case a";
    expect(messages(`2026-03-01\n  q1 ${frozen}\n`, "sample/frozen").length).toBe(1);
    expect(messages(`2026-03-01\n  q1 ${frozen} "a virus is suspected"\n`, "sample/frozen")).toEqual([]);
    for (const way of ["live", "chilled", "formalin"])
      expect(
        messages(`2026-03-01\n  q1 ${frozen}\n  q1 sample gill 1 kept ${way} case a\n`, "sample/frozen"),
      ).toEqual([]);
    // Of another case, and of the water, nothing helps.
    expect(
      messages(`2026-03-01\n  q1 ${frozen}\n  q1 sample gill 1 kept live case b\n`, "sample/frozen").length,
    ).toBe(1);
    expect(
      messages(`2026-03-01\n  q1 ${frozen}\n  q1 sample water 1 kept chilled case a\n`, "sample/frozen")
        .length,
    ).toBe(1);
  });
});

describe("a chilled sample", () => {
  const sent = (taken: string, left: string, day = 2): string[] =>
    messages(
      `2026-03-01\n  ${taken} q1 sample skin 1 kept chilled case a\n2026-03-0${day}\n  ${left} room send a\n`,
      "sample/late",
    );

  it("is late after 36 hours, and not at 36", () => {
    expect(sent("08:00", "20:00")).toEqual([]);
    expect(sent("08:00", "20:01")[0]).toContain("sent 36 h 1 min after it was taken");
  });

  it("without times of day is late only where it must be", () => {
    // Taken on the 1st and sent on the 3rd: 24 hours at least. On the 4th: 48.
    expect(sent("", "", 3)).toEqual([]);
    expect(sent("", "", 4)[0]).toContain("sent at least 48 h after it was taken");
  });

  it("counts to its receipt where that is written", () => {
    const way = `2026-03-01
  08:00 q1 sample skin 1 kept chilled case a
  16:00 room send a
2026-03-03
  09:00 room send a received
`;
    expect(messages(way, "sample/late")[0]).toContain("received 49 h after it was taken");
    expect(messages(way.replace("chilled", "formalin"), "sample/late")).toEqual([]);
  });
});

describe("a sample that nothing says was sent", () => {
  const taken = (kept: string, more = ""): string =>
    `2026-03-01\n  q1 sick praecox 1 of 9 case a\n  08:00 q1 sample skin 1 kept ${kept} case a to "state laboratory"\n${more}`;
  const unsent = (log: string, today: string): number => messages(log, "sample/unsent", today).length;

  it("is asked about after a day and a half on ice or alive, after two weeks otherwise", () => {
    for (const kept of ["chilled", "live"]) {
      expect(unsent(taken(kept), "2026-03-02")).toBe(0);
      expect(unsent(taken(kept), "2026-03-03")).toBe(1);
    }
    for (const kept of ["formalin", "ethanol", "frozen"]) {
      expect(unsent(taken(kept), "2026-03-15")).toBe(0);
      expect(unsent(taken(kept), "2026-03-16")).toBe(1);
    }
  });

  it("is at peace once it was handed over or sent, has a result, or its case is closed", () => {
    for (const line of ["room send a", "room send a handed", "q1 result a negative", "q1 close a recovered"])
      expect(unsent(taken("chilled", `2026-03-02\n  ${line}\n`), "2026-04-01"), line).toBe(0);
    expect(unsent(taken("chilled", "2026-03-02\n  room send a packed\n"), "2026-04-01")).toBe(1);
    expect(unsent(taken("chilled", "2026-03-02\n  room send b\n"), "2026-04-01")).toBe(1);
  });

  it("for no laboratory is the keeper's own", () => {
    expect(unsent(taken("chilled").replace(' to "state laboratory"', ""), "2026-04-01")).toBe(0);
  });

  it("is mended by the line that says so", () => {
    const [finding] = findingsOf(prelude + taken("chilled"), "2026-03-05").filter(
      ({ code }) => code === "sample/unsent",
    );
    expect(finding!.fixes.map(({ edits }) => edits[0]!.text.trim())).toEqual([
      'room send a to "state laboratory"',
    ]);
  });
});
