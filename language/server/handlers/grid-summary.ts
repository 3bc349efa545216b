import type { Ends, GridSummary } from "../../features/grid/summary.ts";
import { formatNumber } from "../../quantity/format.ts";
import { isOutside, type Outside } from "../../science/result.ts";
import type { Summed } from "../grid-protocol.ts";

/** What cells come to, in words: what is infinite does not go over the wire as a number. */
export function summed(summary: GridSummary | Outside | undefined): Summed[] {
  if (summary === undefined) return [];
  if (isOutside(summary)) return [{ name: "", text: summary.outside }];
  const { numbers, open, unit, least, most, mean, median, slope } = summary;
  const said = (value: string): string => (unit === "" ? value : `${value} ${unit}`);
  const perDay = isOutside(slope)
    ? []
    : [
        {
          name: "slope",
          text: `${signed(slope.perDay)}${unit === "" ? "" : ` ${unit}`} a day${within(slope)}`,
        },
      ];
  return [
    { name: "count", text: open === 0 ? String(numbers) : `${numbers}, ${open} of them open` },
    { name: "mean", text: said(ends(mean)) },
    { name: "median", text: said(ends(median)) },
    { name: "range", text: said(range(least, most)) },
    ...perDay,
  ];
}

function within({ low, high }: Exclude<GridSummary["slope"], Outside>): string {
  return isOutside(low) || isOutside(high) ? "" : ` (${signed(low)} to ${signed(high)})`;
}

const figure = (value: number): string => formatNumber(value, 4);
const signed = (value: number): string => (value > 0 ? `+${figure(value)}` : figure(value));

function ends({ low, high }: Ends): string {
  if (low === high) return figure(low);
  if (!Number.isFinite(low)) return Number.isFinite(high) ? `at most ${figure(high)}` : "unknown";
  return Number.isFinite(high) ? `${figure(low)} to ${figure(high)}` : `at least ${figure(low)}`;
}

function range(least: Ends, most: Ends): string {
  const low = Number.isFinite(least.low) ? figure(least.low) : `<${figure(least.high)}`;
  const high = Number.isFinite(most.high) ? figure(most.high) : `>${figure(most.low)}`;
  return low === high ? low : `${low} to ${high}`;
}
