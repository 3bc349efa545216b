import { isoOf, spokenDay } from "../../book/dates.ts";
import type { Remedy } from "../../book/stations.ts";
import { bathRange } from "../../checks/baths.ts";
import { doseCaution } from "../../checks/doses.ts";
import { concentration, percent } from "../../checks/words.ts";
import { formatNumber } from "../../quantity/format.ts";
import { openedUntil } from "../../room/shelf-life.ts";
import { publishedCard } from "../course-card.ts";
import { courseLines, publishedLines } from "../course-words.ts";
import { emphasis, paragraphs, plain } from "../markdown.ts";
import { remedyCards } from "../remedy-card.ts";
import { headline, linked, type Scope, section } from "./parts.ts";
import { maybeAt } from "./places.ts";

/** A remedy: what the keeper stated of it, and in which water how much of it is now. Always with the caution. */
export function remedyHover(scope: Scope, name: string): string {
  const { checked } = scope.view;
  const remedy = checked.book.remedy(name);
  if (remedy === undefined)
    return paragraphs(headline(name, "no such remedy is defined"), emphasis(doseCaution));
  const inWater = checked.logbook.ledgers.flatMap((ledger) => {
    const card = remedyCards(checked.logbook, ledger, scope.today).find((each) => each.name === name);
    if (card === undefined || ledger.body === undefined) return [];
    const last = card.doses.at(-1);
    const parts = [
      card.nowText === "" ? "not known how much" : card.nowText,
      last === undefined ? "" : `last dose ${spokenDay(last.time, scope.today)}`,
      card.next === null ? "" : `dose ${card.next.text}`,
    ].filter((part) => part !== "");
    const place = ledger.body.system?.place ?? ledger.body.tanks[0]?.place;
    const lines = [parts.join("; "), ...(card.plan === null ? [] : courseLines(card.plan, scope.today))];
    return [`${linked(scope, ledger.body.name, maybeAt(place))} ${lines.map(plain).join("  \n  ")}`];
  });
  return paragraphs(
    headline(name, remedy.title),
    section("As you stated", stated(remedy).map(plain), 12),
    inWater.length === 0
      ? plain("Given nowhere in the last 60 days.")
      : section(`In the water at the end of ${spokenDay(scope.today)}`, inWater),
    emphasis(doseCaution),
    ...published(remedy),
  );
}

/** What is published of its active substance, beside what the keeper stated and always with the caution. */
function published(remedy: Remedy): string[] {
  const card = publishedCard(remedy);
  if (card === null) return [];
  return [
    section(`Published of ${card.substance}`, publishedLines(card).map(plain), 12),
    emphasis(card.caution),
  ];
}

/** What its definition says, in words. */
export function stated(remedy: Remedy): string[] {
  const { unit, targetLow, targetHigh, ceiling, repeatTimes, repeatDays, changeBefore, halfLifeDays } =
    remedy;
  const words = (value: number): string => concentration(value, unit);
  const has = (value: number): boolean => !Number.isNaN(value);
  const target =
    has(targetLow) && targetLow !== targetHigh
      ? `${formatNumber(targetLow)}..${words(targetHigh)}`
      : has(targetHigh)
        ? words(targetHigh)
        : "";
  return [
    target === "" ? "" : `target ${target}`,
    has(ceiling) ? `ceiling ${words(ceiling)}` : "",
    has(repeatTimes) ? `${repeatTimes} doses, every ${formatNumber(repeatDays)} d` : "",
    remedy.active === "" ? "" : `active ${remedy.active}`,
    has(remedy.bathLow)
      ? `bath ${bathRange(remedy)}${has(remedy.bathHighMinutes) ? `, at most ${formatNumber(remedy.bathHighMinutes)} min` : ""}`
      : "",
    has(changeBefore) ? `change ${percent(changeBefore)} before each repeat` : "",
    has(remedy.changeAfter) ? `change ${percent(remedy.changeAfter)} after the course` : "",
    remedy.without.length === 0 ? "" : `without ${remedy.without.join(", ")}`,
    has(halfLifeDays) ? `half-life ${formatNumber(halfLifeDays)} d` : "",
    has(remedy.activeFraction) ? `strength ${percent(remedy.activeFraction)}` : "",
    has(remedy.activeMgPerML) ? `strength ${formatNumber(remedy.activeMgPerML)} mg/mL` : "",
    has(remedy.dropML) ? `a drop is ${formatNumber(remedy.dropML)} mL` : "",
    remedy.harms.length === 0 ? "" : `harms ${remedy.harms.join(", ")}`,
    has(remedy.withdrawalDays) ? `${formatNumber(remedy.withdrawalDays)} d before animals are shipped` : "",
    has(remedy.expires) ? `expires ${isoOf(remedy.expires)}` : "",
    has(openedUntil(remedy))
      ? `opened ${isoOf(remedy.opened)}, good until ${isoOf(openedUntil(remedy))}`
      : "",
    remedy.source === "" ? "" : `source: ${remedy.source}`,
  ].filter((part) => part !== "");
}
