import { isoOf } from "../../book/dates.ts";
import { doseCaution } from "../../checks/doses.ts";
import { type Cell, caution, type Part, type Section, table, text } from "../document.ts";
import { exposureCaution } from "../exposure-report.ts";
import type { LaboratorySheet } from "../laboratory-sheet.ts";
import { blankLine, fieldTable } from "./report-parts.ts";
import { timeText, treatmentDays } from "./treatments.ts";

/** What was given, and what else may have it. */

export function treatmentSection({ treatments, baths }: LaboratorySheet): Section {
  const base = { title: "Treatments", note: `the last ${treatmentDays} days` };
  if (treatments.length === 0 && baths.length === 0)
    return { ...base, parts: [text("No dose and no bath is written down in this time.")] };
  return {
    ...base,
    parts: [
      ...treatments.flatMap(({ of, remedy, title, state, fields, doses, chart, chartText }): Part[] => [
        text(`${[remedy, title].filter(Boolean).join(", ")}, in ${of}: ${state}`, "strong"),
        fieldTable(fields),
        table(
          ["Dose", "As written", "In the water after it, computed"],
          doses.map(({ time, amount, after }): Cell[] => [
            timeText(time),
            amount,
            after === "" ? "cannot be computed" : after,
          ]),
        ),
        ...(chart === "" ? [] : [{ is: "picture" as const, svg: chart, alt: chartText }]),
      ]),
      ...(baths.length === 0
        ? []
        : [
            table(
              ["Bath or dip", "Tank", "Animals", "In", "Strength and time"],
              baths.map((bath): Cell[] => [
                timeText(bath.time),
                bath.tank,
                bath.animals,
                bath.remedy,
                bath.text,
              ]),
            ),
          ]),
      text(
        "Computed: by what was dosed, the changes of water and the half-life where one is stated. What carbon, light and filters take away is not known. A bath is in a vessel apart.",
        "faint",
      ),
      caution(doseCaution),
    ],
  };
}

export function exposedSections({ exposed }: LaboratorySheet): Section[] {
  const { window, hold, back } = exposed;
  if (window === "")
    return [{ title: "Other tanks that may have it", parts: [blankLine("Tanks, and how they are linked")] }];
  return [
    {
      title: "Other tanks that may have it",
      note: window,
      parts: [
        hold.length === 0
          ? text("No written contact leads to another tank.")
          : table(
              ["Tank", "By", "Since", "How"],
              hold.map(({ tank, by, since, text: how }): Cell[] => [tank, by, isoOf(since), how]),
            ),
        back.length === 0
          ? text("No written contact leads to it from elsewhere.")
          : table(
              ["May have come from", "Last contact", "How"],
              back.map(({ name, last, text: how }): Cell[] => [name, isoOf(last), how]),
            ),
        text(exposureCaution, "faint"),
      ],
    },
  ];
}
