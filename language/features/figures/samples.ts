import { type Block, rowOfId } from "../../book/source.ts";
import {
  elapsedText,
  journeyOf,
  type Sample,
  type SampleLog,
  type Stamped,
  samplesUntil,
} from "../../room/samples.ts";
import { type Why, whyEntry } from "../../room/why.ts";
import type { LineFigure, Row } from "./row.ts";

/** How long after they were taken samples went a step further, or a result came. */

const isAt =
  ({ block, id }: { readonly block: Block; readonly id: number }) =>
  (each: Stamped): boolean =>
    each.block === block && each.row === id;

export function sendFigure([row]: readonly Row[]): LineFigure | undefined {
  if (row === undefined) return undefined;
  const all = samplesUntil(row.checked.logbook, row.block.day);
  const step = all.steps.find(isAt(row));
  if (step === undefined) return undefined;
  const sent = all.samples.filter((sample) => journeyOf(sample, all)?.steps.includes(step) === true);
  return figureOf(sent, step);
}

export function resultFigure([row]: readonly Row[]): LineFigure | undefined {
  if (row === undefined) return undefined;
  const all = samplesUntil(row.checked.logbook, row.block.day);
  const result = all.results.find(isAt(row));
  if (result === undefined) return undefined;
  const own = all.samples.filter((each) => each.case === result.case && each.time <= result.time);
  return figureOf(sinceTheLastResult(own, all, result), result);
}

/** Samples that were taken after the result before: those before them were told then. */
function sinceTheLastResult(
  samples: readonly Sample[],
  { results }: SampleLog,
  result: Stamped & { readonly case: string },
) {
  const before = results.findLast((each) => each.case === result.case && each.time < result.time);
  const late = samples.filter(({ time }) => before === undefined || time > before.time);
  return late.length > 0 ? late : samples;
}

function figureOf(samples: readonly Sample[], at: Stamped): LineFigure | undefined {
  const first = samples[0];
  if (first === undefined) return undefined;
  const elapsed = elapsedText(first, at);
  const what = samples.length === 1 ? "it was taken" : "the first was taken";
  return {
    kind: "case",
    label: elapsed === "the same day" ? `${elapsed} as ${what}` : `${elapsed} after ${what}`,
    why: (): Why => ({
      what: "since the samples were taken",
      value: elapsed,
      formula: "from the line of the first sample to this one; in hours where both lines have a time of day",
      from: samples.filter(({ block, row }) => rowOfId(block, row) >= 0).map(whyEntry),
    }),
  };
}
