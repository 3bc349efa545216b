import { describe, expect, test } from "vitest";
import { why, whyAt, whyJson, whyText } from "../../language/features/why.ts";
import { cellarView } from "../support/cellar.ts";
import { atCursor, viewOf } from "../support/cursor.ts";

const room = `species praecox
remedy prazi
  target 2 mg/L
  ceiling 5 mg/L
  half-life 7 d
  repeat 3 times every 7 d
tank dam
  inside 100 x 50 x 50 cm; filled 40 cm
  displaced 20 L
  limits pH 6.8..7.8, nitrate <= 40 mg/L
  every 7 d change 20..30 %
  at most 2 per 7 d feed flake
tank q1
  volume 50 L
gear canister
  on dam
  every 28 d service
food flake
  kind dry
`;

/** What is answered, as the terminal shows it. */
function asked(log: string, question: string, today?: string): string[] {
  const view = viewOf(log, undefined, today);
  const answer = why(view.checked, view.worldDay, question);
  return ("why" in answer ? whyText(answer.why) : answer.problem).split("\n");
}

describe("asked by words", () => {
  // 2 mg/L; seven days, half a life: 1; half changed: 0.5; two more: 2.5; by the end of the 15th day 8 days: 2.5 x 2^(-8/7) = 1.13.
  test("a remedy: every dose and change with its arithmetic", () => {
    const log = `${room}2026-03-01
  q1 dose prazi 100 mg
2026-03-08
  q1 change 50 %
  q1 dose prazi 100 mg
2026-03-15
  q1 note "calm"
`;
    expect(asked(log, "q1 prazi").filter((line) => !/formula|source/.test(line))).toEqual([
      "prazi in q1 on 15 March 2026: 1.13 mg/L",
      "  2026-03-01 q1 dose prazi 100 mg: 0 + 2 = 2 mg/L",
      "    added: 100 mg / 50 L = 2 mg/L",
      "  2026-03-08 q1 change 50 %: 2 × 2^(-7 d / 7 d) = 1; 1 × (1 - 0.5) = 0.5 mg/L",
      "  2026-03-08 q1 dose prazi 100 mg: 0.5 + 2 = 2.5 mg/L",
      "    added: 100 mg / 50 L = 2 mg/L",
      "  left after the time since: 2.5 × 2^(-8 d / 7 d) = 1.13 mg/L",
      "  net volume of q1: 50 L",
      "    stated: volume 50 L",
      "  stated: target 2 mg/L",
      "  stated: ceiling 5 mg/L",
      "  stated: half-life 7 d",
    ]);
  });

  test("a remedy that was never given: none", () => {
    expect(asked(`${room}2026-03-01\n  q1 note "x"`, "q1 prazi")[0]).toBe(
      "prazi in q1 on 1 March 2026: 0 mg/L",
    );
  });

  test("animals: the last count and all since", () => {
    const log = `${room}2026-02-01
  dam count praecox 20
2026-03-01
  dam count praecox 14
2026-03-02
  q1 arrive praecox 3
  dam lose praecox 1 found
  q1 move praecox 2 -> dam
`;
    expect(asked(log, "dam praecox")).toEqual([
      "praecox in dam by the book: 15",
      "  formula: last count + arrivals + births + moves in - losses - moves out - sales",
      "  2026-03-01 dam count praecox 14: = 14",
      "  2026-03-02 dam lose praecox 1 found: - 1 = 13",
      "  2026-03-02 q1 move praecox 2 -> dam: + 2 = 15",
    ]);
    expect(asked(log, "q1 praecox").slice(1)).toEqual([
      "  formula: arrivals + births + moves in - losses - moves out - sales; never counted",
      "  2026-03-02 q1 arrive praecox 3: + 3 = 3",
      "  2026-03-02 q1 move praecox 2 -> dam: - 2 = 1",
    ]);
  });

  // 1 mg/L a day for four days from 10 mg/L; by the end of the fourth, 14.
  test("a level: the readings, the production and what it rests on", () => {
    const days = [1, 2, 3, 4].map((at) => `2026-03-0${at}\n  dam test nitrate ${9 + at}\n`).join("");
    const lines = asked(room + days, "dam nitrate");
    expect(lines[0]).toMatch(/^nitrate today: 14 mg\/L/);
    expect(lines.filter((line) => /^ {4}2026/.test(line))).toEqual(
      [
        "    2026-03-01 dam nitrate 10",
        "    2026-03-02 dam nitrate 11",
        "    2026-03-03 dam nitrate 12",
        "    2026-03-04 dam nitrate 13",
      ].map((line) => line.replace("dam nitrate", "dam test nitrate")),
    );
    expect(lines.join(" ")).toContain("Theil 1950; Sen 1968");
    expect(lines.at(-1)).toBe("  stated: nitrate <= 40 mg/L");
  });

  test("what does not mix: the last reading", () => {
    expect(asked(`${room}2026-03-01\n  dam test pH 7.2`, "dam pH")).toEqual([
      "pH in dam, last read on 2026-03-01: 7.2",
      "  2026-03-01 dam test pH 7.2",
      "  stated: pH 6.8..7.8: 6.8..7.8",
    ]);
  });

  // Ten days after the first of March, which is three more than seven.
  test("a duty by words of its act, of the tank or the gear on it", () => {
    const log = `${room}2026-03-01\n  dam change 25 %\n  dam feed flake\n2026-03-09\n  dam feed flake\n  dam feed flake\n2026-03-11\n  dam feed flake\n  canister service\n`;
    expect(asked(log, "dam change")).toEqual([
      "change 20..30 % in dam: 3 days late",
      "  formula: due = day it was last done + interval",
      "  stated: every 7 d change 20..30 %",
      "  2026-03-01 dam change 25 %",
    ]);
    expect(asked(log, "dam feed flake")[0]).toBe("feed flake in dam: 3, at most 2");
    expect(asked(log, "dam service")[0]).toBe("service in canister: due on 8 April");
    expect(asked(log, "canister service")[0]).toBe("service in canister: due on 8 April");
  });

  // 100 x 50 x 40 cm are 200 L, less 20.
  test("a volume", () => {
    expect(asked(`${room}2026-03-01\n  dam note "x"`, "dam volume").slice(0, 2)).toEqual([
      "net volume of dam: 180 L",
      "  formula: inside 100 x 50 cm, filled 40 cm, less 20 L",
    ]);
  });

  test("a finding, by its code and tank", () => {
    const log = `${room}2026-03-01\n  q1 dose prazi 300 mg\n  dam test nitrate 50\n`;
    expect(asked(log, "finding dose/above-ceiling q1")[0]).toBe("prazi in the water after this dose: 6 mg/L");
    expect(asked(log, "finding limit/above")).toContain("  stated: nitrate <= 40 mg/L");
    expect(asked(log, "finding dose/above-ceiling dam")).toEqual([
      "there is no finding dose/above-ceiling about dam",
    ]);
  });

  test("what is not known is said, with what may have been meant", () => {
    const log = `${room}2026-03-01\n  dam note "x"`;
    expect(asked(log, "dma nitrate")[0]).toContain("did you mean “dam”?");
    expect(asked(log, "dam nitrat")[0]).toContain("did you mean “nitrate” or “nitrite”?");
    expect(asked(log, "dam nitrate")[0]).toBe("nitrate was never tested in dam");
    expect(asked(log, "dam")[0]).toContain("ask for a tank and a figure");
    expect(asked(log, "finding dose/above-celing")[0]).toContain("dose/above-ceiling");
  });
});

