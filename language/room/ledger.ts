import type { Book } from "../book/book.ts";
import { replaced } from "../book/duty-words.ts";
import { Kind } from "../book/entries/registry.ts";
import {
  Col,
  choiceOfRow,
  type Facts,
  floatsPerRow,
  intsPerRow,
  kindOfRow,
  markOfAmount,
  Num,
  unitOfAmount,
  unitOfSecond,
} from "../book/facts.ts";
import { noName, wordOf } from "../book/interner.ts";
import { type Parameter, parameters } from "../book/parameters.ts";
import type { Block } from "../book/source.ts";
import type { Body, Duty, Remedy, Species, Station, Tank } from "../book/stations.ts";
import { UNITS } from "../quantity/units.ts";
import { flowThroughFraction } from "../science/dilution.ts";
import { Mark } from "../syntax/pieces.ts";
import { isAboutAsMany } from "./about.ts";
import { amountOf, isAbout, middleOf } from "./amounts.ts";
import { addedBy, isOfWater } from "./dose-amount.ts";
import { DutyTimes, periodStart } from "./duty-times.ts";
import { isSameEntry, isWholeNow, outcomeOf } from "./fulfil.ts";
import type { Moment, Observer } from "./observer.ts";
import { partyOf } from "./party.ts";
import { Series, type SeriesPart } from "./series.ts";
import { beginsCourse, Solutes } from "./solutes.ts";
import { type Holding, Stock } from "./stock.ts";

/** The method word `flow` of a change, by its number among the choices. */
export const flowChoice = 2;

/**
 * What one body of water has gone through, row by row: exchanges, readings, remedies, animals, duties done. The ledger of the room
 * and its gear has no water and knows duties only.
 *
 * A ledger is a fold: its state after a row follows from its state before and the row. `mark` and `reset` take it back to an earlier
 * state, so that an edit re-does only what came after.
 */
export class Ledger {
  readonly book: Book;
  readonly body: Body | undefined;
  readonly solutes: Solutes | undefined;
  readonly stock = new Stock();
  readonly duties: DutyTimes;
  /** Readings by the number of the parameter. `first` and `second` are the ends of the reading, `tag` the tank's station. */
  readonly readings: (Series | undefined)[] = [];
  /** `first` is the fraction of new water, `second` the litres, `tag` the place of the source among the waters. */
  readonly exchanges = new Series();
  /** `first` is what was added (NaN if it cannot be computed), `second` what was in the water before, `tag` the remedy's id. */
  readonly doses = new Series();
  /** Animals by the book: `first` before the entry (NaN if unknown), `second` after it, `tag` the index of the holding. */
  readonly animals = new Series();
  /** How many of each lot are in which tank, by the entries that name it: in the place of the species stands the party. */
  readonly lotStock = new Stock();
  /** Animals of lots, as `animals`; `tag` is the index of the holding in `lotStock`. */
  readonly lots = new Series();
  /** Measured animals: `first` is the score and `second` the length in cm (NaN where there is none), `tag` the index of the holding. */
  readonly conditions = new Series();
  /** Animals that show signs, and baths: `first` is how many (NaN if it is not said), `second` the species' number, `tag` the kind. */
  readonly health = new Series();
  /** All of them, as they were made; the readings and what duties want are added. */
  private readonly series: Series[] = [
    this.exchanges,
    this.doses,
    this.animals,
    this.lots,
    this.conditions,
    this.health,
  ];
  /** The row that was taken last: its time, itself, and its place among the rows of that minute. */
  private now = Number.NaN;
  private nowRow = -1;
  private nowBlock: Block | undefined;
  private order = 0;
  /** Counts how often it went back to an earlier state: what was computed of it before holds no more. */
  revision = 0;
  /** The day to whose beginning it went back each time: what was computed of earlier days holds still. */
  readonly resetDays: number[] = [];
  /** The revision with which its animals became others: what was computed of them alone holds from then on. */
  animalsRevision = 0;
  observer: Observer;

