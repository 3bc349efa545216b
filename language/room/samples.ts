import { Kind } from "../book/entries/registry.ts";
import { entryOf } from "../book/entry.ts";
import { Col, choiceOfRow, floatsPerRow, intsPerRow, kindOfRow } from "../book/facts.ts";
import { wordOf } from "../book/interner.ts";
import type { Value } from "../book/reading.ts";
import type { Block } from "../book/source.ts";
import type { Station } from "../book/stations.ts";
import type { Logbook } from "./logbook.ts";
import { type LogRow, rowFinder } from "./rare-rows.ts";

/** Samples for a laboratory, with what became of them: each step a line, the chain of custody. */

/** An entry with the day, and the time of day where one is known. */
export interface Stamped {
  readonly day: number;
  /** In days. */
  readonly time: number;
  /** False for a line without a time of its own: it was at some time of its day, whenever it counts. */
  readonly isTimed: boolean;
  readonly block: Block;
  /** The number by which the row is referred to. */
  readonly row: number;
  /** The text at the end of its line. */
  readonly note: string;
}

export const keptWays = ["live", "chilled", "frozen", "formalin", "ethanol"] as const;
export type KeptWay = (typeof keptWays)[number];

export interface Sample extends Stamped {
  /** Empty where none is named. */
  readonly case: string;
  readonly material: string;
  /** Of which animals; empty where it is not stated. */
  readonly species: string;
  /** NaN where it is not stated, as all figures here. */
  readonly count: number;
  readonly kept: KeptWay | "";
  /** Of the fixative, in percent; of a range its ends, of one figure the same twice. */
  readonly strengthLow: number;
  readonly strengthHigh: number;
  /** Volumes of fixative to one of tissue. */
  readonly volumes: number;
  readonly container: string;
  readonly laboratory: string;
  /** Where it was taken: of a group each of its tanks. */
  readonly stations: readonly Station[];
}

export const custodySteps = ["packed", "handed", "sent", "received"] as const;
export type CustodyStep = (typeof custodySteps)[number];

export interface Step extends Stamped {
  readonly case: string;
  readonly step: CustodyStep;
  /** A laboratory, or to whom. */
  readonly to: string;
  readonly carrier: string;
}

export interface Result extends Stamped {
  readonly case: string;
  readonly outcome: "positive" | "negative" | "inconclusive" | "";
}

export interface Question extends Stamped {
  readonly case: string;
  readonly question: string;
}

/** One parcel of a case, from packing to its receipt. */
export interface Journey {
  /** Where it goes; empty where no step names it. */
  readonly laboratory: string;
  readonly steps: readonly Step[];
  /** When it left the keeper's hands, as far as is written. */
  readonly left: Step;
  readonly received: Step | undefined;
}

/** What the log says of the samples of all cases up to the end of a day, in order of time. */
export interface SampleLog {
  readonly samples: readonly Sample[];
  readonly steps: readonly Step[];
  readonly results: readonly Result[];
  readonly questions: readonly Question[];
}

const findRows = rowFinder((facts, row) => isOfSamples.has(kindOfRow(facts, row)));
const isOfSamples: ReadonlySet<number> = new Set([Kind.sample, Kind.send, Kind.result, Kind.ask]);

export function samplesUntil(logbook: Logbook, day: number): SampleLog {
  const samples: Sample[] = [];
  const steps: Step[] = [];
  const results: Result[] = [];
  const questions: Question[] = [];
  for (const row of findRows(logbook, day)) {
    const stations = stationsOf(logbook, row);
    // What is written of nothing that is defined does not count.
    if (stations.length === 0) continue;
    const name = wordOf(row.facts.ints[row.row * intsPerRow + Col.object]!);
    if (row.kind === Kind.sample) samples.push(sampleOf(logbook, row, name, stations));
    else if (row.kind === Kind.send) steps.push(stepOf(row, name));
    else if (row.kind === Kind.ask) {
      const { stamped, text } = read(row);
      questions.push({ ...stamped, case: name, question: text("question") });
    } else {
      const outcome = (["", "positive", "negative", "inconclusive"] as const)[choice(row)] ?? "";
      results.push({ ...read(row).stamped, case: name, outcome });
    }
  }
  return { samples, steps, results, questions };
}

const choice = ({ facts, row }: LogRow): number => choiceOfRow(facts, row);

function stationsOf({ book }: Logbook, { facts, row }: LogRow): readonly Station[] {
  const target = facts.ints[row * intsPerRow + Col.target]!;
  if (target < 0) return book.groupTanks(~target) ?? [];
  const station = book.station(target);
  return station === undefined ? [] : [station];
}

/** The line of a row: texts and rare figures stand in no column. */
function read({ day, time, block, id }: LogRow) {
  const entry = entryOf(block, id);
  const note = entry?.line.is === "entry" ? (entry.line.note?.text ?? "") : "";
  const isTimed = entry?.line.time !== undefined;
  const stamped: Stamped = { day, time, isTimed, block, row: id, note };
  const value = (slot: string): Value | undefined => entry?.item[slot];
  return { stamped, value, text: (slot: string): string => value(slot)?.text ?? "" };
}

