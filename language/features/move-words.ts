import { spokenDay } from "../book/dates.ts";
import type { MoveWhy, TakenBy } from "../room/planner/moves.ts";
import type { PlannedWork } from "../room/planner/plan.ts";
import { jobText } from "./plan-fit.ts";

/** Why the plan moved work, in words: what can be read from the problem, and no more. */

const resources = { tanks: "tanks", litres: "litres", minutes: "minutes" } as const;
/** So many are named. */
const mostNamed = 3;

/** `the tanks of 9 March are full with a clean, not done on 8 March`; empty where nothing was moved from a day. */
export function moveText({ why, movedFrom }: Pick<PlannedWork, "why" | "movedFrom">, today: number): string {
  if (why === undefined) return "";
  const day = spokenDay(movedFrom, today);
  switch (why.is) {
    case "away":
      return `nobody works on ${day}${why.reason === "" ? "" : `: ${why.reason}`}`;
    case "follows":
      return `due by when it is done before, now on ${spokenDay(why.day, today)}`;
    case "holds no more":
      return `${day} has no room for it in its ${resources[why.of]}`;
    case "full":
      return `the ${resources[why.of]} of ${day} are full${takenText(why, today)}`;
    case "waits less":
      return `${day} would hold it, but the work of all days waits less so`;
  }
}

function takenText({ by }: Extract<MoveWhy, { is: "full" }>, today: number): string {
  const named = by.slice(0, mostNamed).map((each) => takerText(each, today));
  if (named.length === 0) return "";
  const more = by.length > named.length ? ` and ${by.length - named.length} more` : "";
  return ` with ${named.join("; ")}${more}`;
}

function takerText({ job, since }: TakenBy, today: number): string {
  const name = jobText(job);
  switch (since?.is) {
    case "its day":
      return `${name}, which has its day`;
    case "moved":
      return `${name}, moved there`;
    case "done":
      return `${name}, done on ${spokenDay(since.day, today)} and so planned anew`;
    case "missed":
      return `${name}, not done on ${spokenDay(since.day, today)}`;
    case "new":
      return `${name}, new`;
    case undefined:
      return name;
  }
}
