import type { Book } from "../../book/book.ts";
import { spokenDay } from "../../book/dates.ts";
import { kindOf } from "../../book/entries/registry.ts";
import {
  type BeforeAway,
  beforeAway,
  type DaysAway,
  daysAwayAhead,
  daysAwayOn,
} from "../../room/before-absence.ts";
import { dayOffWhy } from "../../room/capacity.ts";
import { type DueDuty, placeOf } from "../../room/due.ts";
import { actsInShort } from "../acts-in-short.ts";
import { stepWords } from "../course-step-words.ts";
import { broodComes, cultureComes, quarantineComes, resultComes } from "../meanwhile-words.ts";
import type { View } from "../view.ts";
import type { BoardLine } from "./board-card.ts";

/** Days on which nobody works: the ones that are, and what to do before those that come. */
export function absenceLines({ checked }: View, day: number): BoardLine[] {
  const { logbook, book } = checked;
  const now = daysAwayOn(book, day);
  if (now !== undefined) return [absenceLine(now, coveredText(now), "plain", day)];
  return daysAwayAhead(book, day).map((away) =>
    absenceLine(away, beforeText(book, beforeAway(logbook, away, day), day), "soon", day),
  );
}

function absenceLine(away: DaysAway, text: string, tone: BoardLine["tone"], day: number): BoardLine {
  const { from, until, why } = away;
  const when = from === until ? spokenDay(from, day) : `${spokenDay(from, day)} to ${spokenDay(until, day)}`;
  const name = `${when}, ${why ?? dayOffWhy}`;
  return {
    key: `absence ${from}`,
    name: name.replace(/, $/, ""),
    text,
    tone,
    task: null,
    place: null,
    card: null,
  };
}

/** Who does what meanwhile. */
function coveredText(away: DaysAway): string {
  const back = `until ${spokenDay(away.until)}`;
  return away.covered.length === 0
    ? `nobody works ${back}`
    : `${kindWords(away)} is done by someone else ${back}`;
}

const kindWords = ({ covered }: DaysAway): string => covered.map((kind) => kindOf(kind).word).join(", ");

function beforeText(book: Book, before: BeforeAway, day: number): string {
  const { away, work, meanwhile, doses, steps, orders, comes } = before;
  const parts = [
    work.length === 0 ? "" : `before: ${actsInShort(work.map((due) => placed(book, due)))}`,
    meanwhile.length === 0
      ? ""
      : `nobody does meanwhile: ${actsInShort(meanwhile.map((due) => placed(book, due)))}`,
    ...doses.map(
      ({ ledger, treatment, number, due }) =>
        `dose ${number} of ${treatment.remedy.name} in ${ledger.body?.name ?? ""} falls on ${spokenDay(due, day)}`,
    ),
    ...steps.map(
      (step) => `${step.ledger.body?.name ?? ""} ${stepWords(step)} falls on ${spokenDay(step.due, day)}`,
    ),
    orders.length === 0 ? "" : `orders to go: ${orders.map(({ order }) => order.name).join(", ")}`,
    ...comes.broods.map((each) => broodComes(each, day)),
    ...comes.cultures.map((each) => cultureComes(each, day)),
    ...comes.quarantines.map((each) => quarantineComes(each, day)),
    ...comes.results.map((each) => resultComes(each, day)),
    away.covered.length === 0 ? "" : `${kindWords(away)} is done by someone else`,
  ];
  const told = parts.filter((part) => part !== "").join("; ");
  return told === "" ? "nothing falls due in it" : told;
}

const placed = (book: Book, { duty, station }: DueDuty): { at: string; act: string; of: string } => {
  const at = placeOf(book, station);
  return { at: at.name, act: at === station ? duty.act : `${duty.act} ${station.name}`, of: station.name };
};
