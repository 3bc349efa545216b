import { spokenDay } from "../book/dates.ts";
import { Kind } from "../book/entries/registry.ts";
import { keptCaution, keptWords, sampleWords } from "../checks/sample-words.ts";
import type { CaseStory } from "../room/case-book.ts";
import type { Logbook } from "../room/logbook.ts";
import {
  hasResult,
  journeyOf,
  type Sample,
  type SampleLog,
  type Stamped,
  samplesUntil,
} from "../room/samples.ts";
import { rowLocation } from "./card-parts.ts";
import type { CaseLineCard, CaseResultCard, CaseSampleCard } from "./case-cards.ts";
import { lineCard } from "./case-lines.ts";

/** Samples of a case with their way, results, and what is asked. */

/** Of one episode: a case that came back has samples of its own. */
function isOf({
  name,
  since,
  entries,
  afterwards,
}: CaseStory): (each: Stamped & { readonly case: string }) => boolean {
  const own = [...entries, ...afterwards];
  return (each) =>
    each.case === name &&
    each.day >= since &&
    own.some((entry) => entry.block === each.block && entry.row === each.row);
}

/** The samples of a case up to the end of a day. */
function samplesOf(logbook: Logbook, story: CaseStory, day: number): SampleLog {
  const { samples, steps, results, questions } = samplesUntil(logbook, day);
  const own = isOf(story);
  return {
    samples: samples.filter(own),
    steps: steps.filter(own),
    results: results.filter(own),
    questions: questions.filter(own),
  };
}

export function sampleCards(logbook: Logbook, story: CaseStory, day: number): CaseSampleCard[] {
  const log = samplesOf(logbook, story, day);
  return log.samples.map((sample) => {
    const journey = journeyOf(sample, log);
    return {
      text: [sampleWords(sample), keptWords(sample)].filter(Boolean).join(", "),
      day: sample.day,
      container: sample.container,
      laboratory: journey?.laboratory || sample.laboratory,
      state: stateOf(sample, log, day),
      steps: (journey?.steps ?? []).map((step) => lineCard({ ...step, kind: Kind.send }, "named")),
      caution: keptCaution(sample.kept),
      at: rowLocation(sample.block, sample.row),
    };
  });
}

/** `not sent`, `packed 4 March`, `received 6 March`, `result 9 March`. */
function stateOf(sample: Sample, log: SampleLog, day: number): string {
  const answer = log.results.find((result) => result.time >= sample.time);
  if (hasResult(sample, log) && answer !== undefined) return `result ${spokenDay(answer.day, day)}`;
  const journey = journeyOf(sample, log);
  const last = journey?.received ?? journey?.steps.at(-1);
  return last === undefined ? "not sent" : `${last.step} ${spokenDay(last.day, day)}`;
}

export const resultCards = (logbook: Logbook, story: CaseStory, day: number): CaseResultCard[] =>
  samplesOf(logbook, story, day).results.map((result) => ({
    day: result.day,
    outcome: result.outcome,
    note: result.note,
    at: rowLocation(result.block, result.row),
  }));

export const questionCards = (logbook: Logbook, story: CaseStory, day: number): CaseLineCard[] =>
  samplesOf(logbook, story, day).questions.map((asked) => ({
    ...lineCard({ ...asked, kind: Kind.ask }, "named"),
    text: asked.question,
  }));
