import { spokenDay } from "../../../book/dates.ts";
import { strictestOf } from "../../../features/tank-card.ts";
import type { Location } from "../../../features/view.ts";
import { waterCards } from "../../../features/water-card.ts";
import type { Follows, Standing, Told } from "../consequence.ts";

interface WaterStanding extends Standing {
  readonly parameter: string;
  readonly limit: string;
  /** NaN where it is not expected, or nothing tells. */
  readonly crossing: number;
  readonly text: string;
  readonly level: string;
}

/** When a limit is met, by the forecast that cards and findings show. */
export const water: Follows<WaterStanding> = {
  is: "water",
  reach: "water",

  standing(checked, day) {
    const { logbook } = checked;
    const found = new Map<string, WaterStanding>();
    for (const ledger of logbook.ledgers) {
      const { body } = ledger;
      if (body === undefined) continue;
      const of = (body.system ?? body.tanks[0])?.name ?? "";
      for (const card of waterCards(ledger, strictestOf(body), day)) {
        if (card.limit === null) continue;
        const at: Location | null = card.readings.at(-1)?.at ?? card.limit.at;
        found.set(JSON.stringify([of, card.parameter]), {
          of,
          at,
          terms: [card.parameter],
          parameter: card.parameter,
          limit: card.limit.text,
          crossing: card.crossing?.day ?? Number.NaN,
          text: card.crossing?.text ?? "not expected",
          level: card.level?.text ?? "",
        });
      }
    }
    return found;
  },

  told(before, after, day) {
    // A limit that was stated or taken away is a definition that changed.
    if (before === undefined || after === undefined) return [];
    const { parameter, limit } = after;
    const base = { before: before.text, after: after.text };
    if (Object.is(before.crossing, after.crossing)) {
      if (before.text === after.text) return [];
      return [
        {
          text: `${parameter}: the limit ${limit} is crossed ${after.text} (it was: ${before.text})`,
          isSmall: true,
          ...base,
        },
      ];
    }
    const on = (crossing: number): string => (crossing <= day ? "now" : spokenDay(crossing, day));
    const said = (words: string, tone: Told["tone"]): Told[] => [
      { text: `${parameter}: ${words}`, tone: tone ?? "plain", ...base },
    ];
    if (Number.isNaN(after.crossing))
      return said(
        `the limit ${limit} is no longer expected to be crossed (it was ${on(before.crossing)})`,
        "better",
      );
    if (Number.isNaN(before.crossing))
      return said(`the limit ${limit} is now expected to be crossed ${dated(after.crossing, day)}`, "worse");
    if (before.crossing <= day)
      return said(`the limit ${limit} is crossed ${dated(after.crossing, day)}; it was already`, "better");
    return said(
      `the limit ${limit} is now crossed ${dated(after.crossing, day)}, not ${on(before.crossing)}`,
      after.crossing < before.crossing ? "worse" : "better",
    );
  },
};

const dated = (on: number, day: number): string => (on <= day ? "already" : `about ${spokenDay(on, day)}`);
