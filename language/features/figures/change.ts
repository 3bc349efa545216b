import { spokenDay } from "../../book/dates.ts";
import { choiceOfRow, unitOfAmount } from "../../book/facts.ts";
import { readingText } from "../../checks/words.ts";
import { formatNumber } from "../../quantity/format.ts";
import { UNITS } from "../../quantity/units.ts";
import { flowChoice, type Ledger } from "../../room/ledger.ts";
import { balanceUntil, settledTime } from "../../room/water.ts";
import { type Why, whyEntry } from "../../room/why.ts";
import { whyVolume } from "../../room/why-dose.ts";
import { chlorineText, whyChlorine } from "./chlorine.ts";
import { acrossText, type Crossed, crossed, spanText, whyBalance } from "./level.ts";
import { isShared, type LineFigure, ledgersOf, type Row, tankOf } from "./row.ts";

/** What a change of water came to: litres, the share of all the water, and what it did to what is dissolved. */

interface Exchanged {
  readonly ledger: Ledger;
  readonly index: number;
  readonly litres: number;
  readonly fraction: number;
}

export function changeFigure(row: Row): LineFigure | undefined {
  const exchanges = ledgersOf(row).flatMap((ledger): Exchanged[] => {
    const index = ledger.exchanges.find(row.time, row.block, row.id);
    if (index < 0) return [];
    return [
      { ledger, index, litres: ledger.exchanges.second[index]!, fraction: ledger.exchanges.first[index]! },
    ];
  });
  const [first] = exchanges;
  if (first === undefined) return undefined;
  const why = (): Why => whyChange(row, exchanges);
  if (exchanges.length > 1) {
    const litres = exchanges.reduce((sum, each) => sum + each.litres, 0);
    const text = `${row.stations.length} tanks`;
    return { kind: "change", label: Number.isNaN(litres) ? text : `${text}, ${litresText(litres)}`, why };
  }
  const level = crossed(first.ledger, tankOf(row, first.ledger), first.index);
  const label = [
    amountText(row, first),
    level === undefined ? "" : `${level.parameter.name} ${acrossText(first.ledger, level)}`,
    chlorineText(first),
  ].filter((part) => part !== "");
  return label.length === 0 ? undefined : { kind: "change", label: label.join(" · "), why };
}

/** What is not written: litres of a fraction, a fraction of litres; of a flow what it replaces; of shared water its share. */
function amountText(row: Row, { ledger, litres, fraction }: Exchanged): string {
  const isFraction = UNITS[unitOfAmount(row.facts, row.at)]?.dimension === "fraction";
  const volume = isFraction && !Number.isNaN(litres) ? litresText(litres) : "";
  const share = `${formatNumber(fraction * 100, 2)} %`;
  const of = isShared(ledger) && !isWhole(row) ? ` of ${ledger.body?.name}` : "";
  const isFlow = choiceOfRow(row.facts, row.at) === flowChoice;
  if (isFlow) return [volume, `replaces ${share}${of}`].filter((part) => part !== "").join(", ");
  if (of !== "") return volume === "" ? `${share}${of}` : `${volume}, ${share}${of}`;
  return isFraction ? volume : share;
}

/** Whether a row names all of the water: its system, and not one of its tanks. */
const isWhole = ({ stations }: Row): boolean => stations.length === 1 && stations[0]?.kind === "system";

const litresText = (litres: number): string => `${formatNumber(litres, litres < 10 ? 2 : 3)} L`;

function whyChange(row: Row, exchanges: readonly Exchanged[]): Why {
  const parts = exchanges.map((each) => whyExchange(row, each));
  const [only] = parts;
  if (parts.length === 1 && only !== undefined) return only;
  const litres = exchanges.reduce((sum, each) => sum + each.litres, 0);
  return {
    what: `change of ${spokenDay(row.block.day)}`,
    value: Number.isNaN(litres) ? "" : `${litresText(litres)} in all`,
    from: parts,
  };
}

function whyExchange(row: Row, { ledger, index, litres, fraction }: Exchanged): Why {
  const isFlow = choiceOfRow(row.facts, row.at) === flowChoice;
  const share = `${formatNumber(fraction * 100)} % of the water is new`;
  const level = crossed(ledger, tankOf(row, ledger), index);
  return {
    what: `change of ${spokenDay(row.block.day)} in ${ledger.body?.name}`,
    value: Number.isNaN(litres) ? share : `${litresText(litres)}, ${share}`,
    formula: isFlow ? "f = 1 - exp(-V / V0)" : "f = V / V0",
    ...(isFlow ? { source: "Steffensen 1989, Fish Physiol. Biochem. 6:49-59, eq. 5" } : {}),
    from: [
      whyEntry({ block: row.block, row: row.id }),
      whyVolume(ledger),
      ...(level === undefined ? [] : [whyCrossed(ledger, level, index)]),
      ...whyChlorine({ ledger, index, litres }),
    ],
  };
}

function whyCrossed(ledger: Ledger, level: Crossed, index: number): Why {
  const { parameter, across } = level;
  const until = settledTime(ledger.exchanges, index);
  const balance = balanceUntil(ledger, parameter, until);
  const water = ledger.book.waters[ledger.exchanges.tag[index]!];
  const source = readingText(ledger.book, parameter, across.sourceMgL);
  return {
    what: `${parameter.name} after it`,
    value: spanText(ledger, parameter, across.after),
    formula: "C (1 - f) + Cs f",
    from: [
      ...(balance === undefined
        ? []
        : [whyBalance(ledger, parameter, balance, until, `${parameter.name} before it`)]),
      {
        what: `in the new water${water === undefined ? "" : ` (${water.name})`}`,
        value: source,
        ...(water === undefined ? {} : { place: water.place }),
        from: [],
      },
    ],
  };
}
