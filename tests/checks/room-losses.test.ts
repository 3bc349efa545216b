import { describe, expect, it } from "vitest";
import { Source } from "../../language/book/source.ts";
import { CheckedLogbook } from "../../language/checks/check.ts";
import { pageOf } from "../../language/checks/codes.ts";
import { findingText } from "../support/figures.ts";
import { findingsOf, lastDay, logbookOf } from "../support/marked.ts";

/** What the finding of the room says, and that it comes and goes with an edit. */

const raised = pageOf("loss/room").raises;
const found = (log: string) => findingsOf(log).filter(({ code }) => code === "loss/room");

describe("the room loses more than usual", () => {
  const [finding] = found(raised);

  it("names the deaths and what was expected, the usual rate with its interval, the method, and its false alarms", () => {
    // 5 in 35 565 animal-days are 0.14 in 1000; exact ends 1.623 and 11.668 of them (Garwood 1936) are 0.046 and 0.33.
    expect(finding!.message).toBe(
      "the room loses more than usual: 3 died in 2 tanks (dam 2, hill 1) from 20 December to 22 December, 0.081 expected by the usual 0.14 (95 %: 0.046 to 0.33) per 1000 animal-days. " +
        "Poisson CUSUM 2.85, alarm at h 2.72, k 0.05 a day, to find 3 times as many; by chance one alarm in 1083 days; in 114 were the usual rate at the upper end of its interval",
    );
  });

  it("rests on the deaths since the sum is above 0, the usual rate with its deaths, and the run length", () => {
    const { from, source } = finding!.why!;
    expect(source).toMatch(/Lucas 1985/);
    expect(from.map(({ what }) => what)).toEqual([
      "since S is above 0, 2025-12-20",
      "usual deaths",
      "false alarms",
    ]);
    expect(from[0]!.from.map(({ what }) => what)).toEqual([
      "2025-12-20 dam lose praecox 1 found",
      "2025-12-21 hill lose praecox 1 found",
      "2025-12-22 dam lose praecox 1 found",
    ]);
    expect(from[1]!.from).toHaveLength(5);
    expect(from[1]!.value).toBe("0.14 (95 %: 0.046 to 0.33) per 1000 animal-days");
  });

  it("links the other deaths", () => {
    expect(finding!.related.map(({ message }) => message)).toEqual(["died in dam", "died in hill"]);
  });

  it("is told once of an outbreak that goes on", () => {
    const going = `${raised}
2025-12-28
  hill lose praecox 3 found
2025-12-29
  hill lose praecox 3 found`;
    expect(found(going)).toHaveLength(1);
  });

  it("stands with the water of the tank in which it shows", () => {
    const checked = logbookOf(raised);
    const today = lastDay(checked);
    const codes = (name: string) =>
      checked
        .findingsOf(checked.logbook.ledgerNumber(checked.book.tank(name)!), today)
        .map(({ code }) => code);
    expect(codes("dam")).toContain("loss/room");
    expect(codes("hill")).not.toContain("loss/room");
  });
});

describe("after an edit", () => {
  it("is what it would be if the log were read anew", () => {
    const texts = [raised, pageOf("loss/room").fine, raised.replace("2025-12-21", "2025-12-24"), raised];
    const edited = new CheckedLogbook();
    for (const text of texts) {
      edited.put(new Source("log.tank", text));
      const anew = logbookOf(text);
      const today = lastDay(anew);
      expect(edited.findings(today).map(findingText)).toEqual(anew.findings(today).map(findingText));
      expect(edited.count(today)).toEqual(anew.count(today));
    }
  });
});
