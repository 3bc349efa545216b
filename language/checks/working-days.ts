import { page } from "./code.ts";

/** What the room states of its keeper's days, where it makes no sense. The findings are made where the room is bound. */

export const workingDayPages = [
  page({
    code: "definition/away",
    severity: "error",
    since: "0.3",
    title: "An absence that ends before it begins",
    says: "The last day away lies before the first, or two first days are stated, so the absence does not count as it stands.",
    whatToDo: "Correct one of the two days.",
    raises: `room "Cellar"\n  away from 2026-04-10 until 2026-04-03\n#                            ^^^^^^^^^^ definition/away`,
    fine: `room "Cellar"\n  away from 2026-04-03 until 2026-04-10`,
  }),
  page({
    code: "definition/away-twice",
    severity: "warning",
    since: "0.4",
    title: "Absences that overlap",
    says: "Some days lie in two absences. They are away once, with the reason of the one that begins first; what either has covered is covered.",
    whatToDo: "Correct a day, or make one absence of the two.",
    raises: `room "Cellar"
  away from 2026-04-03 until 2026-04-10
  away from 2026-04-09 until 2026-04-12
# ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ definition/away-twice`,
    fine: `room "Cellar"
  away from 2026-04-03 until 2026-04-10
  away from 2026-04-11 until 2026-04-12`,
  }),
  page({
    code: "definition/off",
    severity: "warning",
    since: "0.4",
    title: "Every day of the week is off",
    says: "If nobody ever works, nothing can be due. None of the weekdays counts as off until one is left.",
    whatToDo:
      "Take out the days on which somebody works. Whole weeks away are written with their days: away from 2026-04-03 until 2026-04-10.",
    raises: `room "Cellar"
  off monday, tuesday, wednesday, thursday, friday
  off saturday, sunday
# ^^^^^^^^^^^^^^^^^^^^ definition/off`,
    fine: `room "Cellar"
  off monday, tuesday, wednesday, thursday, friday
  off saturday`,
  }),
  page({
    code: "definition/capacity",
    severity: "error",
    since: "0.4",
    title: "A capacity that is stated twice",
    says: "A line of capacity says each of tanks, litres and minutes once. Weekdays at its end are for all of it; other days have a line of their own.",
    whatToDo: "Write two lines.",
    raises: `room "Cellar"
  capacity 7 tanks, 3 tanks on sunday
#                   ^ definition/capacity`,
    fine: `room "Cellar"
  capacity 7 tanks
  capacity 3 tanks on sunday`,
  }),
] as const;