  constructor(book: Book, body: Body | undefined, stations: readonly Station[], observer: Observer) {
    this.book = book;
    this.body = body;
    this.solutes = body === undefined ? undefined : new Solutes(body);
    this.duties = new DutyTimes(stations, this.series);
    this.observer = observer;
  }

  /**
   * What a row does to one of its stations. Of several tanks of this water that a group names, `isFirst` is true for the first, and
   * `together` are all of them: what is done to the water is done once.
   */
  apply(
    moment: Moment,
    facts: Facts,
    row: number,
    station: Station,
    isFirst: boolean,
    together: readonly Tank[],
  ): void {
    const kind = kindOfRow(facts, row);
    const at = row * intsPerRow;
    const subject = facts.ints[at + Col.subject]!;
    this.take(moment);
    this.duties.seen(station.id, moment.time);
    if (this.body !== undefined) {
      switch (kind) {
        case Kind.test:
          this.test(moment, facts, row, station, isFirst, parameters[subject]);
          break;
        case Kind.change:
          if (isFirst) this.change(moment, facts, row, station, together);
          break;
        case Kind.topUp:
          if (isFirst) this.topUp(moment, facts, row, together);
          break;
        case Kind.dose:
          if (isFirst) this.dose(moment, facts, row, station, together, this.book.remedy(wordOf(subject)));
          break;
        case Kind.count:
        case Kind.arrive:
        case Kind.hatch:
        case Kind.lose:
        case Kind.move:
        case Kind.sell:
        case Kind.ship:
          if (station.kind === "tank" && subject !== noName)
            this.tell(moment, facts, row, station as Tank, kind, subject);
          break;
        case Kind.spawn:
          if (station.kind === "tank" && subject !== noName) this.brood(moment, facts, row, station as Tank);
          break;
        case Kind.condition:
          if (station.kind === "tank" && subject !== noName)
            this.measure(moment, facts, row, station as Tank, subject);
          break;
        case Kind.sick:
        case Kind.bath:
          if (isFirst) this.health.add(moment, this.order, amountOf(facts, row), subject, kind);
          break;
      }
    }
    this.noteReplaced(moment, facts, row, station);
    const duties = this.duties.ofKind(kind);
    if (duties !== undefined) this.fulfil(duties, moment, facts, row, station, subject);
  }

  private noteReplaced(moment: Moment, facts: Facts, row: number, station: Station): void {
    if (station.kind !== "gear" || kindOfRow(facts, row) !== Kind.service) return;
    if (choiceOfRow(facts, row) === replaced)
      this.duties.replacedToAdd(station).add(moment, this.order, 0, 0, 0);
  }

  /** The other end of a move: animals that come into a tank of this body. */
  receive(moment: Moment, facts: Facts, row: number, tank: Tank): void {
    this.take(moment);
    const species = facts.ints[row * intsPerRow + Col.subject]!;
    const before = this.stock.known(tank.id, species)?.animals ?? Number.NaN;
    const holding = this.stock.enter(tank.id, species, middleOf(facts, row), isAbout(facts, row));
    this.note(moment, Kind.move, holding, before);
    this.enterLot(moment, facts, row, tank, middleOf(facts, row));
    this.observer.enter?.(moment, {
      tank,
      species: wordOf(species),
      animals: middleOf(facts, row),
      after: holding.animals,
      how: "move",
    });
  }

  /** Fulfils the duties of a gear by an entry at the tank it serves, or of the tank by an entry at the gear, then the `subject`. */
  serve(moment: Moment, facts: Facts, row: number, station: Station, subject = noName): void {
    this.take(moment);
    this.noteReplaced(moment, facts, row, station);
    const all = this.duties.ofKind(kindOfRow(facts, row));
    // A duty of the room that names nothing is done by entries of the room alone.
    const duties = station.kind === "room" ? all?.filter(({ subjects }) => subjects !== undefined) : all;
    if (duties !== undefined) this.fulfil(duties, moment, facts, row, station, subject);
  }

  /** Counts the rows of one minute. */
  private take({ time, block, row }: Moment): void {
    if (time !== this.now) this.order = 0;
    else if (row !== this.nowRow || block !== this.nowBlock) this.order++;
    this.now = time;
    this.nowRow = row;
    this.nowBlock = block;
  }

