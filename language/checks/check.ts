import type { Book } from "../book/book.ts";
import type { Block, BlockChange, Source } from "../book/source.ts";
import { keptOfFound } from "../room/kept-of-found.ts";
import type { Ledger } from "../room/ledger.ts";
import { Logbook } from "../room/logbook.ts";
import { suppliesSeen } from "../room/supply-rows.ts";
import { ammoniaFindings } from "./ammonia.ts";
import { bathFindings } from "./baths.ts";
import { broodFindings } from "./broods.ts";
import { caseFindings } from "./cases.ts";
import { changeChecks } from "./changes.ts";
import { courseFindings } from "./courses.ts";
import { doseChecks } from "./doses.ts";
import { doseTogetherChecks } from "./doses-together.ts";
import { dutyChecks, lateFindings } from "./duties.ts";
import { exposureFindings } from "./exposure.ts";
import { feedingFindings, grazedFindings } from "./feeding.ts";
import type { Finding, Severity } from "./finding.ts";
import { gasFindings } from "./gases.ts";
import { limitChecks } from "./limits.ts";
import { lossFindings } from "./losses.ts";
import { lotFindings } from "./lots.ts";
import { moveFindings } from "./moves.ts";
import { nameFindings } from "./names.ts";
import { FindingObserver, type RowFinding, settleFinding } from "./observe.ts";
import { pantryFindings } from "./pantry.ts";
import { pedigreeFindings } from "./pedigree.ts";
import { poisonFindings } from "./poisons.ts";
import { quarantineFindings } from "./quarantine.ts";
import { roomLossFindings } from "./room-losses.ts";
import { sampleFindings } from "./samples.ts";
import { serviceChecks } from "./service.ts";
import { shippingFindings } from "./shipping.ts";
import { stockChecks } from "./stock.ts";
import { stockingFindings } from "./stocking.ts";
import { textFinding, textFindings } from "./text.ts";
import { trendFindings } from "./trends.ts";

/** How much has been checked: tests hold the work of an edit against it. */
export const checkCounts = { blocks: 0, ledgers: 0 };

const blocksAtOnce = 64;
const findingsAtOnce = 500;

/** What is kept of a block: true for one revision and one book. */
interface BlockFindings {
  readonly revision: number;
  readonly book: Book;
  readonly findings: readonly Finding[];
}

/** What is kept of a ledger: true for one revision of it, and one day. */
interface LedgerFindings {
  readonly ledger: Ledger;
  readonly revision: number;
  readonly findings: readonly (Finding | RowFinding)[];
}

/**
 * A logbook with its findings. What a block's text tells is kept until the block or a definition changes; what follows from a ledger
 * until the ledger is derived again, or the day is another.
 */
export class CheckedLogbook {
  readonly logbook: Logbook;
  private readonly observers: FindingObserver[] = [];
  private readonly blocks = new WeakMap<Block, BlockFindings>();
  private late: (LedgerFindings | undefined)[] = [];
  private lateDay = Number.NaN;

  constructor() {
    this.logbook = new Logbook((ledger) => this.observe(ledger));
  }

  get book(): Book {
    this.refresh();
    return this.logbook.book;
  }

  set(path: string, text: string): void {
    this.logbook.set(path, text);
  }

  put(source: Source): void {
    this.logbook.put(source);
  }

  remove(path: string): void {
    this.logbook.remove(path);
  }

  take(change: BlockChange): void {
    this.logbook.take(change);
  }

  /** Brings all up to date. */
  refresh(): void {
    this.logbook.refresh();
  }

  /** All findings as of a day outside, in order of files and places. */
  findings(worldDay: number): Finding[] {
    return this.settled(this.logbook.blocks(), worldDay, () => true);
  }

  /** Finds in pieces what takes longest of all findings, for who does other things between them. Until it is through nothing is to be asked. */
  *checking(worldDay: number): Generator<void> {
    yield* this.logbook.refreshing();
    let count = 0;
    for (const block of this.logbook.blocks()) {
      this.blockFindings(block);
      if (++count % blocksAtOnce === 0) yield;
    }
    for (let at = 0; at < this.logbook.ledgers.length; at++) {
      this.lateOf(at, worldDay);
      yield;
    }
    // What is found of all of the room at once is kept by the first question.
    const { casesOf, samplesOf, shippingOf, lotsOf, roomLossesOf, pantryOf, broodsOf } = this;
    for (const family of [casesOf, samplesOf, shippingOf, lotsOf, roomLossesOf, pantryOf, broodsOf]) {
      family.call(this, 0, worldDay);
      yield;
    }
  }

