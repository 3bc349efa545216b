import { isoOf } from "../../book/dates.ts";
import type { ExposureCard, HeldCard, ReachedCard, StepCard } from "../../features/exposure-cards.ts";
import type { Opened } from "../open.ts";
import type { ExposureReport } from "../schema.ts";
import { type At, dayOrNull, placesIn, timeOf } from "../tank/report.ts";

type LogbookExposures = ExposureReport["logbooks"][number];
type One = LogbookExposures["exposures"][number];

/** Exposures in the form of `--json`: days and times in ISO 8601, places as lines and columns. */
export function exposuresOf(opened: Opened, cards: readonly ExposureCard[], day: number): LogbookExposures {
  const at = placesIn(opened);
  return {
    folder: opened.folder,
    title: opened.checked.book.title,
    day: isoOf(day),
    exposures: cards.map((card) => oneOf(card, at)),
  };
}

function oneOf({ is: _, lanes: _lanes, arrows: _arrows, ...card }: ExposureCard, at: At): One {
  return {
    ...card,
    from: isoOf(card.from),
    day: isoOf(card.day),
    closed: dayOrNull(card.closed),
    origins: card.origins.map((each) => ({ ...each, day: isoOf(each.day), at: at(each.at) })),
    hold: card.hold.map((each) => heldOf(each, at)),
    past: card.past.map((each) => heldOf(each, at)),
    ended: card.ended.map((each) => ({
      ...each,
      since: timeOf(each.since),
      ended: timeOf(each.ended),
      at: at(each.at),
    })),
    tools: card.tools.map((each) => ({ ...each, since: timeOf(each.since), last: timeOf(each.last) })),
    forward: card.forward.map((each) => reachedOf(each, at)),
    back: card.back.map((each) => reachedOf(each, at)),
    beside: card.beside.map(({ source, reached }) => ({
      source,
      reached: reached.map((each) => reachedOf(each, at)),
    })),
    cuts: card.cuts.map((each) => ({ ...each, time: timeOf(each.time), at: at(each.at) })),
  };
}

const heldOf = (card: HeldCard, at: At): One["hold"][number] => ({
  ...card,
  since: timeOf(card.since),
  last: timeOf(card.last),
  steps: stepsOf(card.steps, at),
});

const reachedOf = (card: ReachedCard, at: At): One["forward"][number] => ({
  ...card,
  time: timeOf(card.time),
  steps: stepsOf(card.steps, at),
});

const stepsOf = (steps: readonly StepCard[], at: At): One["forward"][number]["steps"] =>
  steps.map((step) => ({ ...step, time: timeOf(step.time), at: at(step.at) }));
