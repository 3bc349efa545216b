import { clockOf, isoOf, spokenDay } from "../book/dates.ts";
import { formatNumber } from "../quantity/format.ts";
import { casesUntil } from "../room/cases.ts";
import { keptFor } from "../room/kept-for-logbook.ts";
import type { Logbook } from "../room/logbook.ts";
import {
  hasLeft,
  hasResult,
  hoursBetween,
  journeyOf,
  type Sample,
  type SampleLog,
  type Step,
  samplesUntil,
} from "../room/samples.ts";
import { placeOfRow, type Why, whyEntry } from "../room/why.ts";
import { page } from "./code.ts";
import type { Finding, Fix } from "./finding.ts";
import type { RowFinding } from "./observe.ts";
import { atEndOfDay } from "./offers.ts";
import { frozenText, sampleWords, strengthText } from "./sample-words.ts";

/** Samples against what a laboratory can use. */

/** Volumes of fixative to one of tissue, at least. */
const leastVolumes = 10;
/** What counts as “about 10 %” formalin, or the same said as formaldehyde: a fifth to either side, our own reading of “about”. */
const formalinPercent = { low: 8, high: 12 };
const formaldehydePercent = { low: 3.2, high: 4.8 };
const leastEthanolPercent = 70;
/** On wet ice at most. */
const chilledHours = 36;
/** A fixed or frozen sample waits; for so long it is not asked about. Our own choice. */
const keptDays = 14;

const prelude = `species praecox
tank q1
  volume 48 L
`;

export const samplePages = [
  page({
    code: "sample/ratio",
    severity: "warning",
    since: "0.3",
    title: "Too little fixative",
    says: "There are less than 10 volumes of formalin or ethanol to one of tissue. The tissue's own water thins it, the middle rots, and the laboratory may see nothing.",
    whatToDo: "Move the sample to a larger jar and top up, then write how many volumes there are.",
    raises: `${prelude}2026-03-01
  q1 sample gill 2 kept formalin volumes 5
#                                        ^ sample/ratio`,
    fine: `${prelude}2026-03-01
  q1 sample gill 2 kept formalin volumes 10`,
    source:
      "Formalin: instructions for histology of a Norwegian fish laboratory, tissue to 10 % neutral buffered formalin at least 1 to 10. Ethanol for PCR: WOAH, Manual of Diagnostic Tests for Aquatic Animals, at least 10 volumes (recalled).",
  }),
  page({
    code: "sample/strength",
    severity: "warning",
    since: "0.3",
    title: "Fixative of an unusual strength",
    says: "Tissue for histology is fixed in about 10 % neutral buffered formalin, which is about 4 % formaldehyde: the stock solution of 37 to 40 % hardens it, a weak one lets it rot. Ethanol below 70 % does not keep nucleic acids for PCR.",
    whatToDo:
      "Correct the figure if it was written wrongly. If not, ask the laboratory before you send it, and say so.",
    raises: `${prelude}2026-03-01
  q1 sample gill 2 kept formalin at 37 %
#                                   ^^^^ sample/strength
  q1 sample fin 1 kept ethanol at 40 %
#                                 ^^^^ sample/strength`,
    fine: `${prelude}2026-03-01
  q1 sample gill 2 kept formalin at 10 %
  q1 sample gill 1 kept formalin at 4 % "formaldehyde, buffered"
  q1 sample fin 1 kept ethanol at 70 %`,
    source:
      "Formalin: instructions for histology of a Norwegian fish laboratory; what counts as about so much, a fifth to either side, is our own reading. Ethanol: 70 to 95 %, WOAH aquatic manual (recalled).",
  }),
  page({
    code: "sample/frozen",
    severity: "information",
    since: "0.3",
    title: "Only a frozen sample",
    says: "A frozen sample is of no use for histology, bacteriology and most parasites; it suits PCR and virology. Nothing else of the case is kept in another way, and the line does not say that it is for one of these.",
    whatToDo:
      "Ask the laboratory. While animals are sick, take one alive, chilled or in formalin as well; or say in the text that it is for PCR or a virus.",
    raises: `${prelude}2026-03-01
  q1 sick praecox 2 of 9 case fins
  q1 sample whole 2 of praecox kept frozen case fins
#                                   ^^^^^^ sample/frozen`,
    fine: `${prelude}2026-03-01
  q1 sick praecox 2 of 9 case fins
  q1 sample whole 2 of praecox kept frozen case fins
  q1 sample gill 2 of praecox kept formalin case fins
  q1 sample fin 1 kept frozen "for PCR"
  q1 sample water 1 kept frozen`,
    source: "An animal-health training book, sample types and what they suit.",
  }),
  page({
    code: "sample/late",
    severity: "information",
    since: "0.3",
    title: "Chilled for long",
    says: "A chilled sample was on its way more than 36 hours after it was taken. What is found in it then, or not found, tells less: bacteria of decay have grown over what made the animal sick.",
    whatToDo: "Tell the laboratory when it was taken. Send chilled samples at the beginning of a week.",
    raises: `${prelude}2026-03-01
  08:00 q1 sample whole 1 kept chilled case fins
#                              ^^^^^^^ sample/late
2026-03-02
  16:00 room send fins by "courier"
2026-03-03
  09:00 room send fins received`,
    fine: `${prelude}2026-03-01
  20:00 q1 sample whole 1 kept chilled case fins
2026-03-02
  16:00 room send fins by "courier"
2026-03-03
  08:00 room send fins received`,
    source: "A leaflet of the fish laboratory of the state of Maine: on wet ice, up to 12 to 36 hours.",
  }),
  page({
    code: "sample/unsent",
    severity: "warning",
    since: "0.3",
    title: "Sample that nothing says was sent",
    says: "It was taken for a laboratory, and no line says that it was handed over or sent. On ice or alive it is of use for a day and a half; a fixed or frozen one is asked about after two weeks.",
    whatToDo: "Send it, and write `send` with the case; or write that it was, on the day it left.",
    raises: `${prelude}2026-03-01
  q1 sick praecox 2 of 9 case fins
  q1 sample skin 1 kept chilled case fins to "state laboratory"
#                                            ^^^^^^^^^^^^^^^^^^ sample/unsent
2026-03-04
  q1 feed flake`,
    fine: `${prelude}2026-03-01
  q1 sick praecox 2 of 9 case fins
  q1 sample skin 1 kept chilled case fins to "state laboratory"
  q1 sample gill 1 kept formalin case fins to "state laboratory"
2026-03-02
  room send fins
2026-03-04
  q1 feed flake`,
    source:
      "A leaflet of the fish laboratory of the state of Maine: on wet ice, up to 12 to 36 hours. Two weeks for what is fixed is our own choice.",
  }),
] as const;

