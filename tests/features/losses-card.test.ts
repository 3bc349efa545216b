import { describe, expect, it } from "vitest";
import { dayOf, isoOf } from "../../language/book/dates.ts";
import { pageOf } from "../../language/checks/codes.ts";
import { cellText, type Part } from "../../language/features/document.ts";
import { reportHtml } from "../../language/features/document-html.ts";
import { roomLossCard } from "../../language/features/losses-card.ts";
import { roomLossSection } from "../../language/features/losses-section.ts";
import { logbookOf } from "../support/marked.ts";

/** What a report says of the losses of the room. */

const raised = pageOf("loss/room").raises;
const cardOf = (log: string, day: string) => roomLossCard(logbookOf(log).logbook, dayOf(day));
const said = (parts: readonly Part[]): string =>
  parts
    .map((part) =>
      part.is === "text"
        ? part.text
        : part.is === "picture"
          ? part.alt
          : part.is === "table"
            ? part.rows.map((row) => row.map(cellText).join(" ")).join("; ")
            : "",
    )
    .join("\n");

describe("the losses of a room", () => {
  it("are told with the usual rate, the chart and the outbreak that goes on", () => {
    const card = cardOf(raised, "2025-12-22");
    expect(card).toMatchObject({ unknown: "", leftOut: 0, baseline: { deaths: 5, days: 180 } });
    expect(card.scheme!.falseAlarmDays).toBeGreaterThanOrEqual(1000);
    expect(card.chart).toHaveLength(180);
    expect(card.chart.filter(({ isAlarm }) => isAlarm).map(({ day }) => isoOf(day))).toEqual(["2025-12-22"]);
    expect(card.outbreaks).toMatchObject([{ alarms: 1, died: 3, isOpen: true }]);
    expect(card.outbreaks[0]!.text).toBe("told 2025-12-22: 3 died since 2025-12-20, 0.081 expected");
    const { note, parts } = roomLossSection(card);
    expect(note).toBe("outbreak, 2025-12-22");
    expect(said(parts)).toContain("2025-12-22 2025-12-20 2025-12-22 1 3 0.081 goes on");
    expect(said(parts)).toContain("8 deaths from 2025-06-26 to 2025-12-22; alarms on 2025-12-22");
  });

  it("are JSON, whatever is unknown", () => {
    for (const card of [
      cardOf(raised, "2025-12-22"),
      cardOf(raised, "2025-06-02"),
      cardOf(raised, "2024-01-01"),
    ])
      expect(JSON.parse(JSON.stringify(card))).toEqual(card);
  });

  it("say what is missing where too little is known", () => {
    const { unknown, scheme, sum, baseline } = cardOf(raised, "2025-09-20");
    expect(unknown).toBe(
      "Not enough yet to tell what the room usually loses: 2 of the 5 deaths that it takes (10 March to 5 September, outbreaks left out).",
    );
    expect([scheme, sum, baseline.deaths]).toEqual([null, null, 2]);
    expect(cardOf(raised, "2025-08-12").unknown).toContain(
      "1 of the 5 deaths and 58 of the 90 days with animals",
    );
  });

  it("of an empty log are none, and nothing is drawn", () => {
    const card = cardOf("", "2026-01-01");
    expect(card.chart).toEqual([]);
    expect(card.baseline).toMatchObject({ perThousand: null, animals: null, text: "" });
    const { parts } = roomLossSection(card);
    expect(parts.map(({ is }) => is)).toEqual(["text"]);
  });

  it("name what is in no figure, and deaths that come in bunches", () => {
    const unknown = cardOf("species praecox\ntank dam\n2026-01-01\n  dam lose praecox 4 found", "2026-01-02");
    expect(unknown.leftOut).toBe(4);
    expect(said(roomLossSection(unknown).parts)).toContain("4 that died are in no figure here");
    const bunches = `species praecox
tank dam
2025-01-01
  dam arrive praecox 500
2025-03-01
  dam lose praecox 4 found
2025-05-01
  dam lose praecox 4 found
2025-07-20
  dam note "looked"`;
    expect(said(roomLossSection(cardOf(bunches, "2025-07-20")).parts)).toMatch(
      /They come in bunches, spread 4 times/,
    );
  });

  it("draw the sum by its threshold, so that an alarm is where it passes 1", () => {
    const html = reportHtml({
      title: "",
      about: "",
      sections: [roomLossSection(cardOf(raised, "2025-12-22"))],
    });
    const svg = decodeURIComponent(/src="data:image\/svg\+xml,([^"]*)"/.exec(html)![1]!);
    expect(svg).toContain("deaths a day");
    expect(svg).toContain("cumulative sum, 1 = alarm (S / h)");
    expect(svg).not.toContain("NaN");
  });
});
