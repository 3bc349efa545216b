import { spokenDay } from "../../book/dates.ts";
import { countText, expectedText, shareText } from "../../checks/brood-words.ts";
import { days } from "../../checks/words.ts";
import { formatNumber } from "../../quantity/format.ts";
import { type Share, shareOf, sharesOf } from "../../room/brood-course.ts";
import { type Brood, broodOfEntry, broodsUntil } from "../../room/broods.ts";
import { developed, expected } from "../../room/development.ts";
import { entriesOf, whyDeveloped, whyExpected, whyShare } from "../../room/why-brood.ts";
import { enterFigure } from "./animals.ts";
import type { LineFigure, Row } from "./row.ts";

/** What the entries of a brood mean, by all that the log knows by now: when it hatches, or did; how many of how many. */

/** The brood of a row, with the last day of the log. */
function broodOf(row: Row): { readonly brood: Brood; readonly day: number } | undefined {
  const { logbook } = row.checked;
  const day = logbook.dayGroups.at(-1)?.day ?? Number.NaN;
  const brood = broodOfEntry(broodsUntil(logbook, day), { block: row.block, row: row.id });
  return brood === undefined ? undefined : { brood, day };
}

/** A spawning: when the eggs are to be expected to hatch; once they did, when that was and what became of them. */
export function spawnFigure(rows: readonly Row[]): LineFigure | undefined {
  const [row] = rows;
  const found = row === undefined ? undefined : broodOf(row);
  if (row === undefined || found === undefined) return undefined;
  const { brood, day } = found;
  const { logbook } = row.checked;
  const took = developed(logbook, brood, "hatch", day);
  if (took !== undefined) {
    const hatched = sharesOf(brood, day).find(({ what }) => what === "hatched of laid");
    const share = hatched === undefined ? countText(brood.tally.hatched) : shareText(hatched);
    return {
      kind: "brood",
      label: [`hatched ${spokenDay(took.to, took.from)}, ${days(took.to - took.from)}`, share].join(" · "),
      why: () => ({
        ...whyDeveloped(took),
        formula: "days, and the sum of (mean temperature of the day - base)",
        from: entriesOf(brood, "spawn", "hatch"),
      }),
    };
  }
  if (brood.tally.state === "lost")
    return {
      kind: "brood",
      label: "none alive",
      why: () => ({ what: brood.name, value: "no egg is alive", from: entriesOf(brood, "spawn", "eggs") }),
    };
  // An unnamed brood of long ago is nobody's news: nothing was written of it, and nothing will be.
  const when = brood.tally.state === "eggs" ? expected(logbook, brood, "hatch", day) : undefined;
  if (when === undefined || (brood.lot === "" && day > when.latest + 7)) return undefined;
  const text = expectedText(when, row.block.day);
  return { kind: "brood", label: `hatch ${text}`, why: () => whyExpected(logbook, brood, when, text) };
}

/** Living eggs: how many of those laid. */
export function eggsFigure(rows: readonly Row[]): LineFigure | undefined {
  return stageFigure(rows, ({ brood, row }) => {
    const entry = entryAt(brood, row);
    return entry === undefined || Number.isNaN(brood.tally.spawned)
      ? undefined
      : shareOf("alive of laid", entry, brood.tally.laid, "living eggs / eggs laid");
  });
}

/** A hatch: how many of the eggs, and how many animals there are now. */
export function hatchFigure(rows: readonly Row[]): LineFigure | undefined {
  const share = stageFigure(rows, ({ brood, day }) => {
    const shares = sharesOf(brood, day);
    return shares.find(({ what }) => what === "hatched of laid" || what === "hatched of alive");
  });
  const animals = enterFigure(rows);
  if (share === undefined) return animals;
  return {
    kind: "brood",
    label: [share.label, ...(animals === undefined ? [] : [animals.label])].join(" · "),
    why: share.why,
  };
}

/** Young that swim: how many of those hatched. */
export function swimFigure(rows: readonly Row[]): LineFigure | undefined {
  return stageFigure(rows, ({ brood, day }) =>
    sharesOf(brood, day).find(({ what }) => what === "swimming of hatched"),
  );
}

const words: Readonly<Record<Share["what"], string>> = {
  "alive of laid": "eggs laid",
  "hatched of laid": "eggs",
  "hatched of alive": "living eggs",
  "swimming of hatched": "hatched",
  "alive after 30 days": "hatched",
  "alive after 30 days, culls left out": "hatched",
};

function stageFigure(
  rows: readonly Row[],
  shareIn: (found: { readonly brood: Brood; readonly day: number; readonly row: Row }) => Share | undefined,
): LineFigure | undefined {
  const [row] = rows;
  const found = row === undefined ? undefined : broodOf(row);
  if (row === undefined || found === undefined || found.brood.among > 0) return undefined;
  const share = shareIn({ ...found, row });
  // What cannot be is a finding.
  if (share === undefined || Number.isNaN(share.share)) return undefined;
  const percent = `${share.isAbout ? "~" : ""}${formatNumber(share.share * 100, 2)} %`;
  return {
    kind: "brood",
    label: `${percent} of ${formatNumber(share.outOf, 6)} ${words[share.what]}`,
    why: () => whyShare(found.brood, share, shareText(share)),
  };
}

const entryAt = ({ entries }: Brood, row: Row) =>
  entries.find((entry) => entry.block === row.block && entry.row === row.id);
