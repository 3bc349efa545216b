import { isoOf, spokenDay } from "../../book/dates.ts";
import { doseCaution } from "../../checks/doses.ts";
import { notifiableCaution } from "../../checks/sample-words.ts";
import {
  type Cell,
  caution,
  figure,
  type Part,
  type Report,
  type Section,
  table,
  text,
} from "../document.ts";
import type { LaboratorySheet } from "../laboratory-sheet.ts";
import { animalSections } from "./report-animals.ts";
import { careSections } from "./report-care.ts";
import { parcelSections } from "./report-parcel.ts";
import { blankLine, fieldTable, stillToFill } from "./report-parts.ts";
import { waterSections } from "./report-water.ts";
import { timeText } from "./treatments.ts";

/** The sheet as a report: to read, to keep, to print and to fill in by hand what the log does not say. */
export function laboratoryReport(sheet: LaboratorySheet): Report {
  const { room, day, closed, since, episode } = sheet;
  return {
    title: `Laboratory sheet: case ${sheet.case}`,
    about: [
      room,
      `as of ${spokenDay(day)}`,
      `${episode > 1 ? "opened again" : "opened"} ${spokenDay(since, day)}`,
      Number.isNaN(closed) ? "open" : `closed ${spokenDay(closed, day)}`,
    ]
      .filter(Boolean)
      .join(", "),
    sections: [
      senderSection(sheet),
      ...parcelSections(sheet),
      tankSection(sheet),
      ...animalSections(sheet),
      ...waterSections(sheet),
      ...careSections(sheet),
      treatmentSection(sheet),
      stillToFill(sheet),
    ],
  };
}

function senderSection({ keeper, parcel, disease }: LaboratorySheet): Section {
  return {
    title: "Sender and question",
    parts: [
      fieldTable([...keeper, parcel.laboratory, parcel.asked, disease.first]),
      caution(notifiableCaution),
    ],
  };
}

const tankSection = ({ tanks }: LaboratorySheet): Section => ({
  title: tanks.length === 1 ? "Tank" : "Tanks",
  ...(tanks.length > 1 ? { note: String(tanks.length) } : {}),
  parts:
    tanks.length === 0
      ? [text("No entry of the case names a tank: sick is written of the tank it is in."), blankLine("Tank")]
      : tanks.flatMap(({ name, hasSigns, fields }) => [
          ...(tanks.length > 1
            ? [
                text(
                  `${name}: ${hasSigns ? "animals showed signs" : "named by the case, no signs written"}`,
                  "strong",
                ),
              ]
            : []),
          fieldTable(fields),
        ]),
});

function treatmentSection({ treatments, baths }: LaboratorySheet): Section {
  const base = { title: "Treatments", note: "the last 90 days" };
  if (treatments.length === 0 && baths.length === 0)
    return { ...base, parts: [text("No dose and no bath is written down in this time.")] };
  return {
    ...base,
    parts: [
      ...treatments.flatMap(
        ({ of, remedy, title, active, strength, target, halfLife, now, doses, chart }): Part[] => [
          text(`${[remedy, title].filter(Boolean).join(", ")}, in ${of}`, "strong"),
          fieldTable([
            active,
            strength,
            ...(target === "" ? [] : [{ name: "Target, as stated", text: target, missing: "" }]),
            halfLife,
            {
              name: "In the water at the end of the day",
              text: now === "" ? "cannot be computed" : now,
              missing: "",
            },
          ]),
          table(
            ["When", "As written", figure("Before"), figure("After")],
            doses.map(({ time, text: words, before, after }): Cell[] => [
              timeText(time),
              words,
              before === "" ? "?" : before,
              after === "" ? "?" : after,
            ]),
          ),
          ...(chart === ""
            ? []
            : [
                {
                  is: "picture" as const,
                  svg: chart,
                  alt: `${remedy} in the water of ${of} over time, computed`,
                },
              ]),
        ],
      ),
      ...(baths.length === 0
        ? []
        : [
            table(
              ["Day", "Bath or dip, as written"],
              baths.map((bath): Cell[] => [isoOf(bath.day), bath.text]),
            ),
          ]),
      text(
        "Before and after: in the water, by what was dosed, the changes of water and the half-life where one is stated. What carbon, light and filters take away is not known.",
        "faint",
      ),
      caution(doseCaution),
    ],
  };
}
