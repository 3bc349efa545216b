import { freeCards, ordersCard } from "../../../features/orders-card.ts";
import type { Follows, Standing } from "../consequence.ts";

interface ShippingStanding extends Standing {
  readonly what: string;
  /** `there today`, `from 4 April`, `nobody can say`; of an order what is missing. */
  readonly text: string;
  readonly from: number;
  readonly isOrder: boolean;
  readonly reasons: string;
}

/** What may go, and from when; what orders still miss. */
export const shipping: Follows<ShippingStanding> = {
  is: "shipping",
  reach: "water",

  standing(checked, day) {
    const found = new Map<string, ShippingStanding>();
    for (const { tank, species, from, fromText, reasons, at } of freeCards(checked, day))
      found.set(JSON.stringify([tank, species]), {
        of: tank,
        at,
        terms: [species],
        what: species,
        text: fromText,
        from: from ?? Number.POSITIVE_INFINITY,
        isOrder: false,
        reasons: reasons
          .filter(({ is }) => is !== "fasting")
          .map((each) => each.text)
          .join("; "),
      });
    for (const { name, text, from, missing, at, lines } of ordersCard(checked, day).open)
      found.set(JSON.stringify(["order", name]), {
        of: "room",
        at,
        terms: [name, ...lines.map(({ species }) => species)],
        what: `order ${name}`,
        text,
        from: missing === 0 ? Number.NEGATIVE_INFINITY : (from ?? Number.POSITIVE_INFINITY),
        isOrder: true,
        reasons: "",
      });
    return found;
  },

  told(before, after, day) {
    const [was, now] = [before?.text ?? "", after?.text ?? ""];
    const { what, isOrder } = (after ?? before)!;
    const words = { before: was, after: now };
    if (isOrder) {
      if (was === now) return [];
      if (before === undefined) return [{ text: `${what}: ${now}`, ...words }];
      if (after === undefined)
        return [{ text: `${what}: nothing is missing any more (it was ${was})`, tone: "better", ...words }];
      return [
        {
          text: `${what}: ${now}; it was ${was}`,
          tone: after.from > before.from ? "worse" : "plain",
          ...words,
        },
      ];
    }
    // Animals that are new or gone are told by the book.
    if (before === undefined || after === undefined) return [];
    const [old, fresh] = [Math.max(before.from, day), Math.max(after.from, day)];
    if (old === fresh) return [];
    const why = after.reasons === "" ? "" : `: ${after.reasons}`;
    return [
      {
        text: `${goes(what, now)}${why} (it was: ${was})`,
        tone: fresh > old ? "worse" : "better",
        // Food of late puts off every shipment by a day: that is no news.
        isSmall: after.reasons === "" && before.reasons === "",
        ...words,
      },
    ];
  },
};

const goes = (what: string, when: string): string =>
  when === "nobody can say"
    ? `when ${what} may go nobody can say`
    : `${what} may go ${when === "there today" ? "today" : when}`;
