import { describe, expect, test } from "vitest";
import { completions } from "../../language/features/completion.ts";
import { hover } from "../../language/features/hover.ts";
import { codeLenses, lensTitle } from "../../language/features/lenses.ts";
import { atCursor } from "../support/cursor.ts";

const room = `room "Cellar"
  quarantine 28 d
species praecox
species horn
  kind snail
tank dam
  volume 100 L
tank q1
  volume 50 L
  role quarantine
order o-1 "A breeder"
  wants praecox 6, horn 2; placed 2026-03-01; due 2026-03-20
order o-2
  wants praecox 3; placed 2026-03-01; due 2026-03-04
`;
const log = `2026-03-01
  dam count praecox 7, horn 1
  q1 arrive praecox 8
2026-03-05
  dam ship praecox 1 order o-1
`;

const hoverAt = (text: string): string => {
  const { view, offset } = atCursor(text);
  return hover(view, offset)?.markdown.replaceAll("\\", "") ?? "";
};

describe("an order under the cursor", () => {
  test("says what is missing, from where and from when, and the entries that name it", () => {
    const told = hoverAt(room.replace("order o-1", "order o-¦1") + log);
    expect(told).toContain("**o-1** · order · A breeder · due 20 March");
    expect(told).toContain("praecox: 1 of 6 gone; 5 praecox missing, from 29 March");
    expect(told).toContain("horn: 0 of 2 gone; 2 horn missing, 1 more than there are");
    expect(told).toContain("praecox: dam has 3");
    expect(told).toContain("praecox: q1 has 8 (quarantine until 29 March)");
    expect(told).toContain("ship praecox 1 order o-1");
  });

  test("is the same on the line of a shipment", () => {
    expect(hoverAt(`${room}${log.replace("order o-1", "order o-¦1")}`)).toContain("5 praecox missing");
  });

  test("that is not defined has its entries", () => {
    expect(hoverAt(`${room}${log.replace("order o-1", "order o-¦9")}`)).toContain("ship praecox 1 order o-9");
  });
});

test("over an order stands what is missing and from when", () => {
  const { view } = atCursor(`${room}${log}¦`);
  const titles = codeLenses(view)
    .filter(({ is }) => is === "order")
    .map((lens) => lensTitle(view, lens)?.title);
  expect(titles).toEqual([
    "due 20 March · 5 praecox missing, from 29 March; 2 horn missing, 1 more than there are",
    "1 day late · 3 praecox missing, there today",
  ]);
});

describe("completion", () => {
  const offered = (line: string): [string, string][] => {
    const { view, offset } = atCursor(`${room}${log}${line}`);
    return completions(view, offset).items.map(({ label, detail }) => [label, detail]);
  };

  test("behind ship offers first what each open order wants and this tank has", () => {
    expect(offered("  dam ship ¦\n").slice(0, 4)).toEqual([
      ["praecox 3 order o-2", "1 day late"],
      ["praecox 3, horn 1 order o-1", "A breeder, due 20 March"],
      ["praecox", "0 of 6 free"],
      ["horn", "0 of 1 free"],
    ]);
  });

  test("from a tank that may not give any offers none, and says why", () => {
    expect(offered("  q1 sell ¦\n")[0]).toEqual(["praecox", "0 of 8 free; quarantine until 29 March"]);
  });

  test("behind order offers those that wait, and behind that of a report those that were shipped", () => {
    expect(offered("  dam ship praecox 2 order ¦\n")).toEqual([
      ["o-2", "3 praecox"],
      ["o-1", "5 praecox, 2 horn"],
    ]);
    expect(offered("  room doa none order ¦\n")).toEqual([["o-1", "shipped 5 March"]]);
  });
});
