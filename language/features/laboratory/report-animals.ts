import { isoOf, spokenDay } from "../../book/dates.ts";
import { formatNumber } from "../../quantity/format.ts";
import { type Cell, figure, type Section, table, text } from "../document.ts";
import type { LaboratorySheet } from "../laboratory-sheet.ts";
import { blank, blankLine, stated } from "./report-parts.ts";

/** The animals: how many, the course of the disease, what died, how they came. */
export const animalSections = (sheet: LaboratorySheet): Section[] => [
  animalSection(sheet),
  diseaseSection(sheet),
  lossSection(sheet),
  historySection(sheet),
];

function animalSection({ animals }: LaboratorySheet): Section {
  if (animals.length === 0)
    return {
      title: "Animals",
      parts: [
        text("The book has no animals in these tanks: a count says what is there."),
        blankLine("Animals"),
      ],
    };
  const isSick = ({ sick, atRisk }: (typeof animals)[number]): boolean => sick !== "" || atRisk !== "";
  return {
    title: "Animals",
    parts: [
      table(
        [
          "Tank",
          "Species",
          figure("Before"),
          figure("At risk"),
          figure("Sick"),
          figure("Dead"),
          figure("There now"),
        ],
        animals.map((row): Cell[] => [
          row.tank,
          [row.species, row.title].filter(Boolean).join(", "),
          row.before === "" ? "?" : row.before,
          row.atRisk === "" ? (isSick(row) ? "?" : "") : row.atRisk,
          row.sick === "" ? "" : { text: row.sick, tone: "strong" },
          String(row.dead),
          row.now === "" ? "?" : row.now,
        ]),
      ),
      text(
        "Before: by the book when the day of the first sign began. At risk and sick: as the latest entry says; empty where no sign is written of the species. Dead: since that day, without culls and what is missing. ? is not known.",
        "faint",
      ),
      table(
        ["Tank", "Species", "Age", "Size"],
        animals.map(({ tank, species, age, size }): Cell[] => [tank, species, stated(age), stated(size)]),
      ),
    ],
  };
}

function diseaseSection({ disease }: LaboratorySheet): Section {
  const { course, signs, otherSigns } = disease;
  const base = { title: "Course and signs" };
  if (course.length === 0)
    return { ...base, parts: [text("No entry says which animals were sick."), blankLine("Signs")] };
  const said = (value: number): string => (Number.isNaN(value) ? "" : formatNumber(value, 6));
  return {
    ...base,
    parts: [
      table(
        ["Day", "Tank", "Species", figure("Sick"), figure("At risk"), figure("New"), "Signs, as written"],
        course.map((row): Cell[] => [
          isoOf(row.day),
          row.tank,
          [row.species, row.lot === "" ? "" : `lot ${row.lot}`].filter(Boolean).join(", "),
          `${row.isAbout ? "~" : ""}${said(row.affected)}`,
          said(row.atRisk),
          said(row.fresh),
          [row.signs, row.note].filter(Boolean).join("; ") || blank(""),
        ]),
      ),
      ...(signs.length === 0
        ? []
        : [
            table(
              ["Site", "Sign", "What is seen", "First", "Last"],
              signs.map(({ site, sign, gloss, first, last }): Cell[] => [
                site,
                sign,
                gloss,
                isoOf(first),
                isoOf(last),
              ]),
            ),
          ]),
      ...(disease.rates.length === 0
        ? []
        : [
            table(
              ["Rate", "Figure, with the interval of Wilson 1927 (95 %)"],
              disease.rates.map((rate): Cell[] => [rate.title, rate.text]),
            ),
          ]),
      ...(disease.unknown === "" ? [] : [text(`No attack rate: ${disease.unknown}`, "faint")]),
      ...(otherSigns.length === 0 ? [] : [text(`In other words: ${otherSigns.join("; ")}.`)]),
    ],
  };
}

function lossSection({ disease, since, day }: LaboratorySheet): Section {
  const { losses, lossDaysBefore, chart } = disease;
  const title = "Losses by day";
  const note = `from ${lossDaysBefore} days before the first sign`;
  if (losses.length === 0)
    return { title, note, parts: [text(`No loss is written down of these tanks in this time.`)] };
  const deaths = losses.filter((each) => each.isDeath && each.day >= since);
  const total = deaths.reduce((sum, { animals }) => sum + animals, 0);
  return {
    title,
    note,
    parts: [
      table(
        ["Day", "Tank", "Species", figure("Animals"), "How", "Note"],
        losses.map((loss): Cell[] => [
          isoOf(loss.day),
          loss.tank,
          loss.species,
          formatNumber(loss.animals, 6),
          loss.how,
          loss.note,
        ]),
      ),
      text(
        `Dead since ${spokenDay(since, day)}: ${formatNumber(total, 6)}, without culls and what is missing.`,
      ),
      ...(chart === ""
        ? []
        : [{ is: "picture" as const, svg: chart, alt: "Deaths by day; the table has the same" }]),
    ],
  };
}

const mostArrivals = 40;

function historySection({ arrivals }: LaboratorySheet): Section {
  const base = { title: "How the animals came", note: "the last 365 days" };
  if (arrivals.length === 0)
    return {
      ...base,
      parts: [
        text(
          "Nothing is written down as having come in this time: arrive has the supplier, the lot and the day.",
        ),
        blankLine("Source and day of arrival"),
      ],
    };
  const shown = arrivals.slice(0, mostArrivals);
  return {
    ...base,
    parts: [
      table(
        ["Day", "How", "Species", figure("Animals"), "Into", "From", "Lot", "Quarantine"],
        shown.map((row): Cell[] => [
          isoOf(row.day),
          row.how,
          row.species,
          row.deadOnArrival > 0
            ? `${formatNumber(row.animals, 6)} (${formatNumber(row.deadOnArrival, 6)} dead)`
            : formatNumber(row.animals, 6),
          row.tank,
          row.from === "" && row.how === "arrived"
            ? blank("")
            : [row.from, row.carrier === "" ? "" : `by ${row.carrier}`].filter(Boolean).join(", "),
          row.lot,
          row.apart,
        ]),
      ),
      ...(arrivals.length > shown.length
        ? [text(`… ${arrivals.length - shown.length} before`, "faint")]
        : []),
    ],
  };
}