describe("asked by place", () => {
  const at = (log: string): string | undefined => {
    const { view, offset } = atCursor(log);
    const found = whyAt(view, offset);
    return found && whyText(found).split("\n")[0];
  };
  test("an entry: what follows from it, as it was just then", () => {
    expect(at(`${room}2026-03-01\n  dam change 3¦0 %\n2026-03-02\n  dam change 50 %`)).toBe(
      "change of 1 March 2026 in dam: 54 L, 30 % of the water is new",
    );
    expect(at(`${room}2026-03-01\n  q1 dose prazi ¦100 mg\n  q1 dose prazi 100 mg`)).toBe(
      "prazi in q1 after this dose: 2 mg/L",
    );
    expect(at(`${room}2026-03-01\n  dam test nitrate 20, pH 7¦.2`)).toBe("pH in dam on 1 March 2026: 7.2");
    expect(at(`${room}2026-03-01\n  sheet nitrate pH\n    dam 20 7¦.2`)).toBe(
      "pH in dam on 1 March 2026: 7.2",
    );
    expect(at(`${room}2026-03-01\n  dam no¦te "x"`)).toBeUndefined();
  });
  test("a finding at the place comes first", () => {
    expect(at(`${room}2026-03-01\n  dam count praecox 8\n  dam count praecox ¦6`)).toBe(
      "praecox in dam by the book before this: 8",
    );
  });
  test("a statement: the figure it leads to today", () => {
    const day = "2026-03-01\n  dam change 25 %\n  dam test nitrate 20\n";
    const marked = (words: string): string => room.replace(words, `${words}¦`) + day;
    expect(at(marked("every 7 d ch"))).toBe("change 20..30 % in dam: due on 8 March");
    expect(at(marked("limits pH 6.8..7.8, nitr"))).toMatch(/^nitrate today/);
    expect(at(marked("displaced 2"))).toBe("net volume of dam: 180 L");
  });
});

