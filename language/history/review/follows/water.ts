import { spokenDay } from "../../../book/dates.ts";
import { parameters } from "../../../book/parameters.ts";
import { strictestOf } from "../../../features/tank-card.ts";
import { limitMet } from "../../../features/water-card.ts";
import type { Follows, Standing, Told } from "../consequence.ts";

interface WaterStanding extends Standing {
  readonly parameter: string;
  readonly limit: string;
  /** NaN where it is not expected, or nothing tells. */
  readonly crossing: number;
  readonly text: string;
}

/** When a limit is met, by the forecast that cards and findings show. */
export const water: Follows<WaterStanding> = {
  is: "water",
  reach: "water",

  standing(checked, day) {
    const found = new Map<string, WaterStanding>();
    for (const ledger of checked.logbook.ledgers) {
      const tank = strictestOf(ledger.body);
      if (tank === undefined) continue;
      const of = (ledger.body!.system ?? ledger.body!.tanks[0])!.name;
      for (const parameter of parameters) {
        const limit = tank.limits.get(parameter.id);
        if (limit === undefined) continue;
        const { limitText, crossing, at } = limitMet(ledger, tank, limit, day);
        found.set(JSON.stringify([of, parameter.name]), {
          of,
          at,
          terms: [parameter.name],
          parameter: parameter.name,
          limit: limitText,
          crossing: crossing?.day ?? Number.NaN,
          text: crossing?.text ?? "not expected",
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
