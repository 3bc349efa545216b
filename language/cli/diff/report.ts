import { isoOf } from "../../book/dates.ts";
import type { Location } from "../../features/view.ts";
import type { Change, Side } from "../../history/review/changes.ts";
import { tanksOf } from "../../history/review/groups.ts";
import type { Caused, Review } from "../../history/review/review.ts";
import { changeText } from "../../history/review/words.ts";
import { linePlace } from "../place.ts";
import type { Revision } from "../repository/repository.ts";
import type { DiffReport } from "../schema.ts";

type LogbookDiff = DiffReport["logbooks"][number];

/** So many changes of a consequence are named: in a water with thousands all of them are no cause any more. */
const changesTold = 100;

/** A review in the form of `--json`. @param shown how a path of the repository is told */
export function diffOf(review: Review, folder: string, shown: (path: string) => string): LogbookDiff {
  const { title, day, counts, files, list, consequences } = review;
  return {
    folder: shown(folder),
    title,
    day: isoOf(day),
    counts,
    files: files.map(({ is, path, from }) => ({
      is,
      file: shown(path),
      from: from === "" ? "" : shown(from),
    })),
    changes: list.map((change) => changeReport(change, tanksMeant(change, review), day, shown)),
    consequences: consequences.map((each) => consequenceOf(each, review, shown)),
  };
}

export function revisionReport(revision: Revision): DiffReport["from"] {
  return { is: revision.is, name: revision.name, commit: revision.is === "commit" ? revision.id : null };
}

/** @param tanks the tanks that its group means; near the day whose year needs no saying */
export function changeReport(
  change: Change,
  tanks: readonly string[],
  near: number,
  shown: (path: string) => string,
): LogbookDiff["changes"][number] {
  const { is, what, station, definition, word, parts } = change;
  return {
    is,
    what,
    of: definition || station,
    tanks: [...tanks],
    day: isoOrNull(change.day),
    word,
    text: changeText(change, near),
    parts: parts.map(({ about, before, after }) => ({ about, before: before ?? null, after: after ?? null })),
    before: sideOf(change.before, shown),
    after: sideOf(change.after, shown),
  };
}

/** Of a definition none. */
function tanksMeant({ definition, station }: Change, { before, after }: Review): string[] {
  return definition === "" && station !== "" ? tanksOf(station, after.book, before.book) : [];
}

function sideOf(
  side: Side | undefined,
  shown: (path: string) => string,
): LogbookDiff["changes"][number]["before"] {
  if (side === undefined) return null;
  const { path, number, text, day, time } = side;
  return { file: shown(path), line: number, text, day: isoOrNull(day), time };
}

function consequenceOf(
  each: Caused,
  review: Review,
  shown: (path: string) => string,
): LogbookDiff["consequences"][number] {
  const { is, of, text, before, after, tone, code, severity, isSmall, at, side, by } = each;
  const nearest = by.list(changesTold);
  return {
    is,
    of,
    text,
    before,
    after,
    tone,
    code: code === "" ? null : code,
    severity: severity === "" ? null : severity,
    isSmall,
    side,
    place: placeOf(at, review, side, shown),
    changes: nearest,
    moreChanges: by.count - nearest.length,
  };
}

function placeOf(
  at: Location | null,
  review: Review,
  side: "before" | "after",
  shown: (path: string) => string,
): LogbookDiff["consequences"][number]["place"] {
  const source = at === null ? undefined : review[side].logbook.sources.get(at.path);
  return at === null || source === undefined
    ? null
    : { file: shown(at.path), ...linePlace(source, at.start, at.end) };
}

const isoOrNull = (day: number): string | null => (Number.isNaN(day) ? null : isoOf(day));
