import { spokenDay } from "../../book/dates.ts";
import { notifiableCaution } from "../../checks/sample-words.ts";
import { caution, type Report, type Section, text } from "../document.ts";
import type { LaboratorySheet } from "../laboratory-sheet.ts";
import { animalSections } from "./report-animals.ts";
import { careSections } from "./report-care.ts";
import { parcelSections } from "./report-parcel.ts";
import { blankLine, fieldTable, stillToFill } from "./report-parts.ts";
import { exposedSections, treatmentSection } from "./report-treatments.ts";
import { waterSections } from "./report-water.ts";

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
      ...exposedSections(sheet),
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
      : tanks.flatMap(({ name, hasSigns, isMovedTo, fields }) => [
          ...(tanks.length > 1
            ? [
                text(
                  `${name}: ${hasSigns ? "animals showed signs" : isMovedTo ? "sick animals were moved here" : "named by the case, no signs written"}`,
                  "strong",
                ),
              ]
            : []),
          fieldTable(fields),
        ]),
});
