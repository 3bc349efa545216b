import fc from "fast-check";
import { expect, test } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { CheckedLogbook } from "../../language/checks/check.ts";

/** After any edits of the days, sales, shipments and orders say what a logbook that is read anew says. */

const room = `room "Shed"
  quarantine 5 d
  fasting 24 h
species praecox
remedy prazi
  target 2 mg/L
  half-life 1 d
  withdrawal 4 d
tank dam
  volume 100 L
tank r1
  volume 20 L
group both = dam, r1
order o-1
  wants praecox 6; placed 2026-03-01; due 2026-03-06
`;
const lines = [
  "dam count praecox 20",
  "r1 count praecox 9",
  "dam arrive praecox 5 dead 1",
  "@both feed flake",
  "dam feed none",
  "dam dose prazi 200 mg",
  "dam sick praecox 1 case spot",
  "room close spot recovered",
  "nowhere close spot recovered",
  "dam ship praecox 4 order o-1",
  "r1 ship praecox 3 order o-7",
  "dam sell praecox 9",
  "@both sell praecox 2",
  "room doa praecox 2 order o-1",
  "nowhere doa praecox 9 order o-1",
  "room doa none order o-3",
  'dam note "well"',
];
const days = ["2026-03-01", "2026-03-02", "2026-03-05", "2026-03-07"];

const told = (checked: CheckedLogbook): string[] =>
  checked
    .findings(dayOf("2026-03-08"))
    .filter(({ code }) => /^(?:ship|order|doa)\//.test(code))
    .map(
      ({ code, message, block, start, end }) =>
        `${code} ${block.start + start}..${block.start + end} ${message}`,
    );

test("sales, shipments and orders after any edits", () => {
  const edit = fc.record({
    day: fc.nat({ max: days.length - 1 }),
    at: fc.nat({ max: 6 }),
    cut: fc.nat({ max: 2 }),
    put: fc.array(fc.constantFrom(...lines), { maxLength: 2 }),
  });
  fc.assert(
    fc.property(fc.array(edit, { minLength: 1, maxLength: 12 }), (edits) => {
      const checked = new CheckedLogbook();
      checked.set("log.tank", `${room}${days.map((day) => `${day}\n`).join("")}`);
      told(checked);
      for (const { day, at, cut, put } of edits) {
        const source = checked.logbook.sources.get("log.tank")!;
        const head = source.text.indexOf(days[day]!) + days[day]!.length + 1;
        const next = days[day + 1] === undefined ? source.text.length : source.text.indexOf(days[day + 1]!);
        const body = source.text.slice(head, next).split("\n").slice(0, -1);
        const from = Math.min(at, body.length);
        const start = head + body.slice(0, from).reduce((sum, line) => sum + line.length + 1, 0);
        const gone = body.slice(from, from + cut).reduce((sum, line) => sum + line.length + 1, 0);
        checked.take(source.edit(start, start + gone, put.map((line) => `  ${line}\n`).join("")));
        const anew = new CheckedLogbook();
        anew.set("log.tank", checked.logbook.sources.get("log.tank")!.text);
        expect(told(checked)).toEqual(told(anew));
      }
    }),
    { numRuns: 150 },
  );
});
