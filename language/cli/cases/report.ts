import { isoOf } from "../../book/dates.ts";
import type { CasebookCard, CaseCard, CaseLineCard } from "../../features/case-cards.ts";
import { caseItemOf } from "../case-form.ts";
import { bathOf, courseOf } from "../course-form.ts";
import { exposuresOf } from "../exposure/report.ts";
import type { Opened } from "../open.ts";
import type { CasesReport } from "../schema.ts";
import { type At, dayOrNull, placesIn, whyOf } from "../tank/report.ts";

/** Cases in the form of `--json`: days in ISO 8601, places as lines and columns. */

type LogbookCases = CasesReport["logbooks"][number];
type Whole = NonNullable<LogbookCases["case"]>;

/** @param isAll the closed cases too */
export function casebookOf(
  opened: Opened,
  { open, closed }: CasebookCard,
  isAll: boolean,
): Pick<LogbookCases, "open" | "closed"> {
  const at = placesIn(opened);
  return {
    open: open.map((each) => caseItemOf(each, at)),
    closed: isAll ? closed.map((each) => caseItemOf(each, at)) : [],
  };
}

export function caseOf(opened: Opened, card: CaseCard): Whole {
  const at = placesIn(opened);
  const { courses, exposure, day } = card;
  return {
    ...caseItemOf(card, at),
    episodes: card.episodes.map((each) => ({
      ...each,
      since: isoOf(each.since),
      closed: dayOrNull(each.closed),
    })),
    places: card.places.map((each) => ({ ...each })),
    rates: card.rates.map((rate) => ({ ...rate, why: whyOf(rate.why, at) })),
    unknown: card.unknown,
    curve: card.curve.map((each) => ({ ...each, day: isoOf(each.day) })),
    signs: card.signs.map((sign) => ({
      ...sign,
      first: isoOf(sign.first),
      last: isoOf(sign.last),
      at: at(sign.at),
    })),
    courses: courses.courses.map((each) => courseOf(each, at)),
    baths: courses.baths.map((each) => bathOf(each, at)),
    samples: card.samples.map((sample) => ({
      ...sample,
      day: isoOf(sample.day),
      steps: sample.steps.map((each) => lineOf(each, at)),
      at: at(sample.at),
    })),
    results: card.results.map((result) => ({ ...result, day: isoOf(result.day), at: at(result.at) })),
    questions: card.questions.map((each) => lineOf(each, at)),
    exposure: exposure === null ? null : exposuresOf(opened, [exposure], day).exposures[0]!,
    entries: card.entries.map((each) => lineOf(each, at)),
  };
}

const lineOf = (line: CaseLineCard, at: At): Whole["entries"][number] => ({
  ...line,
  day: isoOf(line.day),
  at: at(line.at),
});