const severityOf = (code: (typeof samplePages)[number]["code"]) =>
  samplePages.find((each) => each.code === code)!.severity;

/** By the ledger of the station a sample was taken at; kept until the log or the day is another. */
export function sampleFindings(logbook: Logbook, day: number): ReadonlyMap<number, readonly RowFinding[]> {
  return keptFor(logbook, `sample findings ${day}`, () => {
    const found = new Map<number, RowFinding[]>();
    const all = samplesUntil(logbook, Number.POSITIVE_INFINITY);
    if (all.samples.length === 0) return found;
    // A case that is over asks for no parcel any more.
    const open = new Set(
      casesUntil(logbook, day)
        .filter(({ closed }) => Number.isNaN(closed))
        .map(({ name }) => name),
    );
    for (const sample of all.samples) {
      const at = logbook.ledgerNumber(sample.stations[0]!);
      const findings = [...ownFindings(sample, all), ...wayFindings(logbook, sample, all, day, open)];
      if (findings.length > 0) found.set(at, [...(found.get(at) ?? []), ...findings]);
    }
    return found;
  });
}

const atSample = ({ block, row }: Sample, code: (typeof samplePages)[number]["code"], slot: string) => ({
  code,
  block,
  row,
  slots: [slot],
  severity: () => severityOf(code),
});

function* ownFindings(sample: Sample, { samples }: SampleLog): Iterable<RowFinding> {
  const { kept, volumes, strengthLow, strengthHigh, block, material } = sample;
  const isFixed = kept === "formalin" || kept === "ethanol";
  if (isFixed && volumes < leastVolumes)
    yield {
      ...atSample(sample, "sample/ratio", "volumes"),
      message: () =>
        `${formatNumber(volumes)} volumes of ${kept} to one of tissue: at least ${leastVolumes} are asked for`,
      fixes: ({ start, end }): Fix[] => [
        {
          title: `It was topped up: write “${leastVolumes}”`,
          edits: [{ block, start, end, text: String(leastVolumes) }],
          isSure: false,
        },
      ],
    };
  if (isUnusual(sample))
    yield {
      ...atSample(sample, "sample/strength", "strength"),
      message: () =>
        kept === "formalin"
          ? `formalin at ${strengthText(strengthLow, strengthHigh)}: about 10 % neutral buffered formalin, which is about 4 % formaldehyde, is usual for histology`
          : `ethanol at ${strengthText(strengthLow, strengthHigh)}: at least ${leastEthanolPercent} % is asked for`,
    };
  if (kept !== "frozen" || material === "water" || /\bPCR\b|vir(?:us|al|ology)/i.test(sample.note)) return;
  const others = samples.some(
    (each) =>
      each.case === sample.case &&
      each.case !== "" &&
      each.material !== "water" &&
      ["live", "chilled", "formalin"].includes(each.kept),
  );
  if (!others)
    yield {
      ...atSample(sample, "sample/frozen", "kept"),
      message: () => frozenText,
      fixes: () => purposeFixes(sample),
    };
}

