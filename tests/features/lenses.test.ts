import { describe, expect, test } from "vitest";
import { codeLenses, lensTitle } from "../../language/features/lenses.ts";
import { cellarView } from "../support/cellar.ts";
import { viewOf } from "../support/cursor.ts";

const room = `system rack-water
  sump 90 L
  every 3 d change 25..40 %
tank r1
  volume 24 L
  system rack-water
tank r2 "Cherries"
  volume 24 L
  system rack-water
tank dam
  volume 300 L
  limits nitrate <= 40 mg/L
  every 7 d change 20..30 %
  every 2 d clean
gear canister
  on dam
  every 28 d service
group rack = r1 .. r2
species cherry
species horn
species praecox
species gold
water tap
food flake
`;

/** What stands over the lines of a log: the first words of the line, and the lens. */
function lenses(days: string, today?: string): string[] {
  const view = viewOf(room + days, undefined, today);
  return codeLenses(view).map((lens) => {
    const title = lensTitle(view, lens);
    const head = view.source.text.slice(lens.start, lens.end).split(" ").slice(0, 2).join(" ");
    return `${head}: ${title?.title}`;
  });
}
const over = (head: string, days: string, today?: string): string[] =>
  lenses(days, today)
    .filter((line) => line.startsWith(`${head}:`))
    .map((line) => line.slice(head.length + 2));

describe("over a day", () => {
  // 25 % of 300 L and 30 % of 90 + 24 + 24 = 138 L: 75 + 41.4 = 116.4. A top-up is no change.
  test("how many entries, tanks, litres and findings", () => {
    const day = `2026-03-01 "spring"
  dam change 25 %
  rack-water change 30 %
  rack-water top-up 4 L
  dam test nitrate 50, pH 7
  sheet  nitrate  pH
    r1   10       7
    r2   10       -
  room note "cold"
  dam wash
`;
    expect(over('2026-03-01 "spring"', `${day}2026-03-09\n  dam feed flake\n`)).toEqual([
      "7 entries · 3 tanks · 116 L changed · 2 findings",
    ]);
    expect(over("2026-03-09", `${day}2026-03-09\n  dam feed flake\n`)[0]).toBe("1 entry · 1 tank");
  });
  test("two blocks of one day are told apart", () => {
    expect(
      over("2026-03-01", "2026-03-01\n  dam change 10 %\n2026-03-01\n  dam change 60 L\n", "2026-03-02"),
    ).toEqual(["1 entry · 1 tank · 30 L changed", "1 entry · 1 tank · 60 L changed"]);
  });
  test("that is no day there is nothing", () => {
    expect(lenses("2026-02-30\n  dam change 10 %\n").some((line) => line.startsWith("2026"))).toBe(false);
  });
  test("with findings it leads to them, else to the card", () => {
    const view = viewOf(`${room}2026-03-01\n  dam test nitrate 50\n2026-03-02\n  dam test nitrate 5\n`);
    const leads = codeLenses(view)
      .filter((lens) => lens.is === "day")
      .map((lens) => lensTitle(view, lens)!.leads);
    const at = view.source.text.indexOf("50\n");
    // A reading above the limit that is not the latest is only hinted at.
    expect(leads).toEqual([{ to: "card" }, { to: "card" }]);
    const over = viewOf(`${room}2026-03-01\n  dam test nitrate 50\n`);
    expect(lensTitle(over, codeLenses(over).find((lens) => lens.is === "day")!)!.leads).toEqual({
      to: "places",
      places: [{ path: "log.tank", start: at, end: at + 2 }],
    });
  });
});

describe("over today", () => {
  // On the 15th: the change of the dam (1st + 7) and the clean (1st + 2) are late, the service (1st + 28) is not; the change of the
  // rack was on the 12th and is due.
  test("what is due and what is late, with the list behind it", () => {
    const days = `2026-03-01
  dam change 25 %
  dam clean
  canister service
2026-03-12
  rack-water change 30 %
2026-03-15
  dam feed flake
`;
    expect(over("2026-03-15", days)).toEqual(["1 entry · 1 tank", "1 due today · 2 late"]);
    expect(over("2026-03-12", days)).toEqual(["1 entry · 2 tanks · 41.4 L changed"]);
    const view = viewOf(room + days);
    expect(lensTitle(view, codeLenses(view).find((lens) => lens.is === "due")!)!.leads).toEqual({
      to: "due",
    });
  });
  test("nothing, if nothing is due", () => {
    expect(over("2026-03-01", "2026-03-01\n  dam change 25 %\n  dam clean\n")[1]).toBe("nothing is due");
  });
});

describe("over a tank", () => {
  const days = `2026-03-01
  dam count praecox 14, horn ~20, cherry 3, gold 2
  dam change 25 %
  dam clean
  canister service
2026-03-02
  r1 count cherry 30
  r2 count cherry ~50, horn 2
2026-03-10
  dam test nitrate 50
  rack-water change 30 %
  dam clean
`;
  // The change of the dam was due on the 8th.
  test("who lives there, the last change, what is due next, findings", () => {
    expect(over("tank dam", days)).toEqual([
      "~20 horn, 14 praecox, 3 cherry and 1 more · changed 1 March · change 20..30 % 2 days late · 2 findings",
    ]);
  });
  test("of water that is shared the change of all of it", () => {
    expect(over("tank r2", days)).toEqual([
      "~50 cherry, 2 horn · changed today · rack-water: change 25..40 % in 3 days",
    ]);
    expect(over("system rack-water", days)).toEqual([
      "~80 cherry, 2 horn · changed today · change 25..40 % in 3 days",
    ]);
  });
  test("nothing logged", () => {
    expect(over("tank r1", "2026-03-01\n  dam clean\n")).toEqual(["no animals"]);
  });
});

test("an edit that takes the block away takes what the lens said", () => {
  const view = viewOf(`${room}2026-03-01\n  dam change 25 %\n`);
  const lens = codeLenses(view).find((each) => each.is === "day")!;
  const { source } = view;
  view.checked.take(source.edit(lens.start, source.text.length, ""));
  expect(lensTitle(view, lens)).toBeUndefined();
});

test("the sample room has one over each day and each of its tanks", () => {
  const view = cellarView("2026-03.tank");
  const titles = codeLenses(view).map((lens) => lensTitle(view, lens)!.title);
  expect(titles).toHaveLength(32);
  expect(titles.at(-1)).toBe("4 late");
  const tanks = cellarView("tanks.tank");
  const [dam] = codeLenses(tanks).map((lens) => lensTitle(tanks, lens)!.title);
  expect(dam).toBe(
    "25 praecox, 12 horn, 8 boesemani · changed yesterday · canister: service 19 days late · 1 finding",
  );
});
