import { unitOfAmount } from "../book/facts.ts";
import { rowOfId } from "../book/source.ts";
import type { Remedy } from "../book/stations.ts";
import { formatNumber } from "../quantity/format.ts";
import { UNITS } from "../quantity/units.ts";
import { type Measure, productFor } from "../room/dose-amount.ts";
import type { Ledger } from "../room/ledger.ts";
import { lastDose } from "../room/past.ts";

/** How much of a product adds so much, measured out as it was last time. */
export type ProductText = { readonly text: string } | { readonly unit: string };

/**
 * The amount in words, as a dose is written; only its unit where it cannot be said.
 * @param index of the dose by which it is measured out, among the doses of the ledger
 * @param added in the remedy's unit
 */
export function productText(ledger: Ledger, remedy: Remedy, index: number, added: number): ProductText {
  const { doses } = ledger;
  const row = rowOfId(doses.block[index]!, doses.row[index]!);
  const unit = row < 0 ? undefined : UNITS[unitOfAmount(doses.block[index]!.facts, row)];
  if (unit?.dimension === "concentration" || unit?.dimension === "volume-concentration")
    return Number.isFinite(added)
      ? { text: `${formatNumber(added, 3)} ${remedy.unit}` }
      : { unit: remedy.unit };
  return measured(
    ledger,
    remedy,
    added,
    unit?.dimension === "portion" ? "drops" : unit?.dimension === "volume" ? "volume" : "mass",
  );
}

/**
 * The same of any dose: measured out as it was last time in this water, else as the product is stated; a liquid without a drop by volume.
 * @param until a time: later doses tell nothing
 */
export function productToWrite(ledger: Ledger, remedy: Remedy, added: number, until: number): ProductText {
  const index = lastDose(ledger, remedy, until);
  if (index >= 0) return productText(ledger, remedy, index, added);
  const isLiquid = !Number.isNaN(remedy.activeMgPerML) || remedy.unit === "uL/L";
  return measured(ledger, remedy, added, isLiquid ? (remedy.dropML > 0 ? "drops" : "volume") : "mass");
}

function measured({ body }: Ledger, remedy: Remedy, added: number, measure: Measure): ProductText {
  const symbol = { drops: "drops", volume: "mL", mass: "mg" }[measure];
  const needed = Number.isFinite(added)
    ? productFor(remedy, added, body?.volumeL ?? Number.NaN, measure)
    : undefined;
  if (needed === undefined || "unknown" in needed) return { unit: symbol };
  const { product } = needed;
  if (measure === "drops") return { text: `${formatNumber(Math.round(product), 3)} drops` };
  return product >= 10_000 && measure === "mass"
    ? { text: `${formatNumber(product / 1000, 3)} g` }
    : { text: `${formatNumber(product, 3)} ${symbol}` };
}