  /** All findings in pieces, of a log that has been checked. */
  *finding(worldDay: number): Generator<void, Finding[]> {
    const findings = this.logbook.blocks().flatMap((block) => this.blockFindings(block));
    let count = 0;
    for (const found of this.unsettled(worldDay)) {
      findings.push(...settle(found));
      if (++count % findingsAtOnce === 0) yield;
    }
    return inOrder(findings);
  }

  /** The findings of one file. */
  findingsIn(source: Source, worldDay: number): Finding[] {
    return this.settled(source.blocks, worldDay, (block) => block.file === source);
  }

  /** The findings of one block. */
  findingsOn(block: Block, worldDay: number): Finding[] {
    return this.settled([block], worldDay, (other) => other === block);
  }

  /** The findings of some blocks. */
  findingsAmong(blocks: ReadonlySet<Block>, worldDay: number): Finding[] {
    return this.settled([...blocks], worldDay, (block) => blocks.has(block));
  }

  /** What follows from one ledger: the findings at its entries, and what is late or ahead. @param ledger its number */
  findingsOf(ledger: number, worldDay: number): Finding[] {
    this.refresh();
    const found = [
      ...(this.observers[ledger]?.found ?? []),
      ...this.lateOf(ledger, worldDay),
      ...this.shippingOf(ledger, worldDay),
      ...this.lotsOf(ledger),
      ...this.roomLossesOf(ledger, worldDay),
      ...this.pantryOf(ledger, worldDay),
      ...this.broodsOf(ledger, worldDay),
      ...(quarantineFindings(this.logbook).get(ledger) ?? []),
      ...this.samplesOf(ledger, worldDay),
      ...this.casesOf(ledger, worldDay),
      ...(exposureFindings(this.logbook).get(ledger) ?? []),
    ];
    return inOrder(found.flatMap(settle));
  }

  /** How many findings of each severity there are, without settling where and what they are. */
  count(worldDay: number): Record<Severity, number> {
    this.refresh();
    const counts: Record<Severity, number> = { error: 0, warning: 0, information: 0, hint: 0 };
    for (const block of this.logbook.blocks())
      for (const finding of this.blockFindings(block)) counts[finding.severity]++;
    for (const found of this.unsettled(worldDay))
      counts[typeof found.severity === "function" ? found.severity() : found.severity]++;
    return counts;
  }

  private settled(
    blocks: readonly Block[],
    worldDay: number,
    isWanted: (block: Block) => boolean,
  ): Finding[] {
    this.refresh();
    const findings = blocks.flatMap((block) => this.blockFindings(block));
    for (const found of this.unsettled(worldDay)) if (isWanted(found.block)) findings.push(...settle(found));
    return inOrder(findings);
  }

  /** What does not follow from one block alone, before its places are looked up. */
  private *unsettled(worldDay: number): Iterable<Finding | RowFinding> {
    for (let at = 0; at < this.logbook.ledgers.length; at++) {
      yield* this.observers[at]!.found;
      yield* this.lateOf(at, worldDay);
      yield* this.shippingOf(at, worldDay);
      yield* this.lotsOf(at);
      yield* this.roomLossesOf(at, worldDay);
      yield* this.pantryOf(at, worldDay);
      yield* this.broodsOf(at, worldDay);
      yield* quarantineFindings(this.logbook).get(at) ?? [];
      yield* this.samplesOf(at, worldDay);
      yield* this.casesOf(at, worldDay);
      yield* exposureFindings(this.logbook).get(at) ?? [];
    }
    yield* pedigreeFindings(this.logbook, this.logbook.today(worldDay));
    const { problems } = this.logbook.book;
    for (const problem of problems) yield textFinding(problem.block, problem, problem.related);
  }