function sampleOf({ book }: Logbook, row: LogRow, name: string, stations: readonly Station[]): Sample {
  const { stamped, text, value } = read(row);
  const { facts } = row;
  const strength = value("strength");
  const percent = (figure: number): number =>
    strength === undefined ? Number.NaN : 100 * book.units.canonical(figure, strength.unit, "fraction");
  const high = percent(strength?.second ?? Number.NaN);
  const low = percent(strength?.value ?? Number.NaN);
  return {
    ...stamped,
    case: name,
    material: wordOf(facts.ints[row.row * intsPerRow + Col.subject]!),
    species: text("species"),
    count: facts.floats[row.row * floatsPerRow]!,
    kept: choice(row) === 0 ? "" : (keptWays[choice(row) - 1] ?? ""),
    strengthLow: low,
    strengthHigh: Number.isNaN(high) ? low : high,
    volumes: value("volumes")?.value ?? Number.NaN,
    container: text("container"),
    laboratory: text("laboratory"),
    stations,
  };
}

function stepOf(row: LogRow, name: string): Step {
  const { stamped, text } = read(row);
  const step = choice(row) === 0 ? "sent" : (custodySteps[choice(row) - 1] ?? "sent");
  return { ...stamped, case: name, step, to: text("laboratory"), carrier: text("carrier") };
}

/**
 * The parcels of a case. A step belongs to the latest parcel that has not taken it yet and goes to no other laboratory; where there is
 * none a new one begins.
 * @param laboratories those that samples of the case name: who else a step is `to` took it in hand
 */
export function journeysOf(steps: readonly Step[], laboratories: ReadonlySet<string>): Journey[] {
  const open: { laboratory: string; steps: Step[] }[] = [];
  for (const step of steps) {
    const laboratory = laboratories.has(step.to) ? step.to : "";
    const found = open.findLast(
      (each) =>
        each.steps.every((taken) => taken.step !== step.step && taken.step !== "received") &&
        step.step !== "packed" &&
        (laboratory === "" || each.laboratory === "" || each.laboratory === laboratory),
    );
    if (found === undefined) open.push({ laboratory, steps: [step] });
    else {
      found.steps.push(step);
      found.laboratory ||= laboratory;
    }
  }
  return open.map(({ laboratory, steps: taken }) => {
    const of = (word: CustodyStep): Step | undefined => taken.find(({ step }) => step === word);
    return {
      laboratory,
      steps: taken,
      left: of("sent") ?? of("handed") ?? of("packed") ?? taken[0]!,
      received: of("received"),
    };
  });
}

/** The parcel that a sample went with: the first of its case that left after it was taken, and not to another laboratory. */
export function journeyOf(sample: Sample, { samples, steps }: SampleLog): Journey | undefined {
  const isOfCase = (each: { readonly case: string }): boolean => each.case === sample.case;
  const laboratories = new Set(samples.filter(isOfCase).map((each) => each.laboratory));
  laboratories.delete("");
  return journeysOf(steps.filter(isOfCase), laboratories).find(
    ({ left, laboratory }) =>
      left.time >= sample.time &&
      (laboratory === "" || sample.laboratory === "" || laboratory === sample.laboratory),
  );
}

/** Whether it is known to be out of the keeper's hands: packed alone is not. */
export const hasLeft = (journey: Journey | undefined): boolean =>
  journey?.steps.some(({ step }) => step !== "packed") === true;

/** Whether its animals are those of a laboratory result: then it has arrived, whatever is written of the way. */
export const hasResult = (sample: Sample, { results }: SampleLog): boolean =>
  sample.case !== "" && results.some((result) => result.case === sample.case && result.time >= sample.time);

/** Hours between two entries: the least and the most it can be, as an entry without a time of day was at any time of it. */
export function hoursBetween(
  from: Pick<Stamped, "time" | "isTimed">,
  to: Pick<Stamped, "time" | "isTimed">,
): { readonly least: number; readonly most: number } {
  const ends = ({ time, isTimed }: Pick<Stamped, "time" | "isTimed">): [number, number] =>
    isTimed ? [time, time] : [Math.floor(time), Math.floor(time) + 1];
  const [early, late] = ends(from);
  const [first, last] = ends(to);
  return { least: 24 * Math.max(0, first - late), most: 24 * Math.max(0, last - early) };
}

/** `40 min`, `5 h`, `the same day`, `3 days`: as fine as the times of day allow. */
export function elapsedText(from: Stamped, to: Stamped): string {
  const { least, most } = hoursBetween(from, to);
  if (least === most && most < 72) return most < 2 ? `${Math.round(60 * most)} min` : `${Math.round(most)} h`;
  const count = to.day - from.day;
  return count === 0 ? "the same day" : count === 1 ? "1 day" : `${count} days`;
}
