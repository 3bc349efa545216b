import { expect, test } from "vitest";
import { dayOf, isoOf } from "../../language/book/dates.ts";
import { cardAt, cardChoices, cardOfTank } from "../../language/features/card-at.ts";
import { atCursor } from "../support/cursor.ts";

const room = `room "Shed"
system shared
  sump 40 L
tank r1 "Left"
  volume 30 L
  system shared
tank dam "Show tank"
  volume 200 L
  role show
gear canister
  on dam
group rack = r1
species horn
  kind snail
`;

/** What the card at the cursor is about. */
function about(marked: string): string {
  const { view, offset } = atCursor(marked);
  const card = cardAt(view, offset);
  return card === undefined
    ? "nothing"
    : card.is === "tank"
      ? card.name
      : card.is === "case"
        ? `case ${card.name} ${card.episode}`
        : isoOf(card.day);
}

test("on an entry it is the tank of the entry, wherever on the line the cursor is", () => {
  expect(about(`${room}2026-03-01\n  dam ch¦ange 30 %\n`)).toBe("dam");
  expect(about(`${room}2026-03-01\n¦  dam change 30 %\n`)).toBe("dam");
  expect(about(`${room}2026-03-01\n  dam change 30 %   # as ev¦er\n`)).toBe("dam");
  expect(about(`${room}2026-03-01\n  dam change 30 %¦\n  r1 note "a"\n`)).toBe("dam");
});

test("on a row of a sheet it is the tank of the row", () => {
  expect(about(`${room}2026-03-01\n  sheet  nitrate\n    r1   1¦8\n`)).toBe("r1");
});

test("on the head of a day, an empty line, the head of a sheet, an entry for a group or the room it is the day", () => {
  expect(about(`${room}2026-03-¦01\n  dam change 30 %\n`)).toBe("2026-03-01");
  expect(about(`${room}2026-03-01\n  dam change 30 %\n¦\n`)).toBe("2026-03-01");
  expect(about(`${room}2026-03-01\n  sheet  nit¦rate\n    r1   18\n`)).toBe("2026-03-01");
  expect(about(`${room}2026-03-01\n  @rack cl¦ean\n`)).toBe("2026-03-01");
  expect(about(`${room}2026-03-01\n  room no¦te "new bulb"\n`)).toBe("2026-03-01");
  expect(about(`${room}2026-03-01\n  dmm ch¦ange 30 %\n`)).toBe("2026-03-01");
});

test("on a definition of a tank or system it is that; of gear what it serves; of anything else nothing", () => {
  expect(about(room.replace("volume 200", "vol¦ume 200"))).toBe("dam");
  expect(about(room.replace("sump", "su¦mp"))).toBe("shared");
  expect(about(room.replace("on dam", "on d¦am"))).toBe("dam");
  expect(about(room.replace("kind snail", "kind sn¦ail"))).toBe("nothing");
  expect(about(`${room}2026-02-30\n  dam ch¦ange 30 %\n`)).toBe("nothing");
});

test("on the name of a case it is the case, of one that came back the time that the entry is of", () => {
  const days = `2026-03-01
  dam sick horn 1 of 4 case c-1
2026-03-04
  dam close c-1 recovered
2026-03-09
  dam sick horn 2 of 4 case c-1
`;
  expect(about(room + days.replace("of 4 case c-1", "of 4 case c¦-1"))).toBe("case c-1 1");
  expect(about(room + days.replace("close c-1", "close c¦-1"))).toBe("case c-1 1");
  expect(about(room + days.replace("2 of 4 case c-1", "2 of 4 case c¦-1"))).toBe("case c-1 2");
  expect(about(room + days.replace("close c-1", "clo¦se c-1"))).toBe("dam");
  expect(about(`${room}2026-03-01\n  dam result c¦-1 negative\n`)).toBe("dam");
});

test("by its name a tank or a system has a card, gear the card of its tank", () => {
  const { view } = atCursor(`${room}¦2026-03-01\n  dam change 30 %\n`);
  expect(cardOfTank(view, "dam")).toMatchObject({ name: "dam", day: dayOf("2026-03-01") });
  expect(cardOfTank(view, "shared")).toMatchObject({ role: "system" });
  expect(cardOfTank(view, "nobody")).toBeUndefined();
});

test("tanks and systems to choose from, as they are defined", () => {
  const { view } = atCursor(`${room}¦`);
  expect(cardChoices(view.checked)).toEqual([
    { name: "shared", title: "", about: "system, 70 L" },
    { name: "r1", title: "Left", about: "30 L" },
    { name: "dam", title: "Show tank", about: "show, 200 L" },
  ]);
});
