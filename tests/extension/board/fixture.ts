import type { Card, Stop, Task, Way } from "../../../extension/views/board/shown.ts";

/** Boards made by hand, as small as what they show. */

export const way = (words: string, ...blanks: readonly string[]): Way => ({
  words,
  blanks: blanks.map((before) => ({ before, label: before.replace(/[ ,]+/g, " ").trim(), last: "" })),
  end: "",
});

export function task(target: string, ways: readonly Way[], more: Partial<Task> = {}): Task {
  const kind = ways[0]!.words.split(" ", 1)[0]!;
  return {
    key: `${target} ${kind}`,
    target,
    kind,
    ways,
    late: 0,
    when: "today",
    last: "",
    why: "",
    litres: "",
    caution: "",
    place: null,
    ...more,
  };
}

export const stop = (at: string, ...tasks: readonly Task[]): Stop => ({
  at,
  title: at,
  stage: "healthy",
  reason: "",
  before: "",
  tasks,
  place: null,
  hasCard: true,
});

export const card = (some: Partial<Card> = {}): Card => ({
  title: "Shed",
  day: 20_000,
  dayText: "Thursday 3 October 2024",
  away: null,
  tanks: 3,
  load: [],
  stops: [],
  feeds: [],
  notices: [],
  done: [],
  coming: [],
  fit: [],
  hasRound: true,
  cautions: [],
  ...some,
});

/** Two tanks with a clean, a test and a count, and two to feed. */
export const day = card({
  stops: [
    stop(
      "pond",
      task("pond", [way("clean glass"), way("clean glass, gravel")]),
      task("pond", [way("test", " nitrate ", ", pH ")]),
    ),
    stop("tub", task("tub", [way("clean glass")]), task("tub", [way("count", " guppy ")])),
  ],
  feeds: [task("pond", [way("feed flake")]), task("tub", [way("feed flake")])],
});
