import { describe, expect, it } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { pageOf } from "../../language/checks/codes.ts";
import { roomLossesOf } from "../../language/cli/cases/room-losses.ts";
import { roomLosses } from "../../language/cli/schema/room-losses.ts";
import { roomLossCard } from "../../language/features/losses-card.ts";
import { logbookOf } from "../support/marked.ts";

describe("the losses of a room as JSON", () => {
  const reported = (log: string, day: string) => {
    const checked = logbookOf(log);
    const opened = { folder: "shed", checked, isAsked: () => true, shown: () => "shed/log.tank" };
    const card = roomLossCard(checked.logbook, dayOf(day));
    return roomLosses.parse(JSON.parse(JSON.stringify(roomLossesOf(opened, card))));
  };

  it("are of their schema, with the place of the death by which an outbreak showed", () => {
    const { outbreaks, baseline } = reported(pageOf("loss/room").raises, "2025-12-22");
    expect(outbreaks).toMatchObject([
      { from: "2025-12-20", told: "2025-12-22", place: { file: "shed/log.tank", line: 24 } },
    ]);
    expect([baseline.from, baseline.to, baseline.why.what]).toEqual([
      "2025-06-11",
      "2025-12-07",
      "usual deaths",
    ]);
  });

  it("are of their schema where nothing is known", () => {
    expect(reported("", "2026-01-01")).toMatchObject({ scheme: null, sum: null, chart: [], outbreaks: [] });
  });
});
