import { expect, test } from "vitest";
import { dueOffers } from "../../language/features/write-day.ts";
import { viewOf } from "../support/cursor.ts";

const room = `tank q
  volume 50 L; role quarantine
  every  7 d change 40 %
tank dam
  volume 100 L
  every  7 d change 30 %
  every  14 d clean
tank r1
  volume 24 L
  every  7 d change 30 %
group rack = dam, r1
2026-03-01
  q     change 40 %
  dam   clean
  @rack change 30 %
  q     arrive horn 2
`;

test("what is due is offered in the order of hands, the latest first; the reminder stands once, before the first that is dirtier", () => {
  const offers = dueOffers(viewOf(room, undefined, "2026-03-17"));
  expect(
    offers.map(({ entry, stage, before }) => [`${entry.target} ${entry.words}`, stage, before !== ""]),
  ).toEqual([
    ["@rack change 30 %", "healthy", false],
    ["dam clean", "healthy", false],
    ["q change 40 %", "quarantine", true],
  ]);
});

test("a line for a group is as dirty as the dirtiest of its tanks", () => {
  const sick = `${room}  r1 sick praecox 1 of 3 case c-1\n`;
  const offers = dueOffers(viewOf(sick, undefined, "2026-03-17"));
  expect(offers.map(({ entry, stage }) => `${entry.target} ${stage}`)).toEqual([
    "dam healthy",
    "q quarantine",
    "@rack sick",
  ]);
});
