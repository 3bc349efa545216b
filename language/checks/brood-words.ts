import { spokenDay } from "../book/dates.ts";
import { formatNumber } from "../quantity/format.ts";
import type { Share } from "../room/brood-course.ts";
import type { Counted } from "../room/brood-rows.ts";
import type { Expected } from "../room/development.ts";
import type { Inbred } from "../room/lineage.ts";
import { percent } from "./words.ts";

/** Figures of broods in words: for findings, hints, cards and reports. */

/** `80`, `~80`; empty where nothing is written. */
export function countText({ count, isAbout }: Counted): string {
  return Number.isNaN(count) ? "" : `${isAbout ? "~" : ""}${formatNumber(count, 6)}`;
}

/** `about 8 March (6 to 10 March)`; what never comes at such temperatures says so. */
export function expectedText({ earliest, likely, latest }: Expected, day: number): string {
  if (Number.isNaN(likely)) return "not in sight: it is too cold";
  const end = Number.isNaN(latest) ? "no end in sight" : spokenDay(latest, day);
  const [first] = spokenDay(earliest, day).split(" ");
  const isSameMonth =
    !Number.isNaN(latest) && spokenDay(earliest, day).slice(first!.length) === end.slice(end.indexOf(" "));
  const begin = isSameMonth ? first! : spokenDay(earliest, day);
  return earliest === latest
    ? `about ${spokenDay(likely, day)}`
    : `about ${spokenDay(likely, day)} (${begin} to ${end})`;
}

/** `~64 % of 120 (55 to 72 %)`; where more came than there were, that. */
export function shareText({ share, low, high, count, outOf, isAbout }: Share): string {
  const whole = formatNumber(outOf, 6);
  if (Number.isNaN(share)) return `${formatNumber(count, 6)} of ${whole}`;
  const ends = `${formatNumber(low * 100, 2)} to ${percentWhole(high)}`;
  return `${isAbout ? "~" : ""}${percentWhole(share)} of ${whole} (${ends})`;
}

const percentWhole = (share: number): string => `${formatNumber(share * 100, share < 0.995 ? 2 : 3)} %`;

/** `25 %`, `0 to 12.5 %`. */
export function inbredText({ low, high }: Pick<Inbred, "low" | "high">): string {
  if (high - low < 1e-9) return percent(low);
  return `${formatNumber(low * 100, 3)} to ${percent(high)}`;
}
