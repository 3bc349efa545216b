import type { Book } from "../book/book.ts";
import { Kind, kindOf } from "../book/entries/registry.ts";
import { knownTools } from "../book/entries/tool-slot.ts";
import { entryOf } from "../book/entry.ts";
import {
  Col,
  choiceOfRow,
  floatsPerRow,
  intsPerRow,
  kindOfRow,
  minuteOfRow,
  unitOfAmount,
} from "../book/facts.ts";
import { nameOf, noName, wordOf } from "../book/interner.ts";
import { mayTarget } from "../book/kind.ts";
import { type Block, idOfRow } from "../book/source.ts";
import type { Gear, Station, Tank } from "../book/stations.ts";
import { UNITS } from "../quantity/units.ts";
import { type At, type Contact, type ContactKind, type LogStep, rankOf } from "./contact.ts";
import { type ContactNodes, nodesOf } from "./contact-nodes.ts";
import { flowChoice } from "./ledger.ts";

/** What one row tells of contacts, by its own words and the book: what is in a tank at the time is not asked here. */

/** All of the water of a tank was let out and filled anew, or tanks were disinfected: an end if no animal was in them. */
export interface Refill extends At {
  readonly is: "refill";
  readonly tanks: readonly Tank[];
  readonly emptied: readonly LogStep[];
  readonly changed: readonly LogStep[];
}

export function stepsOfRow(book: Book, block: Block, row: number): (LogStep | Refill)[] {
  const kind = kindOfRow(block.facts, row);
  const reader = new RowReader(book, block, row);
  switch (kind) {
    case Kind.arrive:
      return reader.arrival();
    case Kind.move:
      return reader.move();
    case Kind.carry:
      return reader.carry();
    case Kind.plant:
      return reader.plant();
    case Kind.change:
      return reader.change();
    case Kind.clean:
      return reader.targets.flatMap((station) => reader.use(station));
    case Kind.sell:
    case Kind.ship:
      return reader.sale();
    case Kind.disinfect:
      return [...reader.disinfection(), ...reader.mark(kind)];
    default:
      return reader.mark(kind);
  }
}

class RowReader {
  readonly targets: readonly Station[];
  private readonly book: Book;
  private readonly nodes: ContactNodes;
  private readonly block: Block;
  private readonly row: number;
  private readonly at: At;

  constructor(book: Book, block: Block, row: number) {
    this.book = book;
    this.nodes = nodesOf(book);
    this.block = block;
    this.row = row;
    const { day, facts } = block;
    this.at = { day, time: day + minuteOfRow(facts, row) / 1440, block, row: idOfRow(block, row) };
    const target = this.name(Col.target);
    const named = target < 0 ? (book.groupTanks(~target) ?? []) : [book.station(target)];
    const kind = kindOf(kindOfRow(facts, row));
    this.targets = named.filter(
      (station) => station !== undefined && mayTarget(kind, station.kind),
    ) as Station[];
  }

  mark(kind: number): LogStep[] {
    return [{ is: "mark", ...this.at, kind, stations: this.targets }];
  }

  /** What was sent back is what its sender had: whoever bought and sends is one. */
  arrival(): LogStep[] {
    const lot = wordOf(this.name(Col.lot));
    const supplier = (wordOf(this.name(Col.object)) || (this.book.lots.get(lot)?.supplier ?? "")).trim();
    const came = this.nodes.consignment(supplier, lot, this.at.day, false);
    const species = wordOf(this.name(Col.subject));
    return [
      ...(supplier === "" ? [] : [this.contact("animals", species, this.nodes.party(supplier), came)]),
      ...this.waters().map((station) =>
        this.contact("animals", species, came, station.body, undefined, station),
      ),
    ];
  }

  move(): LogStep[] {
    const to = this.destination();
    const species = wordOf(this.name(Col.subject));
    return this.between(to, (from) => [
      ...this.use(from),
      this.contact("animals", species, from.body, to!.body, from, to),
      ...this.use(to!),
    ]);
  }

  carry(): LogStep[] {
    const to = this.destination();
    const thing = wordOf(this.name(Col.subject));
    const isTool =
      this.book.gears.some(({ name }) => name === thing) || knownTools.some((tool) => tool === thing);
    const kind = isTool ? "tool" : thing === "water" ? "water" : "things";
    const tool = isTool ? thing : undefined;
    return this.between(to, (from) => [
      ...this.use(from, tool),
      this.contact(kind, thing, from.body, to!.body, from, to),
      ...this.use(to!, tool),
    ]);
  }

  plant(): LogStep[] {
    const origin = this.name(Col.object);
    if (origin === noName) return [];
    const plant = wordOf(this.name(Col.subject));
    const from = this.book.station(origin);
    if (from !== undefined && from.body >= 0)
      return this.waters()
        .filter((station) => station.body !== from.body)
        .map((station) => this.contact("things", plant, from.body, station.body, from, station));
    const came = this.nodes.consignment(wordOf(origin).trim(), "", this.at.day, true);
    return this.waters().map((station) =>
      this.contact("things", plant, came, station.body, undefined, station),
    );
  }

