import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isoOf } from "../../language/book/dates.ts";
import { CheckedLogbook } from "../../language/checks/check.ts";
import { deriveCounts } from "../../language/room/logbook.ts";
import { figuresOf, findingText } from "../support/figures.ts";

/** An edit far back reads on until its water stands as it did; what comes after that is taken over, and is what reading it would give. */

const first = 20_000;
const lengthDays = 200;
const today = first + lengthDays;

const room = `room "Shed"
  limits  nitrate <= 40 mg/L, pH 6.5..8
species praecox
species horn
  kind snail
food flake
  kind dry
remedy prazi
  target         2 mg/L
  ceiling        5 mg/L
  repeat         2 times every 5 d
  change-before  25 %
  half-life      3 d
  harms          snail
remedy salt
  target 1 g/L
system rack
  sump  20 L
  every 7 d change 30 %
tank dam
  volume 100 L
  every  7 d change 30 %
  every  7 d clean glass, back-glass
  at most 2 per 7 d feed dry
tank r1
  volume 20 L
  system rack
tank r2
  volume 20 L
  system rack
group both = r1, r2
`;

/** Quiet weeks, in which a water comes to stand as it would have. */
const weekly = [
  "dam feed flake",
  "dam change 40 %",
  "dam test nitrate 20, pH 7",
  "@both test nitrate 12",
  "dam count praecox 12",
  "rack change 30 %",
  "r1 count horn 5",
];

const put = [
  "dam test nitrate 55",
  "dam test nitrate 2200",
  "dam test KH 6",
  "@both test nitrate 30",
  "dam change 50 %",
  "rack change 10 %",
  "r1 top-up 2 L",
  "dam feed flake",
  "08:00 dam feed flake",
  "dam dose prazi 200 mg",
  "r1 dose prazi 120 mg",
  "dam dose salt 100 g",
  "dam count praecox ~12",
  "dam count praecox 9",
  "dam lose praecox 2 found",
  "dam lose praecox 4 found",
  "dam arrive praecox 3 lot a17",
  "dam count praecox 3 lot a17",
  "dam arrive horn 2",
  "dam move praecox 2 -> r1",
  "r1 move praecox 1 -> r2",
  "dam clean glass",
  "dam clean back-glass",
  "dam condition praecox 3",
  "dam condition horn 3",
  "dam sick praecox 2 of 12 case spot",
  'dam note "well"',
] as const;

const dayText = (day: number): string => `${isoOf(day)}\n  ${weekly[day % weekly.length]}\n`;

function logOf(days: number): CheckedLogbook {
  const checked = new CheckedLogbook();
  checked.set("0.tank", room);
  checked.set("1.tank", Array.from({ length: days }, (_, at) => dayText(first + at)).join(""));
  return checked;
}

/** Writes below the head of a day. */
function write(checked: CheckedLogbook, day: number, cut: boolean, lines: readonly string[]): void {
  const source = checked.logbook.sources.get("1.tank")!;
  const head = source.text.indexOf(isoOf(day));
  const start = source.text.indexOf("\n", head) + 1;
  const next = source.text.indexOf("\n2", start) + 1;
  const end = cut ? (next === 0 ? source.text.length : next) : start;
  checked.take(source.edit(start, end, lines.map((line) => `  ${line}\n`).join("")));
}

function anew(checked: CheckedLogbook): CheckedLogbook {
  const fresh = new CheckedLogbook();
  for (const { path, text } of checked.logbook.sources.values()) fresh.set(path, text);
  return fresh;
}

describe("an edit far back", () => {
  it("comes to what reading all anew comes to", () => {
    const edit = fc.record({
      // Some days are edited again and again, as they are by who writes.
      day: fc.oneof(fc.integer({ min: 0, max: lengthDays - 1 }), fc.constantFrom(3, 60, 61, 140)),
      cut: fc.boolean(),
      put: fc.array(fc.constantFrom(...put), { maxLength: 3 }),
      looks: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 10, size: "max" }), (edits) => {
        const checked = logOf(lengthDays);
        const told = (of: CheckedLogbook): string[] => of.findings(today).map(findingText);
        told(checked);
        for (const { day, cut, put: lines, looks } of edits) {
          write(checked, first + day, cut, lines);
          if (looks) told(checked);
        }
        const fresh = anew(checked);
        expect(told(checked)).toEqual(told(fresh));
        expect(figuresOf(checked, today)).toEqual(figuresOf(fresh, today));
      }),
      { numRuns: 60 },
    );
  });

  const rowsOf = (line: string, again: string): number => {
    const checked = logOf(lengthDays);
    checked.findings(today);
    write(checked, first + 40, false, [line]);
    checked.findings(today);
    write(checked, first + 40, false, [again]);
    deriveCounts.rows = 0;
    checked.findings(today);
    return deriveCounts.rows;
  };

  it("reads its own day again where nothing that follows hangs on it", () => {
    expect(rowsOf("dam test nitrate 5", "dam test nitrate 6")).toBeLessThan(5);
    // How often it was fed counts for a week.
    expect(rowsOf("dam feed flake", "dam feed flake")).toBeLessThan(25);
  });

  it("reads up to the next count where the animals are others, and all where a remedy is never gone", () => {
    const counted = rowsOf("dam arrive praecox 2", "dam arrive praecox 3");
    expect(counted).toBeGreaterThan(2);
    expect(counted).toBeLessThan(40);
    expect(rowsOf("dam dose salt 50 g", "dam dose salt 60 g")).toBeGreaterThan(90);
  });
});
