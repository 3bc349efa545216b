import { nameOf, wordOf } from "../book/interner.ts";
import type { Stocking, Tank } from "../book/stations.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { formatNumber } from "../quantity/format.ts";
import { biomass } from "../room/biomass.ts";
import { measuredTrends } from "../room/condition-trend.ts";
import { courses, entriesBefore } from "../room/course.ts";
import { receivedConsignments, tollsOf } from "../room/dead-on-arrival.ts";
import type { Logbook } from "../room/logbook.ts";
import { lotLife } from "../room/lot-life.ts";
import { bornOfLot, lotStories, lotsAt, speciesOfLot, supplierOfLot } from "../room/lots.ts";
import { measuredBefore } from "../room/measured.ts";
import { deathsOf, mortality } from "../room/mortality.ts";
import { oxygenUse } from "../room/oxygen-use.ts";
import { sexesBefore } from "../room/sexes.ts";
import { addedUp, lotBook, type Period, type StockRow, type Sums, stockBook } from "../room/stock-book.ts";
import { whyAnimals } from "../room/why-stock.ts";
import { isOutside } from "../science/result.ts";
import { known, rowLocation, whyCard } from "./card-parts.ts";
import { tollCard } from "./orders-card.ts";
import type {
  LotCard,
  MeasuredCard,
  MortalityCard,
  StockBy,
  StockCard,
  StockingCard,
  StockLine,
} from "./stock-cards.ts";
import { locationOf } from "./view.ts";

/** The stock of a room over a period, by what is asked for. */
export function stockCard(checked: CheckedLogbook, period: Period, by: StockBy): StockCard {
  const { logbook } = checked;
  const { from, to } = period;
  const days = to - from + 1;
  const before = { from: from - days, to: from - 1 };
  const bookOf = by === "tank" || by === "species" ? stockBook : lotBook;
  const rows = bookOf(logbook, period);
  const groups = groupsOf(logbook, rows, by);
  const earlier = groupsOf(logbook, bookOf(logbook, before), by);
  const all = stockBook(logbook, period);
  return {
    is: "stock",
    from,
    to,
    by,
    lines: [...groups].map(([key, group]) => lineOf(group, earlier.get(key)?.rows ?? [], period)),
    total: lineOf({ ...nameless, rows: all }, stockBook(logbook, before), period),
    dead: deadOnArrival(logbook, period),
    lots: lotCards(logbook, period),
    tanks: logbook.book.tanks.flatMap((tank) => stockingCard(logbook, tank, to)),
    measured: logbook.book.tanks.flatMap((tank) => measuredCards(logbook, tank, to)),
  };
}

interface Group {
  readonly tank: string;
  readonly species: string;
  readonly lot: string;
  readonly supplier: string;
  readonly rows: StockRow[];
}

const nameless = { tank: "", species: "", lot: "", supplier: "" };

function groupsOf(logbook: Logbook, rows: readonly StockRow[], by: StockBy): Map<string, Group> {
  const stories = lotStories(logbook);
  const groups = new Map<string, Group>();
  for (const row of rows) {
    const { tank, species, lot } = row;
    const story = stories.get(lot);
    const supplier = story === undefined ? "" : supplierOfLot(story);
    const names =
      by === "tank"
        ? { ...nameless, tank: tank.name, species }
        : by === "species"
          ? { ...nameless, species }
          : by === "lot"
            ? { ...nameless, lot, species, supplier }
            : { ...nameless, supplier };
    const key = JSON.stringify(names);
    const known = groups.get(key);
    if (known === undefined) groups.set(key, { ...names, rows: [row] });
    else known.rows.push(row);
  }
  const compare = (a: Group, b: Group): number =>
    a.supplier.localeCompare(b.supplier) || a.lot.localeCompare(b.lot) || a.species.localeCompare(b.species);
  return by === "tank" ? groups : new Map([...groups].sort(([, a], [, b]) => compare(a, b)));
}

function lineOf({ rows, ...names }: Group, earlier: readonly StockRow[], { from, to }: Period): StockLine {
  const sums = addedUp(rows);
  const [only] = rows;
  return {
    ...names,
    ...sums,
    isAbout: rows.some(({ isAbout, sums: { closing } }) => isAbout && closing > 0),
    mortality: mortalityCard(sums, to - from + 1, addedUp(earlier), names.tank === ""),
    why: rows.length === 1 && only !== undefined && names.tank !== "" ? whyCard(whyRow(only, to)) : null,
  };
}

function whyRow({ ledger, tank, species, lot, course }: StockRow, to: number) {
  const end = (course.at[entriesBefore(course, to + 1) - 1] ?? -1) + 1;
  return whyAnimals(ledger, tank, species, `${species} in ${tank.name}`, end, lot);
}

