import fc from "fast-check";
import { expect, test } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { CheckedLogbook } from "../../language/checks/check.ts";

/** After any edits of the days, what is told of exposures is what a logbook that is read anew tells. */

const room = `room "Shed"
  trace 4 d
species praecox
tank a
  volume 100 L
tank b
  volume 60 L
tank h1
  volume 20 L
  role hospital
system sump-water
  sump 20 L
tank s
  volume 20 L
  system sump-water
tank t
  volume 20 L
  system sump-water
group some = b, s
`;
const lines = [
  "a count praecox 9",
  "b count praecox 0",
  "b change 100 %",
  "b change 60 L with net",
  "a sick praecox 2 case spot",
  "b sick praecox 1 case spot",
  "s sick praecox 1",
  "a sick praecox 0 case spot",
  "a close spot recovered",
  "nowhere sick praecox 1 case spot",
  "a move praecox 1 -> b with net",
  "b move praecox 1 -> s",
  "@some move praecox 1 -> a",
  "a move praecox 1 -> h1",
  't sell praecox 1 to "x"',
  't sell praecox 1 to "y"',
  'b arrive praecox 1 from "x"',
  'b arrive praecox 1 from "y"',
  "b carry wood -> t",
  "a clean with net",
  "s clean with net",
  "room disinfect net",
  "a disinfect",
  "b disinfect",
];
const days = ["2026-03-01", "2026-03-02", "2026-03-05", "2026-03-09"];

const told = (checked: CheckedLogbook): string[] =>
  checked
    .findings(dayOf("2026-03-10"))
    .filter(({ code }) => /^(?:exposure|disinfect)\//.test(code))
    .map(
      ({ code, message, block, start, end }) =>
        `${code} ${block.start + start}..${block.start + end} ${message}`,
    );

test("exposures after any edits", () => {
  const edit = fc.record({
    day: fc.nat({ max: days.length - 1 }),
    at: fc.nat({ max: 6 }),
    cut: fc.nat({ max: 2 }),
    put: fc.array(fc.constantFrom(...lines), { maxLength: 3 }),
  });
  fc.assert(
    fc.property(fc.array(edit, { minLength: 1, maxLength: 14, size: "max" }), (edits) => {
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
    { numRuns: 120 },
  );
});
