import { keptWords, sampleWords } from "../../checks/sample-words.ts";
import {
  type CustodyStep,
  elapsedText,
  hasResult,
  journeyOf,
  type Sample,
  type SampleLog,
  type Stamped,
  type Step,
  samplesUntil,
} from "../../room/samples.ts";
import { type Field, field } from "./field.ts";
import type { SheetScope } from "./scope.ts";

/** What is in the box, where it has been, what came of it, and what is asked. */
export interface SheetParcel {
  readonly samples: readonly SheetSample[];
  readonly custody: readonly SheetStep[];
  readonly results: readonly { readonly day: number; readonly outcome: string; readonly text: string }[];
  readonly questions: readonly string[];
  readonly laboratory: Field;
  readonly asked: Field;
  /** Fixatives among the samples: each has its caution. */
  readonly hasFormalin: boolean;
  readonly hasEthanol: boolean;
}

export interface SheetSample {
  readonly time: number;
  readonly isTimed: boolean;
  readonly tank: string;
  readonly material: string;
  readonly species: string;
  /** NaN where it is not stated, as below. */
  readonly count: number;
  /** `2 gill of praecox`. */
  readonly text: string;
  readonly kept: string;
  /** `in formalin at 10 %, 20 volumes`. */
  readonly keptText: string;
  readonly strengthLow: number;
  readonly strengthHigh: number;
  readonly volumes: number;
  readonly container: string;
  readonly laboratory: string;
  readonly note: string;
  /** The last that is written of it. */
  readonly state: "taken" | CustodyStep | "result";
  /** What its kind of fixing needs and its line does not say. */
  readonly missing: readonly string[];
}

export interface SheetStep {
  readonly step: "taken" | CustodyStep;
  readonly time: number;
  readonly isTimed: boolean;
  /** Samples, or to whom. */
  readonly what: string;
  readonly carrier: string;
  readonly note: string;
  /** Since the line above it; empty for the first. */
  readonly since: string;
}

export function sheetParcel({ logbook, story, day }: SheetScope): SheetParcel {
  const all = samplesUntil(logbook, day);
  const isOwn = ({ case: name, day: on }: { readonly case: string; readonly day: number }): boolean =>
    name === story.name && on >= story.since;
  const own: SampleLog = {
    samples: all.samples.filter(isOwn),
    steps: all.steps.filter(isOwn),
    results: all.results.filter(isOwn),
    questions: all.questions.filter(isOwn),
  };
  const laboratories = new Set(own.samples.map(({ laboratory }) => laboratory));
  for (const { to, step } of own.steps) if (step === "sent" && to !== "") laboratories.add(to);
  laboratories.delete("");
  return {
    samples: own.samples.map((sample) => sampleOf(sample, own)),
    custody: custodyOf(own),
    results: own.results.map(({ day: on, outcome, note }) => ({ day: on, outcome, text: note })),
    questions: own.questions.map(({ question, note }) => [question, note].filter(Boolean).join(" ")),
    laboratory: field(
      "Laboratory",
      [...laboratories].join(", "),
      `“to” of a sample, or of “send ${story.name}”`,
    ),
    asked: field(
      "Wanted",
      own.questions.map(({ question }) => question).join(" "),
      `ask ${story.name} "parasitology, bacteriology, histology, PCR: what is wanted"`,
    ),
    hasFormalin: own.samples.some(({ kept }) => kept === "formalin"),
    hasEthanol: own.samples.some(({ kept }) => kept === "ethanol"),
  };
}

function sampleOf(sample: Sample, log: SampleLog): SheetSample {
  const { time, isTimed, stations, material, species, count, kept, container, laboratory, note } = sample;
  const { strengthLow, strengthHigh, volumes } = sample;
  const last = journeyOf(sample, log)?.steps.at(-1)?.step;
  const isFixed = kept === "formalin" || kept === "ethanol";
  const lacking: readonly (readonly [string, boolean])[] = [
    ["number", Number.isNaN(count)],
    ["of which animals", species === "" && material !== "water"],
    ["how it is kept", kept === ""],
    ["strength", isFixed && Number.isNaN(strengthLow)],
    ["volumes to one of tissue", isFixed && Number.isNaN(volumes)],
    ["container", container === ""],
  ];
  return {
    time,
    isTimed,
    tank: stations.map(({ name }) => name).join(", "),
    material,
    species,
    count,
    text: sampleWords(sample),
    kept,
    keptText: keptWords(sample),
    strengthLow,
    strengthHigh,
    volumes,
    container,
    laboratory,
    note,
    state: hasResult(sample, log) ? "result" : (last ?? "taken"),
    missing: lacking.filter(([, isMissing]) => isMissing).map(([what]) => what),
  };
}

/** Each time samples were taken, then each step, in order. */
function custodyOf({ samples, steps }: SampleLog): SheetStep[] {
  const taken = new Map<number, Sample[]>();
  for (const sample of samples) taken.set(sample.time, [...(taken.get(sample.time) ?? []), sample]);
  const lines: (Omit<SheetStep, "since"> & { readonly at: Stamped })[] = [
    ...[...taken.values()].map((together) => ({
      ...stampOf(together[0]!),
      step: "taken" as const,
      what: together.map(sampleWords).join(", "),
      carrier: "",
      note: "",
    })),
    ...steps.map((step: Step) => ({
      ...stampOf(step),
      step: step.step,
      what: step.to,
      carrier: step.carrier,
      note: step.note,
    })),
  ].sort((a, b) => a.time - b.time);
  return lines.map(({ at, ...line }, index) => ({
    ...line,
    since: index === 0 ? "" : elapsedText(lines[index - 1]!.at, at),
  }));
}

const stampOf = (at: Stamped) => ({ at, time: at.time, isTimed: at.isTimed });
