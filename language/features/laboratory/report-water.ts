import { isoOf } from "../../book/dates.ts";
import { type Cell, figure, type Section, table } from "../document.ts";
import type { LaboratorySheet } from "../laboratory-sheet.ts";
import { blank } from "./report-parts.ts";
import { longDays, type SheetWaterCard, type Summary, shortDays } from "./water.ts";

/** The water of each tank, or of what it shares: a table and the charts. */
export const waterSections = ({ waters }: LaboratorySheet): Section[] => waters.map(waterSection);

function waterSection({ of, rows, figures, charts }: SheetWaterCard): Section {
  const months = (range: string, { tests, outside }: Summary): string =>
    tests === 0 ? "none" : `${range} (${tests}${outside === 0 ? "" : `, ${outside} outside`})`;
  return {
    title: `Water of ${of}`,
    note: `the last ${shortDays} and ${longDays} days`,
    parts: [
      table(
        [
          "Parameter",
          "Latest",
          figure(`Median, ${shortDays}\u00a0d`),
          `Range (tests), ${shortDays}\u00a0d`,
          figure(`Median, ${longDays}\u00a0d`),
          `Range (tests), ${longDays}\u00a0d`,
          "Limit stated",
        ],
        rows.map(({ title, unit, latest, short, long, limit }): Cell[] => [
          unit === "" ? title : `${title}, ${unit}`,
          latest === null ? blank("not tested") : `${latest.text} (${isoOf(latest.day)})`,
          short.median,
          latest === null ? "" : months(short.range, short),
          long.median,
          latest === null ? "" : months(long.range, long),
          limit,
        ]),
      ),
      ...(figures.length === 0
        ? []
        : [
            table(
              ["Reckoned from the latest round", "Figure", "Round of"],
              figures.map(({ what, text: words, day: on }): Cell[] => [what, words, isoOf(on)]),
            ),
          ]),
      ...charts.map(({ svg, text: alt }) => ({ is: "picture" as const, svg, alt })),
    ],
  };
}
