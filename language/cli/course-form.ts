import { clockOf, isoOf } from "../book/dates.ts";
import type { BathCard, CourseCard } from "../features/course-cards.ts";
import type { Location } from "../features/view.ts";
import type { BathReport, CourseReport } from "./schema/course.ts";
import type { Place } from "./schema/parts.ts";

/** Courses and baths in the form of `--json`. */

/** Places of the logbook's files: null for what has none. */
type At = (location: Location | null) => Place | null;

const timeOf = (time: number): string => `${isoOf(time)}T${clockOf(time)}`;
const dayOrNull = (day: number | null): string | null => (day === null ? null : isoOf(day));
const timed = <T extends { readonly time: number }>(items: readonly T[]) =>
  items.map(({ time, ...rest }) => ({ ...rest, time: timeOf(time) }));

export function courseOf(card: CourseCard, at: At): CourseReport {
  const { begin, end, target, doses, course, ahead, changes, parts, withdrawalEnd, published, ...rest } =
    card;
  const copies = (notes: readonly { readonly text: string; readonly source: string }[]) =>
    notes.map((note) => ({ ...note }));
  return {
    ...rest,
    begin: isoOf(begin),
    end: isoOf(end),
    target: target === null ? null : { ...target },
    doses: timed(doses).map((each) => ({ ...each, at: at(each.at) })),
    course: timed(course),
    ahead: timed(ahead),
    changes: timed(changes),
    parts: parts.map((each) => ({ ...each, at: at(each.at) })),
    withdrawalEnd: dayOrNull(withdrawalEnd),
    figures: { ...card.figures },
    topUps: card.topUps.map((each) => ({ ...each })),
    published:
      published === null
        ? null
        : {
            ...published,
            ranges: copies(published.ranges),
            notes: copies(published.notes),
            cautions: copies(published.cautions),
          },
    at: at(card.at)!,
  };
}

export function bathOf({ time, withdrawalEnd, at: location, ...rest }: BathCard, at: At): BathReport {
  return { ...rest, time: timeOf(time), withdrawalEnd: dayOrNull(withdrawalEnd), at: at(location) };
}
