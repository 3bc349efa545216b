import { formatNumber } from "../quantity/format.ts";
import type { Litres } from "../room/changes-due.ts";

/** `6 to 14 L`; empty for none. */
export function litresText(litres: Litres | undefined | null): string {
  if (litres === undefined || litres === null) return "";
  const [low, high] = [formatNumber(litres.low, 2), formatNumber(litres.high, 2)];
  return low === high ? `${low} L` : `${low} to ${high} L`;
}
