import fc from "fast-check";
import { expect } from "vitest";
import { dayOf } from "../../language/book/dates.ts";
import { CheckedLogbook } from "../../language/checks/check.ts";
import { findingText } from "./figures.ts";

/** A log of some days of which lines are cut and put in anywhere. */
export interface EditedDays {
  /** Definitions, above the days. */
  readonly room: string;
  /** What is put in. */
  readonly lines: readonly string[];
  /** In order. */
  readonly days: readonly string[];
  readonly today: string;
  /** The findings that are looked at. */
  readonly codes: RegExp;
  /** At most so many edits, and so many lines put in at once. */
  readonly edits: number;
  readonly put: number;
  readonly numRuns: number;
}

/** After any edits of the days, the findings are those of a logbook that is read anew. */
export function expectAsReadAnew({ room, lines, days, today, codes, edits, put, numRuns }: EditedDays): void {
  const told = (checked: CheckedLogbook): string[] =>
    checked
      .findings(dayOf(today))
      .filter(({ code }) => codes.test(code))
      .map(findingText);
  const edit = fc.record({
    day: fc.nat({ max: days.length - 1 }),
    at: fc.nat({ max: 6 }),
    cut: fc.nat({ max: 2 }),
    put: fc.array(fc.constantFrom(...lines), { maxLength: put }),
  });
  fc.assert(
    fc.property(fc.array(edit, { minLength: 1, maxLength: edits, size: "max" }), (made) => {
      const checked = new CheckedLogbook();
      checked.set("log.tank", `${room}${days.map((day) => `${day}\n`).join("")}`);
      told(checked);
      for (const { day, at, cut, put: written } of made) {
        const source = checked.logbook.sources.get("log.tank")!;
        const head = source.text.indexOf(days[day]!) + days[day]!.length + 1;
        const next = days[day + 1] === undefined ? source.text.length : source.text.indexOf(days[day + 1]!);
        const body = source.text.slice(head, next).split("\n").slice(0, -1);
        const from = Math.min(at, body.length);
        const start = head + body.slice(0, from).reduce((sum, line) => sum + line.length + 1, 0);
        const gone = body.slice(from, from + cut).reduce((sum, line) => sum + line.length + 1, 0);
        checked.take(source.edit(start, start + gone, written.map((line) => `  ${line}\n`).join("")));
        const anew = new CheckedLogbook();
        anew.set("log.tank", checked.logbook.sources.get("log.tank")!.text);
        expect(told(checked)).toEqual(told(anew));
      }
    }),
    { numRuns },
  );
}
