import { spokenDay } from "../../book/dates.ts";
import { Kind } from "../../book/entries/registry.ts";
import { percent } from "../../checks/words.ts";
import { latestTreatment, type Treatment, treatmentsOf } from "../../room/treatments.ts";
import { courseCard } from "../course-card.ts";
import { courseLines } from "../course-words.ts";
import { ledgersOf, type Row } from "../figures/row.ts";
import { plain } from "../markdown.ts";
import { type Scope, section } from "./parts.ts";

/** The course that a dose belongs to, as it stands today: which dose it is, what is next, what is owed and out. Empty for another entry. */
export function doseHover(scope: Scope, row: Row): string {
  if (row.kind !== Kind.dose) return "";
  const lines = ledgersOf(row).flatMap((ledger) => {
    const treatment = courseOfRow(scope, row, ledger);
    if (treatment === undefined) return [];
    const [of, several] = [ledger.body?.name ?? "", row.stations.length > 1];
    return wordsOf(treatment, row, scope.today).map((line) => plain(several ? `${of}: ${line}` : line));
  });
  return section("The course", lines, 12);
}

function courseOfRow({ view, today }: Scope, { block, id, subject }: Row, ledger: Treatment["ledger"]) {
  const { logbook, book } = view.checked;
  const remedy = book.remedy(subject);
  if (remedy === undefined) return undefined;
  const isOf = ({ given }: Treatment): boolean =>
    given.some(({ index }) => ledger.doses.block[index] === block && ledger.doses.row[index] === id);
  const latest = latestTreatment(logbook, ledger, remedy, today);
  if (latest === undefined || isOf(latest)) return latest;
  return treatmentsOf(logbook, ledger, today).find((each) => each.remedy === remedy && isOf(each));
}

function wordsOf(treatment: Treatment, { block, id }: Row, day: number): string[] {
  const { given, planned, times, ledger } = treatment;
  const dose = given.find(
    ({ index }) => ledger.doses.block[index] === block && ledger.doses.row[index] === id,
  );
  const card = courseCard(treatment, day);
  const next = card.doses.find(({ isPlanned }) => isPlanned);
  const due = planned[0]?.due;
  const told = dose === undefined || Number.isNaN(times) ? "" : `dose ${dose.number} of ${times}`;
  const toCome =
    next === undefined || due === undefined
      ? ""
      : `next: dose ${next.number} ${due < day ? `was due on ${spokenDay(due, day)}` : `due on ${spokenDay(due, day)}`}${
          next.changeOwed > 0 ? `, change ${percent(next.changeOwed)} before it` : ""
        }${next.amount === "" ? "" : `, then ${next.amount} to reach the target again`}`;
  return [[told, toCome].filter((part) => part !== "").join("; "), ...courseLines(card, day)].filter(
    (line) => line !== "",
  );
}