  private test(
    moment: Moment,
    facts: Facts,
    row: number,
    station: Station,
    isFirst: boolean,
    parameter: Parameter | undefined,
  ): void {
    if (parameter === undefined) return;
    const code = unitOfAmount(facts, row);
    const { units } = this.book;
    const value = units.reading(parameter, facts.floats[row * floatsPerRow]!, code);
    if (Number.isNaN(value)) return;
    const mark = markOfAmount(facts, row);
    const isBelow = mark === Mark.below || mark === Mark.atMost;
    const isAbove = mark === Mark.above || mark === Mark.atLeast;
    const low = isBelow ? Math.min(possibleLow(parameter), value) : value;
    const upper = facts.floats[row * floatsPerRow + Num.high]!;
    const high = isAbove
      ? Number.POSITIVE_INFINITY
      : mark === Mark.range
        ? units.reading(parameter, upper, code)
        : value;
    const isPossible =
      value >= possibleLow(parameter) &&
      value <= possibleHigh(parameter) &&
      (isAbove || high <= possibleHigh(parameter));
    const { limits } = station.kind === "tank" ? (station as Tank) : this.body!;
    let index = -1;
    if (isPossible) {
      let series = this.readings[parameter.id];
      if (series === undefined) {
        this.readings[parameter.id] = series = new Series();
        this.series.push(series);
      }
      // One water has one reading, however many of its tanks are named for it.
      index = isFirst ? series.add(moment, this.order, low, high, station.id) : series.length - 1;
    }
    const limit = limits.get(parameter.id);
    const { body, order } = this;
    this.observer.reading?.(moment, {
      tank: station,
      body: body!,
      parameter,
      low,
      high,
      limit,
      index,
      order,
    });
  }

  private change(
    moment: Moment,
    facts: Facts,
    row: number,
    station: Station,
    together: readonly Tank[],
  ): void {
    const body = this.body!;
    const value = amountOf(facts, row);
    const code = unitOfAmount(facts, row);
    const isFraction = UNITS[code]?.dimension === "fraction";
    const { units } = this.book;
    const aloneL = station.kind === "tank" ? (station as Tank).volumeL : body.volumeL;
    const baseL = together.length > 0 ? together.reduce((sum, tank) => sum + tank.volumeL, 0) : aloneL;
    const givenL = units.canonical(value, code, "volume") * Math.max(1, together.length);
    const volumeL = isFraction ? units.canonical(value, code, "fraction") * baseL : givenL;
    const isFlow = choiceOfRow(facts, row) === flowChoice;
    const asked = isFraction ? units.canonical(value, code, "fraction") : volumeL / baseL;
    // Without volumes a fraction of a tank alone can still be followed.
    const share = volumeL / body.volumeL;
    const batch = Number.isNaN(share) && isFraction && body.tanks.length === 1 ? asked : share;
    const fraction = Math.min(
      1,
      isFlow
        ? Number.isNaN(share)
          ? 1 - Math.exp(-batch)
          : flowThroughFraction(volumeL, body.volumeL)
        : batch,
    );
    if (Number.isNaN(fraction)) return;
    this.exchanges.add(moment, this.order, fraction, volumeL, this.sourceOf(facts, row));
    this.solutes!.exchange(fraction);
    this.observer.change?.(moment, { tank: station, body, volumeL, fraction, isFlow, asked });
  }

  private topUp(moment: Moment, facts: Facts, row: number, together: readonly Tank[]): void {
    const givenL = this.book.units.canonical(amountOf(facts, row), unitOfAmount(facts, row), "volume");
    const volumeL = givenL * Math.max(1, together.length);
    if (Number.isNaN(volumeL)) return;
    // Nothing is removed: what was in the evaporated water stayed. Only what the new water holds is added.
    this.exchanges.add(moment, this.order, 0, volumeL, this.sourceOf(facts, row));
    this.observer.topUp?.(moment, volumeL, this.body!);
  }

