import type { Book } from "../book/book.ts";
import type { Remedy, Species } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";
import { isAboutAsMany } from "../room/about.ts";
import { type Bath, bathsOf, heldBeforeBath } from "../room/baths.ts";
import type { Ledger } from "../room/ledger.ts";
import type { Logbook } from "../room/logbook.ts";
import { whyEntry, whyStated } from "../room/why.ts";
import { page } from "./code.ts";
import { doseCaution, stated } from "./doses.ts";
import { usedExpired } from "./expiries.ts";
import type { RowFinding } from "./observe.ts";
import { concentration } from "./words.ts";

/** Baths against what the keeper stated of the remedy as a bath. The ceiling is for the water of a tank and is not applied. */

const prelude = `species praecox
species horn
  kind snail
remedy salt
  ceiling 3 g/L
  bath 10..30 g/L for 1..10 min
  harms snail
tank q1
  volume 50 L
2026-03-01
  q1 arrive praecox 6
  q1 arrive horn 2
`;
const right = `${prelude}  q1 bath praecox 3 with salt 15 g/L for 10 min`;

export const bathPages = [
  page({
    code: "bath/above",
    severity: "warning",
    since: "0.3",
    title: "The bath is stronger than stated",
    says: "The concentration in the vessel is above the range you stated for a bath in this remedy.",
    whatToDo:
      "Take the animals out into clean, aerated water of their tank. Check amount and volume, and ask a veterinarian.",
    raises: `${prelude}  q1 bath praecox 3 with salt 320 g for 5 min volume 8 L
#                             ^^^^^ bath/above`,
    fine: `${prelude}  q1 bath praecox 3 with salt 240 g for 5 min volume 8 L`,
  }),
  page({
    code: "bath/below",
    severity: "information",
    since: "0.3",
    title: "The bath is weaker than stated",
    says: "The concentration in the vessel is below the range you stated for a bath in this remedy, by more than five per cent.",
    whatToDo: "Check amount and volume against the label.",
    raises: `${prelude}  q1 bath praecox 3 with salt 5 g/L for 5 min
#                             ^^^^^ bath/below`,
    fine: right,
  }),
  page({
    code: "bath/too-long",
    severity: "warning",
    since: "0.3",
    title: "The bath is longer than stated",
    says: "The time written is longer than the longest you stated for a bath in this remedy.",
    whatToDo:
      "Take the animals out when they roll, gasp or lie down, whatever the clock says. Ask a veterinarian.",
    raises: `${prelude}  q1 bath praecox 3 with salt 15 g/L for 15 min
#                                        ^^^^^^ bath/too-long`,
    fine: right,
  }),
  page({
    code: "bath/unknown",
    severity: "information",
    since: "0.3",
    title: "The bath cannot be computed",
    says: "Something is missing to say how strong the bath is: the volume of the vessel, the strength of the product, the volume of a drop.",
    whatToDo:
      "Write the volume of the vessel (volume 8 L), or state the strength in the definition of the remedy.",
    raises: `${prelude}  q1 bath praecox 3 with salt 120 g for 5 min
#                             ^^^^^ bath/unknown`,
    fine: `${prelude}  q1 bath praecox 3 with salt 120 g for 5 min volume 8 L`,
  }),
  page({
    code: "bath/harms",
    severity: "warning",
    since: "0.3",
    title: "The remedy harms what is bathed",
    says: "You stated that the remedy harms this species, or animals of its kind or with one of its traits.",
    whatToDo: "Take them out, and ask a veterinarian for another way.",
    raises: `${prelude}  q1 bath horn 2 with salt 15 g/L for 5 min
#         ^^^^ bath/harms`,
    fine: right,
  }),
  page({
    code: "bath/not-there",
    severity: "warning",
    since: "0.3",
    title: "More bathed than there are",
    says: "By the book fewer of the species are in the tank than were bathed.",
    whatToDo: "Check tank, species and number; if the book is wrong, write a count above the bath.",
    raises: `${prelude}  q1 bath praecox 8 with salt 15 g/L for 5 min
#                 ^ bath/not-there`,
    fine: right,
  }),
] as const;

/** What was weighed within five per cent is as stated: the volume of no vessel is known better. Common practice. */
const tolerance = 0.05;

/** The findings of the baths of one water's animals up to the end of a day: they follow from its own entries alone. */
export const bathFindings = (logbook: Logbook, ledger: Ledger, day: number): RowFinding[] =>
  bathsOf(logbook, ledger, day).flatMap((bath) => findingsOfBath(logbook, bath));

function findingsOfBath(logbook: Logbook, bath: Bath): RowFinding[] {
  return [
    ...strengthFindings(bath),
    ...timeFindings(bath),
    ...harmFindings(logbook.book, bath),
    ...numberFindings(logbook, bath),
    ...expiredFindings(bath),
  ];
}

