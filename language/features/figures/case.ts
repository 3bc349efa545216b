import { days, percent } from "../../checks/words.ts";
import { formatNumber } from "../../quantity/format.ts";
import { type CaseStory, caseStories } from "../../room/case-book.ts";
import { countOf } from "../../room/case-count.ts";
import { type CaseRate, ratesOfCount } from "../../room/case-rates.ts";
import type { LineFigure, Row } from "./row.ts";

/** What an entry of a case comes to by the end of its day: which day of the case it is, and how many were affected of how many. */

/** The case that a row is an entry of. */
function storyOf({ checked, block, id, object }: Row): CaseStory | undefined {
  if (object === "") return undefined;
  return caseStories(checked.logbook, Number.POSITIVE_INFINITY).find(
    ({ name, entries }) =>
      name === object && entries.some((entry) => entry.block === block && entry.row === id),
  );
}

/** Sick animals: the day of the case, and the attack rate so far. */
export function sickFigure([row]: readonly Row[]): LineFigure | undefined {
  const story = row === undefined ? undefined : storyOf(row);
  if (row === undefined || story === undefined) return undefined;
  const { day } = row.block;
  const { rates } = ratesOfCount(story, countOf(row.checked.logbook, story, day));
  const attack = rates.find(({ is }) => is === "attack");
  const onDay = `day ${day - story.since + 1}`;
  if (attack === undefined) return day === story.since ? undefined : figure([onDay], story, undefined);
  return figure([onDay, attackText(attack)], story, attack);
}

/** The end of a case: how long it was open, and what it came to. */
export function closeFigure([row]: readonly Row[]): LineFigure | undefined {
  const story = row === undefined ? undefined : storyOf(row);
  if (row === undefined || story === undefined) return undefined;
  const count = countOf(row.checked.logbook, story, row.block.day);
  const attack = ratesOfCount(story, count).rates.find(({ is }) => is === "attack");
  const dead = count.dead > 0 ? [`${formatNumber(count.dead, 6)} dead`] : [];
  const open = days(row.block.day - story.since + 1);
  return figure([open, ...(attack === undefined ? [] : [attackText(attack)]), ...dead], story, attack);
}

/** `5 of 14 affected, 35.7 %`. */
const attackText = ({ count, outOf, best, isLeast }: CaseRate): string =>
  `${isLeast ? "at least " : ""}${formatNumber(count, 6)} of ${formatNumber(outOf, 6)} affected, ${percent(best)}`;

const figure = (parts: readonly string[], { name }: CaseStory, rate: CaseRate | undefined): LineFigure => ({
  kind: "case",
  label: parts.join(" · "),
  why: () => rate?.why ?? { what: name, value: parts.join(", "), from: [] },
});