  private sourceOf(facts: Facts, row: number): number {
    const source = facts.ints[row * intsPerRow + Col.object]!;
    if (source === noName) return 0;
    const word = wordOf(source);
    return this.book.waters.findIndex((water) => water.name === word);
  }

  private dose(
    moment: Moment,
    facts: Facts,
    row: number,
    station: Station,
    together: readonly Tank[],
    remedy: Remedy | undefined,
  ): void {
    if (remedy === undefined) return;
    const body = this.body!;
    const solutes = this.solutes!;
    const { units } = this.book;
    const code = unitOfAmount(facts, row);
    const amount = addedBy(remedy, units, facts.floats[row * floatsPerRow]!, code, body.volumeL);
    // In shared water a mass is given into each tank, but a concentration is that of all the water.
    const times = isOfWater(units, code) ? 1 : Math.max(1, together.length);
    const added = "added" in amount ? amount.added * times : Number.NaN;
    const before = solutes.at(remedy, moment.time);
    const isNew = beginsCourse(before, moment.time);
    const given = before?.given ?? 0;
    if (before !== undefined && isNew && given < remedy.repeatTimes) {
      this.observer.courseCut?.(before.last, {
        body,
        remedy,
        given,
        due: before.last.time + remedy.repeatDays,
      });
    }
    const was = before?.concentration ?? 0;
    const oldWater = before?.oldWater ?? 1;
    const previous = isNew ? undefined : before?.last;
    const course = solutes.dose(remedy, added, isNew, moment);
    this.doses.add(moment, this.order, added, was, remedy.id);
    this.observer.dose?.(moment, {
      tank: station,
      body,
      remedy,
      added,
      before: was,
      after: course.concentration,
      unknown:
        "unknown" in amount
          ? amount.unknown
          : Number.isNaN(was)
            ? "what is left of an earlier dose is not known"
            : undefined,
      number: course.given,
      sinceDays: previous === undefined ? Number.NaN : moment.time - previous.time,
      changedSince: 1 - oldWater,
      previous,
      harmed: this.harmed(remedy),
    });
  }

  /** The species in this water that a remedy is stated to harm. */
  harmed(remedy: Remedy): Species[] {
    if (remedy.harms.length === 0) return [];
    const harmed = new Set<Species>();
    for (const holding of this.stock.in()) {
      const species = this.book.species.get(wordOf(holding.species));
      if (species !== undefined && remedy.harms.some((word) => species.traits.has(word))) harmed.add(species);
    }
    return [...harmed];
  }

  private tell(moment: Moment, facts: Facts, row: number, tank: Tank, kind: number, species: number): void {
    const { observer, stock } = this;
    const word = wordOf(species);
    const animals = middleOf(facts, row);
    const about = isAbout(facts, row);
    switch (kind) {
      case Kind.count: {
        if (facts.ints[row * intsPerRow + Col.lot] !== noName) {
          this.countLot(moment, facts, row, tank, species);
          return;
        }
        const holding = stock.holding(tank.id, species);
        const of = facts.floats[row * floatsPerRow + Num.second]!;
        const before = holding.animals;
        const isRange = markOfAmount(facts, row) === Mark.range;
        const low = facts.floats[row * floatsPerRow]!;
        observer.count?.(moment, {
          tank,
          species: word,
          lot: "",
          low,
          high: isRange ? facts.floats[row * floatsPerRow + Num.high]! : low,
          isAbout: about,
          of,
          expected: holding.animals,
          isExpectedAbout: holding.isAbout,
          lastCount: holding.lastCount,
          lastTime: holding.lastCountTime,
        });
        // Seeing 12 of 14 is no count of 12. A range that holds the book's number leaves it, and so does an estimate near one that is exact.
        const leaves = isRange
          ? holding.animals >= low && holding.animals <= facts.floats[row * floatsPerRow + Num.high]!
          : about && !holding.isAbout && isAboutAsMany(animals, holding.animals);
        if (!Number.isNaN(of)) holding.animals = of;
        else if (!leaves) {
          holding.animals = animals;
          holding.isAbout = about;
        }
        this.note(moment, kind, holding, before);
        holding.lastCount = holding.animals;
        holding.lastCountTime = moment.time;
        return;
      }
      case Kind.arrive:
      case Kind.hatch: {
        const before = stock.known(tank.id, species)?.animals ?? Number.NaN;
        const holding = stock.enter(tank.id, species, animals, about);
        this.note(moment, kind, holding, before);
        this.enterLot(moment, facts, row, tank, animals);
        observer.enter?.(moment, {
          tank,
          species: word,
          animals,
          after: holding.animals,
          how: kind === Kind.arrive ? "arrive" : "hatch",
        });
        return;
      }
      default: {
        const to = kind === Kind.move ? this.destination(facts, row) : undefined;
        // Nothing goes to a tank that is not there, or to where it is: such a line does not count.
        if (kind === Kind.move && (to === undefined || to === tank)) return;
        const holding = stock.holding(tank.id, species);
        const there = holding.animals;
        const lot = this.leaveLot(moment, facts, row, tank, animals);
        const how =
          kind === Kind.move ? "move" : kind === Kind.lose ? "lose" : kind === Kind.sell ? "sell" : "ship";
        observer.leave?.(moment, {
          tank,
          species: word,
          animals,
          there,
          isAbout: holding.isAbout || about,
          lot: lot === undefined ? "" : wordOf(facts.ints[row * intsPerRow + Col.lot]!),
          ofLot: lot ?? Number.NaN,
          how,
          to,
        });
        stock.leave(tank.id, species, animals);
        this.note(moment, kind, holding, there);
      }
    }
  }

