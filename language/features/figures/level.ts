import { type Parameter, parameterOf } from "../../book/parameters.ts";
import type { Tank } from "../../book/stations.ts";
import { percent, readingText } from "../../checks/words.ts";
import { kept } from "../../room/kept.ts";
import type { Ledger } from "../../room/ledger.ts";
import { type LevelAcross, levelAcross } from "../../room/past.ts";
import { type Balance, settledTime } from "../../room/water.ts";
import { type Why, whyEntry } from "../../room/why.ts";
import type { Production, Span } from "../../science/mass-balance.ts";
import { isOutside } from "../../science/result.ts";

/** Levels of the past, and the reasons for them. */

const nitrate = parameterOf("nitrate");

/** A parameter with its level before and after a change. */
export interface Crossed {
  readonly parameter: Parameter;
  readonly across: LevelAcross;
}

/** What a change did to nitrate, or, where nothing tells of it, to the limited parameter of which there are most readings. */
export function crossed(ledger: Ledger, tank: Tank | undefined, exchange: number): Crossed | undefined {
  return kept(ledger, `crossed ${exchange}`, () => {
    const count = ({ id }: Parameter): number => ledger.readings[id]?.length ?? 0;
    const limited = [...(tank?.limits.values() ?? [])].map(({ parameter }) => parameter);
    const candidates = [nitrate, ...limited.sort((a, b) => count(b) - count(a))];
    for (const parameter of new Set(candidates)) {
      const across = levelAcross(ledger, parameter, exchange);
      if (across !== undefined) return { parameter, across };
    }
    return undefined;
  });
}

/** `35 → 28 mg/L`. */
export function acrossText({ book }: Ledger, { parameter, across }: Crossed): string {
  const before = readingText(book, parameter, across.before.best, 2);
  return `${bare(before)} → ${readingText(book, parameter, across.after.best, 2)}`;
}

/** A figure without its unit. */
const bare = (text: string): string => text.split(" ")[0] ?? text;

/** `18.2 mg/L (15 to 21)`. */
export function spanText({ book }: Ledger, parameter: Parameter, { best, low, high }: Span): string {
  const text = readingText(book, parameter, best);
  if (low === high) return text;
  return `${text} (${bare(readingText(book, parameter, low))} to ${bare(readingText(book, parameter, high))})`;
}

/** `0.85 mg/L a day`. */
export function rateText({ book }: Ledger, parameter: Parameter, made: Production, significant = 2): string {
  const { rateMgLDay } = made;
  return `${rateMgLDay > 0 ? "+" : ""}${readingText(book, parameter, rateMgLDay, significant)} a day`;
}

/** Whether a production is surely a rise, or surely a fall: its interval does not hold nought. */
export function isSure({ interval }: Production): boolean {
  return !isOutside(interval) && (interval.low > 0 || interval.high < 0);
}

/** Why water was at a level at a time: the readings and the changes until then. */
export function whyBalance(
  ledger: Ledger,
  parameter: Parameter,
  balance: Balance,
  until: number,
  what: string,
): Why {
  const { production, level, exchanges, readings } = balance;
  const series = ledger.readings[parameter.id]!;
  const first = readings[0]?.timeDays ?? until;
  const leaves: Why[] = [];
  for (let at = series.from(Math.floor(first)); at < series.length && settledTime(series, at) < until; at++)
    if (settledTime(series, at) >= first)
      leaves.push(whyEntry({ block: series.block[at]!, row: series.row[at]! }));
  const made: Why = isOutside(production)
    ? { what: "production a day", value: production.outside, from: leaves }
    : {
        what: "production a day",
        value: productionText(ledger, parameter, production),
        formula:
          "median over pairs of readings of (y2 - a y1 - d) / b, where a is what is left of the old water, d what the source brought, b the days that count",
        source:
          "Theil 1950; Sen 1968, J. Am. Stat. Assoc. 63:1379; censored readings: Akritas, Murphy & LaValley 1995, J. Am. Stat. Assoc. 90:170",
        from: leaves,
      };
  const changes = exchanges.filter(({ fraction }) => fraction > 0).length;
  return {
    what,
    value: level === undefined ? "not known" : spanText(ledger, parameter, level),
    formula: "median of the readings, each carried on by the production and the changes since",
    from: [
      made,
      { what: "changes taken out", value: String(changes), formula: "C (1 - f) + Cs f", from: [] },
    ],
  };
}

/** `0.85 mg/L (0.6 to 1.1, 95 %)`. */
function productionText(ledger: Ledger, parameter: Parameter, made: Production): string {
  const { rateMgLDay, interval, confidence } = made;
  const text = readingText(ledger.book, parameter, rateMgLDay);
  if (isOutside(interval)) return `${text} (${interval.outside})`;
  const span = spanText(ledger, parameter, { best: rateMgLDay, ...interval });
  return span.replace(/\)$/, `, ${percent(confidence)})`);
}
