import { dayOf, spokenDay, weekdayName } from "../../book/dates.ts";
import { Kind } from "../../book/entries/registry.ts";
import { linesOf } from "../../book/entry.ts";
import type { Station } from "../../book/stations.ts";
import { formatNumber } from "../../quantity/format.ts";
import { capacityOn } from "../../room/capacity.ts";
import { placeOf } from "../../room/due.ts";
import { handOrder, isDirtier } from "../../room/hand-order.ts";
import { handCases } from "../../room/reached-by-cases.ts";
import { actsInShort, type PlacedAct } from "../acts-in-short.ts";
import { stationLocation } from "../card-parts.ts";
import { roundOver, type Stop, withReminders } from "../day-round.ts";
import { blocksOn } from "../definition.ts";
import { courseEntries, type DueEntry } from "../due-entries.ts";
import { electricCaution, isElectric } from "../electric-caution.ts";
import { litresText } from "../litres-text.ts";
import { ordersToPack } from "../orders-to-pack.ts";
import { type PlanCardDay, type PlanCardJob, planCard } from "../plan-card.ts";
import { isAnythingTested } from "../round-sheet.ts";
import { locationOf, type View } from "../view.ts";
import { type Trouble, waterTroubles } from "../water-troubles.ts";
import { absenceLines } from "./absence.ts";
import type { BoardCard, BoardDay, BoardDone, BoardSection, BoardStop, BoardTask } from "./board-card.ts";
import { feedTasks } from "./feeds.ts";
import { loadOn } from "./load.ts";
import { mergeLines } from "./merges.ts";
import {
  broodLines,
  caseLines,
  expiryLines,
  orderLines,
  quarantineLines,
  remedyLines,
  waterLines,
} from "./sections.ts";
import { tasksAt } from "./tasks.ts";
import { unseenLines } from "./unseen.ts";
import { stationNamed } from "./ways.ts";

/** What to do today, in the order of the round, and what to know while doing it. */

/** So many days after today are told. */
const aheadDays = 14;

export function boardCard(view: View): BoardCard {
  const { checked, worldDay } = view;
  checked.refresh();
  const { logbook, book } = checked;
  const day = logbook.today(worldDay);
  const cases = handCases(logbook, day);
  const troubles = waterTroubles(checked, day);
  const owed = owedByCourses(view, day);
  // A stop may be left out: what was to do before it is then before the next of its stage.
  const stops = withReminders(
    roundOver(checked, cases, day, [...owed.keys()])
      .map((stop) => ({ ...stop, tasks: tasksOf(view, stop, owed, troubles, day) }))
      .filter(({ tasks }) => tasks.length > 0),
  ).map(boardStop);
  const order = handOrder(logbook, day, cases).map(({ tank }) => tank);
  const orders = ordersToPack(checked, day);
  const unfed = new Map(
    orders.flatMap((each) =>
      each.unfed.map((tank) => [tank, `${each.card.name} is packed from it fasted: do not feed`]),
    ),
  );
  const counted = countedToday(stops);
  const plan = planCard(checked, worldDay, aheadDays + 1);
  const notices: BoardSection[] = [
    { is: "merge", title: "Left over from a merge", lines: mergeLines(view) },
    { is: "absence", title: "Days away", lines: absenceLines(view, day) },
    { is: "water", title: "Water", lines: waterLines(view, troubles, day) },
    { is: "remedies", title: "Remedies in the water", lines: remedyLines(view, day) },
    { is: "cases", title: "Open cases", lines: caseLines(view) },
    { is: "quarantine", title: "Quarantine", lines: quarantineLines(view, day) },
    { is: "orders", title: "Orders to pack", lines: orderLines(orders) },
    { is: "broods", title: "Broods", lines: broodLines(view, day) },
    { is: "expiry", title: "Good no longer, or not for long", lines: expiryLines(view, day) },
    {
      is: "unseen",
      title: "Not seen for long",
      lines: unseenLines(view, order, ({ name }) => counted.has(name), day),
    },
  ];
  return {
    title: book.title,
    day,
    dayText: `${weekdayName(day)} ${spokenDay(day)}`,
    away: capacityOn(book, day).away ?? null,
    tanks: order.length,
    load: loadOn(view, day),
    stops,
    feeds: feedTasks(view, order, unfed, day),
    notices: notices.filter(({ lines }) => lines.length > 0),
    done: doneOn(view, day),
    coming: plan.days.slice(1).map(comingDay),
    fit: order.length === 0 ? [] : [plan.fit, plan.nearness].filter((sentence) => sentence !== ""),
    hasRound: isAnythingTested(checked, day),
    cautions: cautionsOf(view, stops),
  };
}