  private note(moment: Moment, kind: number, holding: Holding, before: number): void {
    const { animals: after, index, isAbout: about } = holding;
    this.animals.add(moment, this.order, before, after, index, kind, about);
  }

  /** The book of the lot that a row names; undefined where it names none. */
  private lotHolding(facts: Facts, row: number, tank: Tank): Holding | undefined {
    const lot = facts.ints[row * intsPerRow + Col.lot]!;
    const species = facts.ints[row * intsPerRow + Col.subject]!;
    return lot === noName ? undefined : this.lotStock.holding(tank.id, partyOf(species, lot));
  }

  private noteLot(
    moment: Moment,
    kind: number,
    { animals, index, isAbout: about }: Holding,
    before: number,
  ): void {
    this.lots.add(moment, this.order, before, animals, index, kind, about);
  }

  private enterLot(moment: Moment, facts: Facts, row: number, tank: Tank, animals: number): void {
    const holding = this.lotHolding(facts, row, tank);
    if (holding === undefined) return;
    const before = holding.animals;
    this.lotStock.enter(tank.id, holding.species, animals, isAbout(facts, row));
    this.noteLot(moment, kindOfRow(facts, row), holding, before);
  }

  /** @returns how many of the lot were there before, NaN where nobody knows; undefined where the row names none */
  private leaveLot(
    moment: Moment,
    facts: Facts,
    row: number,
    tank: Tank,
    animals: number,
  ): number | undefined {
    const holding = this.lotHolding(facts, row, tank);
    if (holding === undefined) return undefined;
    const before = holding.animals;
    this.lotStock.leave(tank.id, holding.species, animals);
    this.noteLot(moment, kindOfRow(facts, row), holding, before);
    return before;
  }

  /** A brood begins to be: it has eggs, and no animals yet. */
  private brood(moment: Moment, facts: Facts, row: number, tank: Tank): void {
    const holding = this.lotHolding(facts, row, tank);
    if (holding === undefined) return;
    const before = holding.animals;
    this.lotStock.enter(tank.id, holding.species, 0, false);
    this.noteLot(moment, kindOfRow(facts, row), holding, before);
  }

  private measure(moment: Moment, facts: Facts, row: number, tank: Tank, species: number): void {
    const length = facts.floats[row * floatsPerRow + Num.second]!;
    const lengthCm = this.book.units.canonical(length, unitOfSecond(facts, row), "length");
    const score = facts.floats[row * floatsPerRow]!;
    this.conditions.add(moment, this.order, score, lengthCm, this.stock.holding(tank.id, species).index);
  }

