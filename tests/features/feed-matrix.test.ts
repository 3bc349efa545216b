import { describe, expect, it } from "vitest";
import { spokenDay } from "../../language/book/dates.ts";
import { dayFeeding, stationFeeding } from "../../language/features/feed-matrix.ts";
import type { FeedMatrixCard } from "../../language/features/feed-matrix-card.ts";
import { Room } from "../support/room.ts";

/** Two weeks of feedings as the preview shows them. */

const log = `food cyclops
  kind frozen
food flake
  kind dry
species praecox
  needs frozen at least 3 per 7 d, dry at most 1 per 7 d
tank dam
  volume 100 L
tank q1
  volume 50 L
tank q2
  volume 50 L
group show = dam, q1
2026-02-01
  @show arrive praecox 8
2026-02-10
  dam feed cyclops
2026-03-01
  @show feed cyclops 2 cubes "gone at once"
2026-03-03
  dam feed cyclops 1 cube, flake 1 pinch
  dam feed flake
2026-03-04
  q1 feed none
2026-03-06
  07:20 dam feed cyclops 3 cubes
`;

/** `frozen [at least 3 in 7 days, got 3] 1 March cyclops 2 cubes; ...`. */
const rows = (card: FeedMatrixCard | null): string[] =>
  (card?.rows ?? []).map(({ name, need, cells }) => {
    const days = cells.map(
      ({ day, times, text, isFast }) => `${spokenDay(day, day)} ${isFast ? "-" : times} ${text}`,
    );
    return `${name} [${need}] ${days.join(", ")}`;
  });

describe("the feedings of a tank", () => {
  const room = new Room(log);
  it("are told by kind of food and day, two weeks back, with what is needed", () => {
    const card = stationFeeding(room.checked, room.tank("dam"), room.today)!;
    expect(rows(card)).toEqual([
      "dry [at most 1 in 7 days, got 2: too much] 3 March 2 flake 1 pinch; flake",
      "frozen [at least 3 in 7 days, got 3] 1 March 1 cyclops 2 cubes, 3 March 1 cyclops 1 cube, 6 March 1 cyclops 3 cubes",
    ]);
    expect(card.lastText).toBe("today 07:20 cyclops 3 cubes");
  });

  it("are as of a day that is past", () => {
    const card = stationFeeding(room.checked, room.tank("dam"), room.today - 4)!;
    expect(rows(card)).toEqual([
      "dry [at most 1 in 7 days, got 0] ",
      "frozen [at least 3 in 7 days, got 1: overdue] 1 March 1 cyclops 2 cubes",
    ]);
  });

  it("are none of a tank without animals that was never fed", () => {
    expect(stationFeeding(room.checked, room.tank("q2"), room.today)).toBeNull();
  });
});

describe("the feedings of a day", () => {
  it("are told by tank, with days of fasting and what is out", () => {
    const room = new Room(log);
    expect(rows(dayFeeding(room.checked, room.today))).toEqual([
      "dam [dry at most 1 in 7 days, got 2: too much] 1 March 1 cyclops 2 cubes, 3 March 2 cyclops 1 cube; flake 1 pinch; flake, 6 March 1 cyclops 3 cubes",
      "q1 [frozen at least 3 in 7 days, got 1: overdue] 1 March 1 cyclops 2 cubes, 4 March - fasting",
    ]);
  });
});
