import { describe, expect, test } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { cellText } from "../../language/features/document.ts";
import { inlayHints } from "../../language/features/hints.ts";
import { hover } from "../../language/features/hover.ts";
import { quarantineCard, quarantineSection } from "../../language/features/quarantine-card.ts";
import { tankCard } from "../../language/features/tank-card.ts";
import { atCursor, viewOf } from "../support/cursor.ts";
import { logbookOf } from "../support/marked.ts";

const log = `room "Cellar"
  quarantine 28 d
  clear 14 d
species praecox
species horn
tank dam
  volume 300 L
tank q1
  volume 50 L
  role quarantine
system q-rack
  sump 40 L
tank s1
  volume 50 L
  role quarantine
  system q-rack
tank s2
  volume 50 L
  role quarantine
  system q-rack
2026-03-01
  q1 arrive praecox 8 from "river nursery" lot a17
2026-03-05
  s1 arrive horn ~20
2026-03-20
  q1 lose praecox 1 found
2026-03-21
  s1 move horn 5 -> s2
`;
const on = (day: string, text = log) => quarantineCard(logbookOf(text).logbook, dayOf(day));

describe("the clocks of quarantine on a day", () => {
  test("each water with how long it lasts, what put it off, and who came", () => {
    const [shared, own] = on("2026-03-22");
    expect(own).toMatchObject({
      tanks: ["q1"],
      animals: [{ species: "praecox", animals: 7, text: "7" }],
      dayText: "day 22 of 33",
      text: "until 3 April, 12 days left",
      daysLeft: 12,
      putOff: [{ by: "loss", text: "a loss on 20 March" }],
      arrivals: [{ text: "8 praecox (lot a17), came on 1 March", animals: 8, from: [] }],
    });
    expect(shared).toMatchObject({
      tanks: ["s1", "s2"],
      animals: [{ species: "horn", text: "~20" }],
      text: "until 2 April, 11 days left",
      putOff: [],
    });
  });

  test("as of a day know nothing of later entries", () => {
    expect(on("2026-03-04").map(({ text }) => text)).toEqual(["until 29 March, 25 days left"]);
    expect(on("2026-02-28")).toEqual([]);
  });

  test("are told on their last day and after it, until the tank is empty", () => {
    expect(on("2026-04-03").map(({ text, isOver }) => `${text} ${isOver}`)).toEqual([
      "over since 2 April true",
      "ends today true",
    ]);
    expect(on("2026-04-04", `${log}2026-04-04\n  q1 move praecox 7 -> dam\n`)).toHaveLength(1);
  });

  test("are a table of a report; none where none runs", () => {
    const section = quarantineSection(on("2026-03-22"), dayOf("2026-03-22"))!;
    expect(section.note).toBe("2 running");
    const [table] = section.parts;
    expect(table?.is === "table" ? table.rows.map((row) => row.map(cellText)) : []).toEqual([
      ["s1, s2", "5 March", "~20 horn", "2 April", "", "~20 horn, came on 5 March, own clock until 2 April"],
      [
        "q1",
        "1 March",
        "7 praecox",
        "3 April",
        "a loss on 20 March",
        "8 praecox (lot a17), came on 1 March, own clock until 29 March",
      ],
    ]);
    expect(quarantineSection([], dayOf("2026-03-22"))).toBeUndefined();
  });

  test("are on the card of a quarantine tank and of its system, and of no other", () => {
    const checked = logbookOf(log);
    const day = dayOf("2026-03-22");
    checked.logbook.asOf = day;
    const of = (name: string) =>
      tankCard(checked, checked.book.stations.find((each) => each.name === name)!, day).quarantine?.text;
    expect(of("q1")).toBe("until 3 April, 12 days left");
    expect(of("s2")).toBe("until 2 April, 11 days left");
    expect(of("q-rack")).toBe("until 2 April, 11 days left");
    expect(of("dam")).toBeUndefined();
  });
});

describe("the clock at its lines and names", () => {
  test("stands at arrivals and at moves into quarantine, as it is just after them", () => {
    const view = viewOf(
      `${log}2026-03-22\n  dam count praecox 9\n  dam move praecox 4 -> q1\n  q1 move praecox 2 -> dam\n  q1 sick horn 1 case c-1\n  q1 arrive horn 2\n`,
    );
    const { text } = view.source;
    const labels = inlayHints(view, text.indexOf("2026-03-22"), text.length)
      .filter(({ kind }) => kind === "move" || kind === "arrive")
      .map(({ label }) => label);
    expect(labels).toEqual([
      "5 left, 11 in q1 · quarantine until 19 April",
      "9 left, 7 in dam",
      "quarantine at least until 19 April",
    ]);
  });

  test("is told of its tank, each part leading to its line", () => {
    const { view, offset } = atCursor(`${log}2026-03-22\n  q1¦ note "quiet"\n`);
    const { markdown } = hover(view, offset, { address: ({ start }) => `at:${start}` })!;
    const said = markdown.replaceAll("\\", "");
    expect(said).toContain("Quarantine until 3 April, 12 days left (day 22 of 33)");
    expect(said).toMatch(/- \[a loss on 20 March\]\(at:\d+\): put off to 3 April/);
    expect(said).toMatch(/\[8 praecox \(lot a17\), came on 1 March\]\(at:\d+\): own clock until 29 March/);
  });
});