  private observe(ledger: number): FindingObserver {
    const { logbook } = this;
    // The book is made before its ledgers, and asked for only while they listen.
    const families = [
      (add: (finding: RowFinding) => void) =>
        limitChecks(logbook.bound, (parameter) => logbook.ledgerAsIs(ledger)?.readings[parameter])(add),
      changeChecks,
      doseChecks(() => logbook.ledgerAsIs(ledger)),
      doseTogetherChecks(() => logbook.ledgerAsIs(ledger)),
      dutyChecks,
      stockChecks(() => logbook.ledgerAsIs(ledger)),
      serviceChecks,
    ];
    const observer = new FindingObserver(families);
    this.observers[ledger] = observer;
    return observer;
  }

  private blockFindings(block: Block): readonly Finding[] {
    const { book } = this.logbook;
    const known = this.blocks.get(block);
    if (known !== undefined && known.revision === block.revision && known.book === book)
      return known.findings;
    checkCounts.blocks++;
    const dated = block.kind === "day" && !Number.isNaN(block.day);
    const findings = [
      ...textFindings(block),
      ...(dated
        ? [...nameFindings(book, block), ...moveFindings(book, block), ...grazedFindings(book, block)]
        : []),
    ];
    this.blocks.set(block, { revision: block.revision, book, findings });
    return findings;
  }

  private broodsOf(at: number, worldDay: number): readonly (Finding | RowFinding)[] {
    const { logbook } = this;
    return broodFindings(logbook, logbook.today(worldDay)).get(at) ?? [];
  }

  private samplesOf(at: number, worldDay: number): readonly RowFinding[] {
    const { logbook } = this;
    return sampleFindings(logbook, logbook.today(worldDay)).get(at) ?? [];
  }

  private casesOf(at: number, worldDay: number): readonly RowFinding[] {
    const { logbook } = this;
    return caseFindings(logbook, logbook.today(worldDay)).get(at) ?? [];
  }

  private pantryOf(at: number, worldDay: number): readonly (Finding | RowFinding)[] {
    const { logbook } = this;
    const day = logbook.today(worldDay);
    // What is on hand is reckoned from a year of entries: not again for an edit of others.
    const of = [logbook.book, suppliesSeen(logbook)];
    const make = () => ({ value: pantryFindings(logbook, day), blocks: [] });
    return keptOfFound(logbook, `pantry findings ${day}`, of, make).get(at) ?? [];
  }

  private lotsOf(at: number): readonly RowFinding[] {
    return lotFindings(this.logbook).get(at) ?? [];
  }

  private roomLossesOf(at: number, worldDay: number): readonly RowFinding[] {
    const { logbook } = this;
    return roomLossFindings(logbook, logbook.today(worldDay)).get(at) ?? [];
  }

  private shippingOf(at: number, worldDay: number): readonly (Finding | RowFinding)[] {
    const { logbook } = this;
    return shippingFindings(logbook, logbook.today(worldDay)).get(at) ?? [];
  }

  private lateOf(at: number, worldDay: number): readonly (Finding | RowFinding)[] {
    const { logbook } = this;
    const day = logbook.today(worldDay);
    if (day !== this.lateDay) {
      this.late = [];
      this.lateDay = day;
    }
    const ledger = logbook.ledgers[at]!;
    const { revision } = ledger;
    const known = this.late[at];
    if (known?.ledger === ledger && known.revision === revision) return known.findings;
    checkCounts.ledgers++;
    const stations = logbook.book.stations.filter((station) => logbook.ledgerNumber(station) === at);
    const findings = [
      ...lateFindings(ledger, stations, day),
      ...trendFindings(ledger, day),
      ...ammoniaFindings(ledger),
      ...gasFindings(ledger),
      ...poisonFindings(ledger),
      ...lossFindings(ledger),
      ...stockingFindings(ledger, day),
      ...feedingFindings(logbook, ledger, day),
      ...courseFindings(logbook, ledger, day),
      ...bathFindings(logbook, ledger, day),
    ];
    this.late[at] = { ledger, revision, findings };
    return findings;
  }
}

function settle(found: Finding | RowFinding): Finding[] {
  const settled = "row" in found ? settleFinding(found) : found;
  return settled === undefined ? [] : [settled];
}

/** In order of files and places; what stands at one place in the order of its codes and words. */
function inOrder(findings: Finding[]): Finding[] {
  return findings.sort(
    (a, b) =>
      compare(a.block.file.path, b.block.file.path) ||
      a.block.start + a.start - (b.block.start + b.start) ||
      compare(a.code, b.code) ||
      compare(a.message, b.message),
  );
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
