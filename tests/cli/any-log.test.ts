import fc from "fast-check";
import { expect, test } from "vitest";
import { checkReport, tankReport, todayReport } from "../../language/cli/schema.ts";
import { widthOf } from "../../language/cli/text.ts";
import { sarif } from "./sarif-form.ts";
import { atDesk } from "./support.ts";

/** Logs of lines that are right, half right and wrong, in any order. */
const line = fc.constantFrom(
  'room "Shed"',
  "  as-of  last-entry",
  "  capacity  2 tanks, 50 L",
  "system sump",
  "  sump  20 L",
  "tank a",
  "tank b",
  "tank a",
  "  volume  100 L",
  "  volume  -3 L",
  "  inside  0 x 0 x 0 cm",
  "  system  sump",
  "  role  quarantine",
  "  limits  nitrate <= 25 mg/L, pH 8..6, temperature 0..0 C",
  "  every  7 d change 30 %",
  "  every  1 d feed a",
  "  at least  3 per 7 d feed frozen",
  "group all = a .. b, c",
  "remedy x",
  "  target  2 mg/L",
  "  repeat  3 times every 0.1 d",
  "  half-life  0 d",
  "  withdrawal  9 d",
  "2026-03-01",
  "2026-03-09",
  "1999-13-01",
  "2999-12-31",
  "  a  change 30 %",
  "  @all  change 300 %",
  "  a  test nitrate 10, pH 7",
  "  a  test nitrate <5",
  "  sump  test nitrate >100",
  "  a  test nitrate 1e9",
  "  b  dose x 100 mg",
  "  23:59 b  dose x 3 drops",
  "  a  sick guppy 3 of 2 case c-1",
  "  b  close c-1",
  "  a  count guppy ~0",
  "  a  move guppy 5 -> b",
  '  a  note "水\u001b[31m',
  "  sheet  temperature  nitrate",
  "    a  1  -",
  "",
  "\t\ufeff",
);
const jumble = fc.array(line, { maxLength: 40 });

/** A log that has its form: definitions with some properties each, then days in order. */
const heads = ["room", "system sump", "tank a", "tank b", "remedy x", "gear pump"];
const entry = line.filter((each) => /^ {2}(\d|@|a |b |sump )/.test(each));
const property = line.filter((each) => /^ {2}[a-z-]+ +\S/.test(each) && !/^ {2}(a|b|sump) /.test(each));
const formed = fc
  .tuple(
    fc.tuple(...heads.map((head) => fc.array(property, { maxLength: 5 }).map((said) => [head, ...said]))),
    fc.array(fc.tuple(fc.integer({ min: 1, max: 28 }), fc.array(entry, { maxLength: 5 })), { maxLength: 12 }),
  )
  .map(([definitions, days]) => [
    ...definitions.flat(),
    ...days.flatMap(([day, entries]) => [`2026-03-${String(day).padStart(2, "0")}`, ...entries]),
  ]);

const log = fc
  .tuple(fc.oneof(jumble, formed), fc.constantFrom("\n", "\r\n", "\r"))
  .map(([lines, end]) => lines.join(end));

const desk = { columns: 60, env: { NO_COLOR: "1" } };

test("any log is told in every form, without a fault and within the window", async () => {
  await fc.assert(
    fc.asyncProperty(log, async (input) => {
      const asked = async (...words: string[]) => atDesk([...words, "-"], { ...desk, input });
      checkReport.parse(JSON.parse((await asked("check", "--json", "--severity", "hint")).out));
      sarif.parse(JSON.parse((await asked("check", "--format", "sarif", "--severity", "hint")).out));
      todayReport.parse(JSON.parse((await asked("today", "--json")).out));
      for (const words of [["check", "--severity", "hint"], ["today"], ["tank", "a"]]) {
        const { out } = await asked(...words);
        for (const each of out.split("\n")) expect(widthOf(each)).toBeLessThanOrEqual(60);
      }
      const { status, out } = await asked("tank", "a", "--json");
      if (status === 0) tankReport.parse(JSON.parse(out));
      expect((await asked("format")).status).toBe(0);
    }),
    { numRuns: 150 },
  );
});