  /**
   * A count of a lot alone. What it is short of, or over, the lot's own book goes out of or into that of the species; of a lot of which
   * nobody knew how many there are it says only which of the animals they are.
   */
  private countLot(moment: Moment, facts: Facts, row: number, tank: Tank, species: number): void {
    const lot = this.lotHolding(facts, row, tank)!;
    const holding = this.stock.holding(tank.id, species);
    const animals = middleOf(facts, row);
    const about = isAbout(facts, row);
    const isRange = markOfAmount(facts, row) === Mark.range;
    const low = facts.floats[row * floatsPerRow]!;
    const high = isRange ? facts.floats[row * floatsPerRow + Num.high]! : low;
    const of = facts.floats[row * floatsPerRow + Num.second]!;
    const before = lot.animals;
    this.observer.count?.(moment, {
      tank,
      species: wordOf(species),
      lot: wordOf(facts.ints[row * intsPerRow + Col.lot]!),
      low,
      high,
      isAbout: about,
      of,
      expected: before,
      isExpectedAbout: lot.isAbout,
      lastCount: lot.lastCount,
      lastTime: lot.lastCountTime,
    });
    const leaves = isRange
      ? before >= low && before <= high
      : about && !lot.isAbout && isAboutAsMany(animals, before);
    if (!Number.isNaN(of)) lot.animals = of;
    else if (!leaves) {
      lot.animals = animals;
      lot.isAbout = about;
    }
    this.noteLot(moment, Kind.count, lot, before);
    lot.lastCount = lot.animals;
    lot.lastCountTime = moment.time;
    const whole = holding.animals;
    const change = Number.isNaN(before) ? 0 : lot.animals - before;
    holding.animals = Math.max(Number.isNaN(whole) ? 0 : whole + change, lot.animals);
    this.note(moment, Kind.count, holding, whole);
  }

  private destination(facts: Facts, row: number): Tank | undefined {
    const station = this.book.station(facts.ints[row * intsPerRow + Col.object]!);
    return station?.kind === "tank" ? (station as Tank) : undefined;
  }

  private fulfil(
    duties: readonly Duty[],
    moment: Moment,
    facts: Facts,
    row: number,
    station: Station,
    subject: number,
  ): void {
    for (const duty of duties) {
      const outcome = outcomeOf(duty, { facts, row, station, subject }, this.body, this.book.units);
      if (outcome === undefined) continue;
      if (outcome === "undone") {
        this.duties.undoneToAdd(duty).add(moment, this.order, 0, 0, 0);
        continue;
      }
      if (outcome === "less") {
        const less = this.duties.lessToAdd(duty);
        const isWhole = isWholeNow(duty, less, moment, subject);
        less.add(moment, this.order, 0, 0, subject);
        if (!isWhole) continue;
      }
      const done = this.duties.done(duty);
      if (isSameEntry(done, moment, facts, row)) continue;
      done.add(moment, this.order, 0, 0, 0);
      if (duty.form.when !== "at most") continue;
      const times = done.length - done.from(periodStart(duty.form.periodDays, moment.time));
      if (times > duty.form.times) this.observer.duty?.(moment, { duty, times });
    }
  }

  mark(): LedgerMark {
    return {
      lengths: Int32Array.from(this.series, ({ length }) => length),
      solutes: this.solutes?.mark(),
      stock: this.stock.mark(),
      lotStock: this.lotStock.mark(),
      duties: this.duties.mark(),
      observer: this.observer.mark?.() ?? 0,
    };
  }

  /**
   * Goes back to a mark, to take in from there on what the log says now.
   * @param day the first day of which the log says something else
   * @returns what it took in after the mark: it may come to stand as it did, and then the rest is to be had without reading
   */
  reset(mark: LedgerMark, day: number): LedgerRest {
    const { lengths } = mark;
    const rest: LedgerRest = {
      from: mark,
      parts: this.series.map((series, at) => series.behind(lengths[at] ?? 0)),
      found: this.observer.behind?.(mark.observer),
      end: this.mark(),
    };
    this.series.forEach((series, at) => {
      series.cut(lengths[at] ?? 0);
    });
    this.stand(mark);
    this.observer.reset?.(mark.observer);
    this.revision++;
    this.resetDays.push(day);
    return rest;
  }

