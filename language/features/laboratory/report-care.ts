import { isoOf } from "../../book/dates.ts";
import { formatNumber } from "../../quantity/format.ts";
import { type Cell, figure, type Part, type Section, table, text } from "../document.ts";
import type { LaboratorySheet } from "../laboratory-sheet.ts";
import { changesDays, feedingDays, sourcesDays } from "./care.ts";
import { eventDays } from "./events.ts";
import { blank, blankLine, fieldTable, stated } from "./report-parts.ts";

/** Where the water comes from, changes, feeding, and what was done before. */
export const careSections = (sheet: LaboratorySheet): Section[] => [
  sourceSection(sheet),
  changeSection(sheet),
  feedingSection(sheet),
  eventSection(sheet),
];

const sourceSection = ({ sources }: LaboratorySheet): Section => ({
  title: "Source of the water",
  note: `the last ${sourcesDays} days`,
  parts:
    sources.length === 0
      ? [text("No change of water is written down in this time."), blankLine("Source and treatment")]
      : [
          table(
            ["Water", figure("Times"), figure("Litres"), "Content stated, or tests of the tank it came from"],
            sources.map(({ name, title, times, litres, content, tests }): Cell[] => [
              [name, title].filter(Boolean).join(", "),
              String(times),
              formatNumber(litres),
              tests === "" ? stated(content) : tests,
            ]),
          ),
        ],
});

const changeSection = ({ changes }: LaboratorySheet): Section => ({
  title: "Changes of water",
  note: `the last ${changesDays} days`,
  parts:
    changes.length === 0
      ? [text("None is written down in this time.")]
      : [
          table(
            ["Day", "Of", "How much", "From"],
            changes.map(({ day: on, of, text: words, source, barrel }): Cell[] => [
              isoOf(on),
              of,
              words,
              [source, barrel === "" ? "" : `barrel ${barrel}`].filter(Boolean).join(", ") || blank(""),
            ]),
          ),
        ],
});

const feedingSection = ({ feedings }: LaboratorySheet): Section => ({
  title: "Feeding",
  note: `the last ${feedingDays} days`,
  parts:
    feedings.length === 0
      ? [blankLine("Food, how often, last fed")]
      : feedings.flatMap(({ tank, last, often, foods }): Part[] => [
          ...(feedings.length > 1 ? [text(tank, "strong")] : []),
          fieldTable([last, often]),
          ...(foods.length === 0
            ? []
            : [
                table(
                  ["Food", "Kind", figure("Times"), "Last"],
                  foods.map(({ food, title, kind, times, last: on }): Cell[] => [
                    [food, title].filter(Boolean).join(", "),
                    kind,
                    String(times),
                    isoOf(on),
                  ]),
                ),
              ]),
        ]),
});

const headings = { new: "What came in", care: "What was done", note: "Notes" } as const;

function eventSection({ events }: LaboratorySheet): Section {
  const base = { title: "What was added and done before", note: `the last ${eventDays} days` };
  if (events.length === 0) return { ...base, parts: [text("Nothing is written down in this time.")] };
  return {
    ...base,
    parts: [
      ...(["new", "care", "note"] as const).map((is) => {
        const own = events.filter((each) => each.is === is);
        return own.length === 0
          ? text(`${headings[is]}: nothing is written down.`)
          : table(
              ["Day", headings[is], figure("Times")],
              own.map(({ day: on, text: words, times }): Cell[] => [
                isoOf(on),
                words,
                times === 1 ? "" : String(times),
              ]),
            );
      }),
      ...(events.some(({ is }) => is === "note")
        ? [text("Notes are as they were written: read them before the sheet leaves the room.", "faint")]
        : []),
    ],
  };
}
