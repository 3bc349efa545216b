import { courseSteps } from "../room/course-steps.ts";
import { intervalDays } from "../room/dose-courses.ts";
import type { Ledger } from "../room/ledger.ts";
import type { Logbook } from "../room/logbook.ts";
import { dayText } from "./card-parts.ts";
import type { DutyCard } from "./cards.ts";
import { stepReason, stepWords } from "./course-step-words.ts";
import { locationOf } from "./view.ts";

/** What the courses of a water owe beside their doses, once it is due; tests of the filter from the day of the dose. */
export function stepCards(logbook: Logbook, ledger: Ledger, day: number): DutyCard[] {
  return courseSteps(logbook, ledger, day)
    .filter(({ late, is }) => late >= 0 || is === "test")
    .map((step): DutyCard => {
      const { remedy, due, late } = step;
      return {
        act: stepWords(step),
        when: stepReason(step),
        of: ledger.body?.name ?? "",
        periodDays: intervalDays(remedy),
        last: null,
        due,
        late,
        times: 0,
        timesStated: 1,
        form: "every",
        text: late > 0 ? `${late} ${late === 1 ? "day" : "days"} late` : dayText(due, day),
        at: locationOf(remedy.place),
        lastAt: null,
      };
    });
}