/** Says what it is for, where the line has no text yet. */
function purposeFixes({ block, row, note }: Sample): Fix[] {
  const place = placeOfRow(block, row);
  if (place === undefined || note !== "") return [];
  return ["for PCR", "for virology"].map((text) => ({
    title: `It is ${text}: say so`,
    edits: [{ block, start: place.end, end: place.end, text: ` "${text}"` }],
    isSure: false,
  }));
}

/** Whether all of the strength that is stated lies apart from what is usual. */
function isUnusual({ kept, strengthLow, strengthHigh }: Sample): boolean {
  if (Number.isNaN(strengthLow)) return false;
  if (kept === "ethanol") return strengthLow < leastEthanolPercent;
  const within = ({ low, high }: { low: number; high: number }): boolean =>
    strengthLow >= low && strengthHigh <= high;
  return kept === "formalin" && !within(formalinPercent) && !within(formaldehydePercent);
}

function* wayFindings(
  logbook: Logbook,
  sample: Sample,
  all: SampleLog,
  day: number,
  open: ReadonlySet<string>,
): Iterable<RowFinding> {
  const journey = journeyOf(sample, all);
  const { kept, laboratory } = sample;
  const last = journey?.received ?? (hasLeft(journey) ? journey?.left : undefined);
  if (kept === "chilled" && last !== undefined && hoursBetween(sample, last).least > chilledHours)
    yield {
      ...atSample(sample, "sample/late", "kept"),
      message: () =>
        `chilled, and ${last.step === "received" ? "received" : last.step === "handed" ? "handed over" : "sent"} ${lateText(sample, last)} after it was taken: on ice a sample is of use for ${chilledHours} h at most`,
      related: () => placesOf(last),
      why: () => whyLate(sample, last),
    };
  if (laboratory === "" || hasLeft(journey) || hasResult(sample, all)) return;
  if (sample.case !== "" && !open.has(sample.case)) return;
  const isPerishable = kept === "chilled" || kept === "live";
  // A day is a day: it is late when it must be, whatever the time of day.
  const waited = hoursBetween(sample, { time: day, isTimed: true }).least;
  if (waited <= (isPerishable ? chilledHours : keptDays * 24)) return;
  yield {
    ...atSample(sample, "sample/unsent", "laboratory"),
    message: () =>
      `${sampleWords(sample)}, taken ${spokenDay(sample.day, day)} for ${laboratory}: nothing says that it was sent`,
    fixes: () => sendFix(logbook, sample),
  };
}

const lateText = (sample: Sample, step: Step): string => {
  const { least, most } = hoursBetween(sample, step);
  const minutes = Math.round(least * 60);
  const text = `${Math.floor(minutes / 60)} h${minutes % 60 === 0 ? "" : ` ${minutes % 60} min`}`;
  return least === most ? text : `at least ${text}`;
};

function whyLate(sample: Sample, step: Step): Why {
  const time = ({ isTimed, time: at }: Sample | Step): string =>
    isTimed ? `${isoOf(at)} ${clockOf(at)}` : `${isoOf(at)}, at some time of the day`;
  return {
    what: "time on ice",
    value: lateText(sample, step),
    formula: "from when it was taken to when it was received, or else sent; the least that the times allow",
    from: [
      { ...whyEntry(sample), value: time(sample) },
      { ...whyEntry(step), value: time(step) },
    ],
  };
}

/** The line that says so, at the end of the last day: the keeper may move it to the day on which it left. */
function sendFix(logbook: Logbook, sample: Sample): readonly Fix[] {
  const block = logbook.dayGroups.at(-1)?.blocks.at(-1);
  if (block === undefined || sample.case === "") return [];
  const name = /^[\p{L}][\p{L}\p{M}\p{N}_-]*$/u.test(sample.case) ? sample.case : "";
  const to = `"${sample.laboratory.replace(/[\\"]/g, "\\$&")}"`;
  return name === "" ? [] : [atEndOfDay(block, `room send ${name} to ${to}`)];
}

function placesOf({ block, row }: Step): Finding["related"] {
  const place = placeOfRow(block, row);
  return place === undefined ? [] : [{ place, message: "when it arrived, or left" }];
}