function expiredFindings({ row, remedy }: Bath): RowFinding[] {
  const found = usedExpired({ ...row, row: row.id }, remedy, "remedy");
  return found === undefined ? [] : [found];
}

type More = Pick<RowFinding, "code" | "slots" | "message">;

function finding(bath: Bath, severity: "warning" | "information", more: More): RowFinding {
  const { row, remedy, words, unknown } = bath;
  const at = { block: row.block, row: row.id };
  return {
    ...more,
    ...at,
    severity: () => severity,
    related: () => [stated(remedy)],
    why: () => ({
      what: `bath in ${remedy.name}`,
      value: unknown === "" ? `${words} = ${strength(bath.concentration, remedy.unit)}` : unknown,
      formula: "mass of the active part / volume of the vessel",
      source: "Masser & Jensen 1991, SRAC 410, Calculating treatments for ponds and tanks",
      from: [whyEntry(at), whyStated(remedy.place)],
    }),
  };
}

function strengthFindings(bath: Bath): RowFinding[] {
  const { remedy, concentration: level, unknown } = bath;
  if (unknown !== "")
    return [
      finding(bath, "information", {
        code: "bath/unknown",
        slots: ["amount"],
        message: () => `how strong this bath is cannot be computed: ${unknown}`,
      }),
    ];
  const { bathLow, bathHigh } = remedy;
  const isOne = bathLow === bathHigh;
  const isAbove = level > bathHigh * (1 + (isOne ? tolerance : 1e-9));
  if (!isAbove && !(level < bathLow * (1 - tolerance))) return [];
  return [
    finding(bath, isAbove ? "warning" : "information", {
      code: isAbove ? "bath/above" : "bath/below",
      slots: ["amount"],
      message: () =>
        `a bath of ${strength(level, remedy.unit)} ${remedy.name}: ${isAbove ? "above" : "below"} the ${bathRange(remedy)} you stated. ${doseCaution}`,
    }),
  ];
}

/** `10..30 g/L`. */
export function bathRange({ bathLow, bathHigh, unit }: Remedy): string {
  if (bathLow === bathHigh) return strength(bathLow, unit);
  const inGrams = unit === "mg/L" && bathHigh >= 1000;
  return `${formatNumber(inGrams ? bathLow / 1000 : bathLow)}..${strength(bathHigh, unit)}`;
}

/** A strength as baths are told: grams where there are many milligrams. */
export const strength = (level: number, unit: Remedy["unit"]): string =>
  unit === "mg/L" && level >= 1000 ? concentration(level / 1000, "g/L") : concentration(level, unit);

function timeFindings(bath: Bath): RowFinding[] {
  const { remedy, highMinutes } = bath;
  if (!(highMinutes > remedy.bathHighMinutes * (1 + 1e-9))) return [];
  return [
    finding(bath, "warning", {
      code: "bath/too-long",
      slots: ["time"],
      message: () =>
        `a bath of ${formatNumber(highMinutes)} min in ${remedy.name}: longer than the ${formatNumber(remedy.bathHighMinutes)} min you stated. ${doseCaution}`,
    }),
  ];
}

function harmFindings(book: Book, bath: Bath): RowFinding[] {
  const { remedy } = bath;
  const species: Species | undefined = book.species.get(bath.species);
  if (species === undefined || !remedy.harms.some((word) => species.traits.has(word))) return [];
  return [
    {
      ...finding(bath, "warning", {
        code: "bath/harms",
        slots: ["species"],
        message: () =>
          `${remedy.name} is stated to harm ${remedy.harms.join(", ")}: ${species.name} is one of them. ${doseCaution}`,
      }),
      related: () => [stated(remedy), { place: species.place, message: species.name }],
    },
  ];
}

function numberFindings(logbook: Logbook, bath: Bath): RowFinding[] {
  const { animals, species, tanks } = bath;
  return tanks.flatMap((tank): RowFinding[] => {
    const there = heldBeforeBath(logbook.ledgerOf(tank), tank, bath);
    if (there === undefined || !(animals > there.animals)) return [];
    if (there.isAbout && isAboutAsMany(animals, there.animals)) return [];
    return [
      {
        ...finding(bath, "warning", {
          code: "bath/not-there",
          slots: ["animals"],
          message: () =>
            `${formatNumber(animals, 6)} ${species} of ${tank.name} were bathed; the book has ${formatNumber(there.animals, 6)} there`,
        }),
        why: () => ({
          what: `${species} in ${tank.name} by the book`,
          value: formatNumber(there.animals, 6),
          from: [whyEntry(there.at)],
        }),
        about: tank,
      },
    ];
  });
}
