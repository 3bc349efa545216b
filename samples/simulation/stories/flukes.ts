import { ofLot } from "../lots.ts";
import { testLine } from "../routines/testing.ts";
import { changes, doses, line, moves, notes, type Scene, says } from "./scene.ts";

/**
 * One case from the first sign to the laboratory's answer and its close. Ricefish leave quarantine after 18 of 28 days,
 * carry flukes into b3, and six of b3 go on to the rack before anybody sees it, a handful of fern with them; the siphon of
 * that week was in b2 next. On the way the keeper mistakes the volume of h1 and repeats a dose in b3 three days too early.
 */
const CASE = "flukes-1";
const LABORATORY = "state laboratory";

function sick(on: string, at: string, affected: number, fresh: number, signs: string): Scene {
  return {
    on,
    at,
    timed: true,
    perform: ({ stock }) => {
      const atRisk = stock.there("b3", "woworae");
      const isFirst = affected === fresh && on === "2025-10-04";
      const ofThem = isFirst ? "" : ` new ${fresh}`;
      return [line("b3", `sick woworae ${affected} of ${atRisk}${ofThem} signs "${signs}" case ${CASE}`)];
    },
  };
}

function loses(on: string, at: string, tank: string, how: string, text: string): Scene {
  return {
    on,
    at,
    perform: ({ stock }) => {
      const [dead] = stock.leave(tank, "woworae", 1, "diedSeen");
      return [line(tank, `lose woworae 1 ${how}${ofLot("woworae", dead?.lot)} case ${CASE}`, text)];
    },
  };
}

function tests(on: string, at: string, target: string): Scene {
  return {
    on,
    at,
    perform: (cellar, now) => [
      testLine(cellar, target, ["temperature", "pH", "ammonia", "nitrite", "nitrate"], now),
    ],
  };
}

