import type { Book } from "../book/book.ts";
import { clockOf, spokenDay } from "../book/dates.ts";
import { formatNumber } from "../quantity/format.ts";
import type { Reason } from "../room/reason.ts";
import { concentration } from "./words.ts";

/** What speaks against letting animals go, in the words of findings, hints, tables and cards. */

/** `quarantine until 4 April`, `prazi in the water (1.2 mg/L)`, `case flukes-1 open`. @param day the year of which needs no saying */
export function reasonText(book: Book, { is, until, name, amount }: Reason, day: number): string {
  const end = Number.isFinite(until) ? ` until ${spokenDay(until, day)}` : "";
  switch (is) {
    case "service":
      return `out of service${end}`;
    case "quarantine":
      return end === "" ? "quarantine tank" : `quarantine${end}`;
    case "arrival":
      return `new animals in it, apart${end}`;
    case "remedy": {
      const unit = book.remedy(name)?.unit ?? "";
      const level = Number.isNaN(amount) ? "" : ` (${concentration(amount, unit)})`;
      return `${name} in the water${level}${end}`;
    }
    case "withdrawal":
      return `after ${name}${end}`;
    case "case":
      return name === "" ? `signs of disease${end}` : `case ${name} open`;
    case "count":
      return `${formatNumber(amount, 6)} counted short`;
    case "fasting":
      return `not fasted before ${clockOf(amount)} on ${spokenDay(amount, day)}`;
  }
}

export function reasonsText(book: Book, reasons: readonly Reason[], day: number): string {
  return reasons.map((reason) => reasonText(book, reason, day)).join("; ");
}