  /**
   * Whether it stands, before the first row of a day, as it did at a mark before it was reset, in all that tells what later rows do: what
   * they did then they would do again.
   */
  standsAs(mark: LedgerMark, rest: LedgerRest, day: number): boolean {
    const { solutes, duties } = this;
    const isAs = (series: Series, fromTime: number): boolean => this.isAs(series, mark, rest, fromTime);
    if (!this.stock.isAs(mark.stock) || !this.lotStock.isAs(mark.lotStock) || !duties.isAs(mark.duties))
      return false;
    for (const { done, days } of duties.periods()) if (!isAs(done, periodStart(days, day))) return false;
    // What remedies come together is judged by the last dose of each.
    return solutes === undefined || (solutes.isAs(mark.solutes!) && isAs(this.doses, solutes.earliestLast));
  }

  /** Takes in what followed a mark, after which it stands as it did. Returns what makes later marks true. */
  rejoin(mark: LedgerMark, rest: LedgerRest): (later: LedgerMark) => LedgerMark {
    if (!this.isAs(this.animals, mark, rest, Number.NEGATIVE_INFINITY)) this.animalsRevision = this.revision;
    const shifts = this.series.map((series, at) => series.length - (mark.lengths[at] ?? 0));
    const found = (this.observer.mark?.() ?? 0) - mark.observer;
    this.series.forEach((series, at) => {
      const part = rest.parts[at];
      if (part !== undefined) series.addBehind(part, (mark.lengths[at] ?? 0) - (rest.from.lengths[at] ?? 0));
    });
    this.stand(rest.end);
    this.observer.addBehind?.(rest.found, mark.observer - rest.from.observer);
    if (found === 0 && shifts.every((shift) => shift === 0)) return (later) => later;
    return (later) => ({
      ...later,
      lengths: Int32Array.from(shifts, (shift, at) => (later.lengths[at] ?? 0) + shift),
      observer: later.observer + found,
    });
  }

  /** To be called when all was read anew up to the end. */
  settle(rest: LedgerRest): void {
    const isAs = this.isAs(this.animals, rest.end, rest, Number.NEGATIVE_INFINITY);
    if (!isAs || !this.stock.isAs(rest.end.stock)) this.animalsRevision = this.revision;
  }

  /** Whether a series, behind what stayed, is what it was at a mark, as far back as to a time. */
  private isAs(series: Series, mark: LedgerMark, rest: LedgerRest, fromTime: number): boolean {
    const at = this.series.indexOf(series);
    const length = rest.from.lengths[at] ?? 0;
    return series.isAs(rest.parts[at], (mark.lengths[at] ?? 0) - length, length, fromTime);
  }

  private stand({ solutes, stock, lotStock, duties }: LedgerMark): void {
    if (solutes !== undefined) this.solutes?.reset(solutes);
    this.stock.reset(stock);
    this.lotStock.reset(lotStock);
    this.duties.reset(duties);
    this.now = Number.NaN;
  }
}

export interface LedgerMark {
  /** Of each series, in the order in which they were made. */
  readonly lengths: Int32Array;
  readonly solutes: ReturnType<Solutes["mark"]> | undefined;
  readonly stock: ReturnType<Stock["mark"]>;
  readonly lotStock: ReturnType<Stock["mark"]>;
  readonly duties: ReturnType<DutyTimes["mark"]>;
  readonly observer: number;
}

/** What a ledger took in after a mark, and how it stood then. */
export interface LedgerRest {
  readonly from: LedgerMark;
  readonly parts: readonly SeriesPart[];
  readonly found: unknown;
  readonly end: LedgerMark;
}

function possibleLow(parameter: Parameter): number {
  return parameter.possible[0] * parameter.unit.factor + parameter.unit.offset;
}

function possibleHigh(parameter: Parameter): number {
  return parameter.possible[1] * parameter.unit.factor + parameter.unit.offset;
}