test("the tree as plain JSON leads to the entries", () => {
  const view = viewOf(`${room}2026-03-01\n  dam count praecox 14\n`);
  const answer = why(view.checked, view.worldDay, "dam praecox");
  if ("problem" in answer) throw new Error(answer.problem);
  const [count] = whyJson(answer.why).from;
  const { text, path } = view.source;
  expect(count!.at).toMatchObject({ path });
  expect(text.slice(count!.at!.start, count!.at!.end)).toBe("dam count praecox 14");
  expect(JSON.parse(JSON.stringify(whyJson(answer.why)))).toEqual(whyJson(answer.why));
});

describe("in the sample room", () => {
  const { checked, worldDay } = cellarView("tanks.tank");
  const text = (question: string): string => {
    const answer = why(checked, worldDay, question);
    return "why" in answer ? whyText(answer.why) : answer.problem;
  };
  test("the two that are missing: the last count, and the six that came since", () => {
    const [count, came, ...others] = text("finding stock/count-differs b2").split("\n").slice(2);
    expect(count).toMatch(/^ {2}2026-02-\d\d b2 count gertrudae 4\.6\.0.*: = 10$/);
    expect(came).toMatch(/^ {2}2026-02-21 q1 move gertrudae 6 -> b2 lot rn-126: \+ 6 = 16$/);
    expect(others).toEqual([]);
  });
  test("the dose for another tank's volume", () => {
    expect(text("finding dose/above-ceiling h1")).toContain("126 mg / 22 L = 5.73 mg/L");
  });
  test("water that is shared is asked for by any of its tanks", () => {
    expect(text("r7 nitrate")).toBe(text("rack-water nitrate"));
  });
});

test("asked in words, what the readings of a round say together", () => {
  const { checked } = viewOf(
    "tank dam\n  volume 9 L\n2026-03-01\n  dam test ammonia 0.5, pH 8, temperature 25\n",
  );
  const answer = why(checked, 99_999, "dam free ammonia");
  expect("why" in answer && answer.why.value).toBe("0.033 mg/L NH3");
  expect(why(checked, 99_999, "dam copper-criterion")).toEqual({
    problem: "no round of dam has all that copper-criterion needs",
  });
});