/** What courses owe, by where it is done. */
function owedByCourses(view: View, day: number): Map<Station, DueEntry[]> {
  const found = new Map<Station, DueEntry[]>();
  for (const ledger of view.checked.logbook.ledgers)
    for (const entry of courseEntries(view, ledger, day)) {
      const station = stationNamed(view, entry.target) ?? ledger.body?.system ?? ledger.body?.tanks[0];
      if (station === undefined) continue;
      const at = placeOf(view.checked.book, station);
      found.set(at, [...(found.get(at) ?? []), entry]);
    }
  return found;
}

/** Feeding a tank is told with the other feedings. */
function tasksOf(
  view: View,
  stop: Stop,
  owed: ReadonlyMap<Station, readonly DueEntry[]>,
  troubles: readonly Trouble[],
  day: number,
): BoardTask[] {
  const work = stop.work.filter(({ due }) => due.duty.kind !== Kind.feed || due.station.kind !== "tank");
  return tasksAt(view, { ...stop, work }, owed.get(stop.at) ?? [], troubles, day);
}

const boardStop = ({ at, stage, reason, before, tasks }: Stop & Pick<BoardStop, "tasks">): BoardStop => ({
  at: at.name,
  title: at.kind === "room" ? "" : at.title,
  stage,
  reason: isDirtier(stage) ? reason : "",
  before,
  tasks,
  place: stationLocation(at),
  hasCard: at.kind === "tank" || at.kind === "system",
});

const countedToday = (stops: readonly BoardStop[]): ReadonlySet<string> =>
  new Set(
    stops.flatMap(({ tasks }) => tasks.filter(({ kind }) => kind === "count").map(({ target }) => target)),
  );

/** Said once, below all that calls for it. */
function cautionsOf({ checked }: View, stops: readonly BoardStop[]): string[] {
  const tasks = stops.flatMap((stop) => stop.tasks);
  const served = tasks.filter(({ kind }) => kind === "service").map(({ key }) => key.split(" ", 1)[0]!);
  const isWired = checked.book.gears.some((gear) => served.includes(gear.name) && isElectric(gear));
  return [...new Set([...tasks.map(({ caution }) => caution), isWired ? electricCaution : ""])].filter(
    Boolean,
  );
}

/** The lines of a day as they stand, the latest first; those of a sheet by their rows. */
function doneOn(view: View, day: number): BoardDone[] {
  return blocksOn(view, day)
    .flatMap((block) =>
      linesOf(block)
        .flatMap((line) => (line.is === "sheet" ? [] : [line]))
        .map(
          (line): BoardDone => ({
            line: block.text.slice(line.start, line.end).trim().replace(/\s+/g, " "),
            clock: line.time?.text ?? "",
            place: locationOf({ block, start: line.start, end: line.end }),
          }),
        ),
    )
    .reverse();
}

function comingDay({ day, away, stops, litres, minutes, owed }: PlanCardDay): BoardDay {
  const on = dayOf(day);
  return {
    day: on,
    dayText: `${weekdayName(on).slice(0, 3)} ${spokenDay(on).split(" ").slice(0, 2).join(" ")}`,
    away,
    text: actsInShort(stops.flatMap(({ work }) => work.map(placedAct))),
    litres: litres.high > 0 ? litresText(litres) : "",
    minutes: minutes > 0 ? `${formatNumber(minutes, 2)} min` : "",
    owed: actsInShort(owed.map(placedAct)),
    moved: stops.flatMap(({ work }) =>
      work.flatMap(({ at, act: does, moved, why }) => (why === "" ? [] : [`${at} ${does} ${moved}: ${why}`])),
    ),
  };
}

/** What is served has its name at the end of the act. */
const placedAct = ({ at, act }: PlanCardJob): PlacedAct => ({
  at,
  act,
  of: act.startsWith("service ") ? act.split(" ").at(-1)! : at,
});