function mortalityCard(sums: Sums, days: number, before: Sums, isRoomWide: boolean): MortalityCard {
  const { against, ...rest } = mortality(sums, days, before, isRoomWide);
  return {
    ...rest,
    against: isOutside(against)
      ? null
      : {
          deaths: deathsOf(before),
          animalDays: before.animalDays,
          ratio: known(against.ratio),
          low: against.interval.low,
          high: known(against.interval.high),
          p: against.p,
        },
  };
}

function deadOnArrival(logbook: Logbook, { from, to }: Period): StockCard["dead"] {
  const came = receivedConsignments(logbook, to).filter(({ day }) => day >= from);
  return (["route", "carrier"] as const).flatMap((by) => tollsOf(came, by).map(tollCard));
}

function lotCards(logbook: Logbook, period: Period): LotCard[] {
  const there = lotsAt(logbook, period.to);
  const moved = new Set(lotBook(logbook, period).map(({ lot }) => lot));
  return [...lotStories(logbook).values()].flatMap((story): LotCard[] => {
    const { name, stated, made } = story;
    const homes = there.filter(({ lot }) => lot === name);
    if (homes.length === 0 && !moved.has(name)) return [];
    const life = lotLife(logbook, name, period.to);
    const born = bornOfLot(story);
    const first = made[0];
    return [
      {
        lot: name,
        title: stated?.title ?? "",
        species: [...speciesOfLot(story)].join(", "),
        supplier: supplierOfLot(story),
        born: known(born),
        ageDays: known(period.to - born),
        homes: homes.map(({ tank, animals }) => ({ tank: tank.name, animals })),
        life: isOutside(life)
          ? null
          : {
              since: life.since,
              animals: life.animals,
              deaths: life.deaths,
              left: life.left,
              still: life.still,
              medianDays: isOutside(life.medianDays) ? null : life.medianDays,
              table: life.table,
            },
        unknown: isOutside(life) ? life.outside : "",
        at:
          stated === undefined
            ? first === undefined
              ? null
              : rowLocation(first.block, first.row)
            : locationOf(stated.place),
      },
    ];
  });
}

/** `120 g`, `30 animals`, `0.5 g/L`. */
export function holdsText(holds: Stocking | undefined): string {
  if (holds === undefined) return "";
  const unit = { animals: "animals", grams: "g", "grams a litre": "g/L" }[holds.is];
  return `${formatNumber(holds.most)} ${unit}`;
}

/** None for a tank without animals. */
export function stockingCard(logbook: Logbook, tank: Tank, day: number): StockingCard[] {
  const ledger = logbook.ledgerOf(tank);
  const mass = biomass(ledger, tank, day + 1);
  if (mass.masses.length === 0) return [];
  const use = oxygenUse(ledger, tank, day + 1);
  const isWeighed = mass.unknown.length < mass.masses.length;
  return [
    {
      tank: tank.name,
      grams: isWeighed ? mass.grams : null,
      gramsPerLitre: isWeighed ? known(mass.grams / tank.volumeL) : null,
      unweighed: mass.unknown,
      holdsText: holdsText(tank.holds),
      oxygen: isOutside(use)
        ? null
        : {
            mgPerH: use.mgPerH,
            heldMg: use.heldMg,
            hours: use.hours,
            without: use.without.map(({ species, reason }) => `${species}: ${reason}`),
            why: whyCard(use.why),
          },
      oxygenUnknown: isOutside(use) ? use.outside : "",
      why: whyCard(mass.why),
    },
  ];
}

const monthDays = 30;

function measuredCards(logbook: Logbook, tank: Tank, day: number): MeasuredCard[] {
  const ledger = logbook.ledgerOf(tank);
  return courses(ledger).flatMap((course): MeasuredCard[] => {
    if (course.holding.tank !== tank.id) return [];
    const species = wordOf(course.holding.species);
    const sexes = sexesBefore(course, day + 1);
    const trends = measuredTrends(measuredBefore(ledger, tank, nameOf(species), day + 1));
    if (sexes === undefined && trends.length === 0) return [];
    return [
      {
        tank: tank.name,
        species,
        sexes:
          sexes === undefined
            ? null
            : {
                males: sexes.males,
                females: sexes.females,
                unsexed: sexes.unsexed,
                share: sexes.share,
                day: Math.floor(sexes.time),
                at: rowLocation(sexes.block, sexes.row),
              },
        trends: trends.map(({ what, unit, latest, latestAt, entries, slope }) => ({
          what,
          unit,
          latest,
          day: Math.floor(latestAt.time),
          measurements: entries.length,
          perMonth: isOutside(slope)
            ? null
            : {
                best: slope.perDay * monthDays,
                low: isOutside(slope.interval) ? null : slope.interval.low * monthDays,
                high: isOutside(slope.interval) ? null : slope.interval.high * monthDays,
              },
          unknown: isOutside(slope) ? slope.outside : "",
          at: rowLocation(latestAt.block, latestAt.row),
        })),
      },
    ];
  });
}
