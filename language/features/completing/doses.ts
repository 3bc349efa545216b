import { doseCaution } from "../../checks/doses.ts";
import { concentration } from "../../checks/words.ts";
import { formatNumber } from "../../quantity/format.ts";
import { middleOfTarget } from "../../room/dose-courses.ts";
import { remedyAt } from "../../room/past.ts";
import { productToWrite } from "../dose-product.ts";
import { aimOf } from "../recent.ts";
import type { Context } from "./context.ts";
import type { EntryHere } from "./names.ts";
import type { Offers } from "./offer.ts";

/** Less than this part of the target is no dose. */
const leastShare = 0.005;

/** What of the product makes the stated target in the water of the entry, with what is in it already; nothing where that cannot be said. */
export function offerDose({ view }: Context, here: EntryHere, name: string, offers: Offers): void {
  const { logbook, book } = view.checked;
  const remedy = book.remedy(name);
  const [first, ...others] = aimOf(book, here.target).stations;
  if (remedy === undefined || first === undefined || first.body < 0) return;
  // Of a group each tank may need another amount.
  if (others.some(({ body }) => body !== first.body)) return;
  const ledger = logbook.ledgerOf(first);
  const { volumeL } = ledger.body ?? { volumeL: Number.NaN };
  const aim = middleOfTarget(remedy);
  const until = here.block.day + 1;
  const there = remedyAt(ledger, remedy, until);
  const added = aim - there;
  if (!(added > leastShare * aim)) return;
  const product = productToWrite(ledger, remedy, added, until);
  if (!("text" in product)) return;
  const has = there > leastShare * aim ? `; ${concentration(there, remedy.unit)} is there` : "";
  const detail = `makes ${concentration(aim, remedy.unit)}, the target stated, in ${formatNumber(volumeL, 3)} L${has}`;
  offers.add({ label: product.text, sort: "usual", detail, about: { is: "text", text: doseCaution } });
}