export const flukes: readonly Scene[] = [
  {
    on: "2025-09-01",
    at: "16:10",
    perform: ({ stock }) => {
      stock.enter("q1", "woworae", 10, "arrived", 10, "im-7");
      return [
        line(
          "q1",
          'arrive woworae 10 from "importer, list of August" by courier lot im-7',
          "a bit pale, all eat",
        ),
      ];
    },
  },
  moves(
    "2025-09-19",
    "06:50",
    "woworae",
    "all",
    "q1",
    "b3",
    "heater of q1 failed in the night, 18 C, nowhere else to put them",
  ),
  says("2025-09-20", "15:00", "q1", "service heater replaced"),
  moves("2025-09-27", "17:40", "woworae", 6, "b3", "r8", "too many for b3", "net"),
  says("2025-09-27", "17:50", "b3", "carry fern -> r8", "a handful, so that they have something to hide in"),
  says("2025-09-30", "18:10", "b3", "clean gravel with siphon"),
  says("2025-09-30", "18:30", "b2", "clean gravel with siphon"),

  sick("2025-10-04", "07:55", 2, 2, "flashing, clamped fins"),
  tests("2025-10-04", "08:10", "b3"),
  sick("2025-10-05", "08:15", 3, 1, "flashing, clamped fins, one at the surface"),
  notes(
    "2025-10-05",
    "20:55",
    "room",
    "no parcels and no sales from the rack until we know what b3 has, r8 was in there last week",
  ),
  ...["siphon", "net"].map((tool) =>
    says("2025-10-04", "09:00", tool, 'disinfect with "chlorine, 30 min, rinsed"'),
  ),
  moves("2025-10-06", "09:10", "woworae", 3, "b3", "h1", "the three that rub"),
  says(
    "2025-10-06",
    "09:20",
    "h1",
    `bath woworae 3 with salt 10 g/L for 5 min volume 8 L case ${CASE}`,
    "as the vet said, stood beside it; none rolled",
  ),
  loses("2025-10-06", "09:30", "h1", "euthanised", "for the laboratory, as the vet said on the telephone"),
  says(
    "2025-10-06",
    "09:50",
    "h1",
    `sample gill 2 of woworae kept formalin at 10 % volumes 20 into "tube 1" case ${CASE} to "${LABORATORY}"`,
  ),
  says(
    "2025-10-06",
    "09:55",
    "h1",
    `sample skin 1 of woworae kept chilled into "bag 2" case ${CASE} to "${LABORATORY}"`,
  ),
  says(
    "2025-10-06",
    "10:00",
    "h1",
    `sample water 1 kept chilled into "bottle 3" case ${CASE} to "${LABORATORY}"`,
    "a quarter litre, filled under water",
  ),
  says("2025-10-06", "10:20", "h1", `ask ${CASE} "Which worm is it, and is anything bacterial beside it?"`),
  says("2025-10-06", "10:25", "h1", `ask ${CASE} "When may the rack ship again?"`),
  says("2025-10-07", "08:40", "h1", `send ${CASE} packed`, "wet ice, the sheet in a bag of its own"),
  says("2025-10-07", "09:05", "h1", `send ${CASE} to "${LABORATORY}" by "courier"`),
  notes("2025-10-07", "09:20", "room", "the box went at nine, the courier asked what is in it"),
  says("2025-10-07", "15:30", "h1", `send ${CASE} received`, "by telephone"),
  sick("2025-10-10", "08:05", 4, 4, "flashing, fast breathing"),
  loses("2025-10-12", "07:20", "b3", "found", "one of the rubbing ones"),
  notes("2025-10-13", "19:45", "room", "laboratory rang: written answer on Wednesday"),
  says(
    "2025-10-15",
    "14:30",
    "h1",
    `result ${CASE} positive`,
    "monogeneans on the gill filaments, many; nothing grown from the skin",
  ),
  says("2025-10-15", "20:00", "h1", "remove carbon"),
  // Meant for the 63 L of q1: in 22 L it is 5.7 mg/L, above the ceiling of 5.
  doses("2025-10-15", "20:10", "h1", "praziquantel", `126 mg case ${CASE}`, "first of three"),
  changes("2025-10-16", "06:40", "h1", "50 %"),
  notes(
    "2025-10-16",
    "06:55",
    "h1",
    "dosed for the 63 L of q1 last night, h1 holds 22; half the water out at once",
  ),
  says("2025-10-16", "19:20", "b3", "remove carbon"),
  doses(
    "2025-10-16",
    "19:30",
    "b3",
    "praziquantel",
    `90 mg case ${CASE}`,
    "2 mg/L in 45 L, reckoned twice this time",
  ),
  changes("2025-10-20", "19:05", "b3", "35 %"),
  // Due on the 23rd.
  doses("2025-10-20", "19:35", "b3", "praziquantel", `90 mg case ${CASE}`, "second"),
  changes("2025-10-22", "19:10", "h1", "40 %"),
  doses("2025-10-22", "19:30", "h1", "praziquantel", `44 mg case ${CASE}`),
  notes("2025-10-24", "20:15", "b3", "two still rub on the root, the others have stopped"),
  changes("2025-10-27", "19:00", "b3", "35 %"),
  doses("2025-10-27", "19:30", "b3", "praziquantel", `90 mg case ${CASE}`, "third"),
  changes("2025-10-29", "19:10", "h1", "40 %"),
  doses("2025-10-29", "19:30", "h1", "praziquantel", `44 mg case ${CASE}`, "third"),
  says("2025-11-04", "19:00", "b3", "return carbon"),
  says("2025-11-06", "19:00", "h1", "return carbon"),
  notes("2025-11-05", "20:10", "b3", "half an hour before the tank, not one of them rubbed"),
  says("2025-11-14", "19:50", "b3", `close ${CASE} recovered`, "two weeks without a sign, r8 clear as well"),
  moves("2025-11-16", "17:20", "woworae", "all", "h1", "b3", "back home"),
  notes("2025-11-16", "18:10", "room", "orders open again, three people waiting"),
];