  /**
   * The tool is there as the water goes out and as it comes in. Where the tank was emptied it takes nothing from what was before to what
   * is after: it was in use for both, and the end would be none.
   */
  change(): (LogStep | Refill)[] {
    const tool = wordOf(this.name(Col.tool));
    const from = this.book.station(this.name(Col.object));
    const barrel = wordOf(this.name(Col.subject)).trim();
    return this.waters().flatMap((station): (LogStep | Refill)[] => {
      const filled = [
        ...(from?.kind === "tank" && from.body !== station.body
          ? [this.contact("water", "water", from.body, station.body, from, station)]
          : []),
        ...(barrel === ""
          ? []
          : [this.contact("barrel", barrel, this.nodes.barrel(barrel), station.body, undefined, station)]),
      ];
      const changed = [...filled, ...this.use(station)];
      if (!this.isWhole(station)) return changed;
      const tank = station as Tank;
      const cut: LogStep = { is: "end", ...this.at, node: tank.body, spares: true, how: "emptied", station };
      const wetted = tool === "" ? [] : this.use(station).slice(1);
      const emptied = [...this.use(station), cut, ...filled, ...wetted];
      return [{ is: "refill", ...this.at, tanks: [tank], emptied, changed }];
    });
  }

  sale(): LogStep[] {
    const order = this.book.orders.get(wordOf(this.name(Col.object)));
    const written = entryOf(this.block, this.at.row)?.item.buyer?.text.trim() ?? "";
    const buyer = written || order?.buyer || order?.title || wordOf(this.name(Col.object));
    const species = wordOf(this.name(Col.subject));
    return this.waters().map((station) =>
      this.contact("animals", species, station.body, this.nodes.party(buyer), station),
    );
  }

  disinfection(): (LogStep | Refill)[] {
    const thing = this.name(Col.subject);
    if (thing === noName) return this.targets.flatMap((station) => this.disinfected(station));
    const named = this.book.station(thing);
    return named === undefined || named.kind === "room"
      ? [this.cut(this.nodes.tool(wordOf(thing)), undefined)]
      : this.disinfected(named);
  }

  /** A use of the tool of the row: it takes and gives. */
  use(station: Station, named?: string): LogStep[] {
    const tool = named ?? wordOf(this.name(Col.tool));
    const where = station.kind === "gear" ? this.book.station(nameOf((station as Gear).on)) : station;
    if (tool === "" || where === undefined || where.body < 0) return [];
    const node = this.nodes.tool(tool);
    return [
      this.contact("tool", tool, node, where.body, undefined, where),
      this.contact("tool", tool, where.body, node, where),
    ];
  }

  /** Of a tank in shared water alone it ends nothing. What is said of a tank with animals in it is no end: they have what they had. */
  private disinfected(station: Station): (LogStep | Refill)[] {
    if (station.kind === "gear") return [this.cut(this.nodes.tool(station.name), undefined)];
    const body = this.book.bodies[station.body];
    if (body === undefined || (body.system !== undefined && station.kind !== "system")) return [];
    const emptied = [this.cut(body.id, station)];
    return [{ is: "refill", ...this.at, tanks: body.tanks, emptied, changed: [] }];
  }

  private cut(node: number, station: Station | undefined): LogStep {
    return { is: "end", ...this.at, node, spares: false, how: "disinfected", station };
  }

  private contact(
    kind: ContactKind,
    what: string,
    from: number,
    to: number,
    fromStation?: Station,
    toStation?: Station,
  ): Contact {
    const stays = kind === "things";
    return {
      is: "link",
      ...this.at,
      from,
      to,
      stays,
      rank: rankOf[kind],
      kind,
      what,
      fromStation,
      toStation,
    };
  }

  /** The targets that have water. */
  private waters(): readonly Station[] {
    return this.targets.filter(({ body }) => body >= 0);
  }

  private destination(): Station | undefined {
    const to = this.book.station(this.name(Col.object));
    return to?.kind === "tank" ? to : undefined;
  }

  /** What goes to a tank that is not defined, or to where it is, does not count. */
  private between(to: Station | undefined, steps: (from: Station) => LogStep[]): LogStep[] {
    return to === undefined ? [] : this.waters().flatMap((from) => (from === to ? [] : steps(from)));
  }

  /** Whether a change is a batch of all of the water of a tank that has its own; of a range its lower end. */
  private isWhole(station: Station): boolean {
    if (station.kind !== "tank" || this.book.bodies[station.body]!.system !== undefined) return false;
    const { facts } = this.block;
    if (choiceOfRow(facts, this.row) === flowChoice) return false;
    const code = unitOfAmount(facts, this.row);
    const amount = facts.floats[this.row * floatsPerRow]!;
    const share =
      UNITS[code]?.dimension === "fraction"
        ? this.book.units.canonical(amount, code, "fraction")
        : this.book.units.canonical(amount, code, "volume") / (station as Tank).volumeL;
    return share >= 1 - 1e-9;
  }

  private name(column: number): number {
    return this.block.facts.ints[this.row * intsPerRow + column]!;
  }
}
