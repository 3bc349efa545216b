import { spokenDay } from "../../book/dates.ts";
import { Kind, kindOf } from "../../book/entries/registry.ts";
import { wordOf } from "../../book/interner.ts";
import { parameters } from "../../book/parameters.ts";
import type { Duty, Station, Tank } from "../../book/stations.ts";
import { doseCaution } from "../../checks/doses.ts";
import { dueNotes } from "../../checks/due-words.ts";
import { concentration, days } from "../../checks/words.ts";
import type { DueDuty } from "../../room/due.ts";
import { targetOf } from "../course-card.ts";
import type { Stop, Work } from "../day-round.ts";
import type { DueEntry } from "../due-entries.ts";
import { litresText } from "../litres-text.ts";
import { locationOf, type View } from "../view.ts";
import type { Trouble } from "../water-troubles.ts";
import type { BoardTask } from "./board-card.ts";
import { dutyMatters, rhythmMatters, testMatters } from "./matters.ts";
import { countWay, courseWay, holdingsToCount, stationNamed, testWay, type Ways, waysOf } from "./ways.ts";

/** What is to do at a stop of the round, a task for each line that would say it is done. */

/** @param owed what courses owe there */
export function tasksAt(
  view: View,
  stop: Stop,
  owed: readonly DueEntry[],
  troubles: readonly Trouble[],
  day: number,
): BoardTask[] {
  const tasks = owed.map((entry) => courseTask(view, entry, day));
  for (const works of together(stop.work)) {
    const [first] = works;
    if (first !== undefined) tasks.push(dutyTask(view, works, first, troubles, day));
  }
  return mergeLike(tasks);
}

/** Tests of one place are one line, and so are counts. */
function together(work: readonly Work[]): Work[][] {
  const groups = new Map<string, Work[]>();
  for (const each of work) {
    const { duty, station } = each.due;
    const isOne = duty.kind === Kind.test || (duty.kind === Kind.count && station.kind === "tank");
    const key = isOne ? `${station.name} of ${duty.kind}` : `${station.name} ${duty.id}`;
    const known = groups.get(key);
    if (known === undefined) groups.set(key, [each]);
    else known.push(each);
  }
  return [...groups.values()];
}

function dutyTask(
  view: View,
  works: readonly Work[],
  first: Work,
  troubles: readonly Trouble[],
  day: number,
): BoardTask {
  const latest = works.reduce((a, b) => (b.due.late > a.due.late ? b : a)).due;
  const { duty, station } = first.due;
  const duties = works.map(({ due }) => due.duty);
  const { target, ways, why } = contentOf(view, duties, latest, station, troubles, day);
  const notes = dueNotes(view.checked.book, latest, day);
  return {
    key: `${station.name} ${kindOf(duty.kind).word} ${duties.map(({ act }) => act).join("; ")}`,
    target,
    kind: kindOf(duty.kind).word,
    ways,
    late: latest.late,
    when: whenText(latest),
    last: Number.isFinite(latest.last) ? `done ${spokenDay(Math.floor(latest.last), day)}` : "never done",
    why: [why, ...notes].filter((part) => part !== "").join("; "),
    litres: litresText(first.litres),
    caution: "",
    place: locationOf(duty.place),
  };
}

function contentOf(
  view: View,
  duties: readonly Duty[],
  latest: DueDuty,
  station: Station,
  troubles: readonly Trouble[],
  day: number,
): Ways & { readonly why: string } {
  const [duty] = duties as [Duty];
  const own = { target: station.name };
  if (duty.kind === Kind.test) {
    const names = [...new Set(duties.flatMap(parametersOf))];
    return {
      ...own,
      ways: [testWay(view, station, names, day)],
      why: testMatters(view, station, names, day),
    };
  }
  if (duty.kind === Kind.count && station.kind === "tank") {
    const holdings = holdingsToCount(view, station as Tank, duties);
    if (holdings.length > 0)
      return { ...own, ways: [countWay(holdings)], why: rhythmMatters(view, duty, day) };
  }
  return { ...waysOf(view, station, duty, day), why: dutyMatters(view, latest, troubles, day) };
}

const parametersOf = ({ subjects, act }: Duty): string[] =>
  subjects === undefined
    ? [act.replace(/^test\s*/, "")]
    : [...subjects].flatMap((id) => parameters[id]?.name ?? wordOf(id));

export function whenText({ duty, late, times }: DueDuty): string {
  const { form } = duty;
  const counted = form.when === "every" ? "" : `${times} of ${form.times} in ${days(form.periodDays)}`;
  if (late > 0) return [`${days(late)} late`, counted].filter(Boolean).join(", ");
  return counted === "" ? "today" : counted;
}

function courseTask(view: View, entry: DueEntry, day: number): BoardTask {
  const { target, words, kind, late, reason, dose } = entry;
  const station = stationNamed(view, target);
  const place = dose?.remedy.place;
  return {
    // How much is owed changes with the water: of a dose, and what goes before it, the key does not.
    key:
      dose === undefined
        ? `${target} course ${words} ${reason}`
        : `${target} course ${kindOf(kind).word} ${dose.remedy.name} ${dose.number}`,
    target,
    kind: kindOf(kind).word,
    ways: [courseWay(view, station, entry, day)],
    late,
    when: late > 0 ? `${days(late)} late` : "today",
    last: "",
    why: [doseText(entry), dose === undefined || kind !== Kind.dose || dose.changeOwed > 0 ? reason : ""]
      .filter((part) => part !== "" && part !== "due today")
      .join("; "),
    litres: "",
    caution: kind === Kind.dose ? doseCaution : "",
    place: place === undefined ? null : locationOf(place),
  };
}

function doseText({ dose, kind }: DueEntry): string {
  if (dose === undefined || kind !== Kind.dose) return "";
  const { remedy, now, number } = dose;
  const target = targetOf(remedy);
  const there = Number.isFinite(now)
    ? `${concentration(now, remedy.unit)} in the water`
    : "what is in the water cannot be computed";
  return [`dose ${number} of ${remedy.repeatTimes}`, there, target === null ? "" : `target ${target.text}`]
    .filter(Boolean)
    .join(", ");
}

/** Duties that the same line does are one task: `clean front-glass, gravel` does both its parts. */
function mergeLike(tasks: readonly BoardTask[]): BoardTask[] {
  const merged: BoardTask[] = [];
  for (const task of tasks) {
    const words = (each: BoardTask): string => `${each.target} ${each.ways[0]!.words}`;
    const at = merged.findIndex(
      (each) =>
        words(each) === words(task) && each.ways[0]!.blanks.length === 0 && task.ways[0]!.blanks.length === 0,
    );
    const known = merged[at];
    if (known === undefined) merged.push(task);
    else {
      const later = task.late > known.late ? task : known;
      merged[at] = {
        ...later,
        key: `${known.key}; ${task.key}`,
        why: known.why === "" ? task.why : known.why,
      };
    }
  }
  return merged;
}
