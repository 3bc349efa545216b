import { fill } from "../fill.ts";
import type { LogBlock } from "../log-lines.ts";
import { type Element, elementsOf, isLoose, saidOfAll, sideOf } from "./elements.ts";
import type { Strand } from "./weave.ts";

/**
 * A date may head several blocks, and a side carry entries from one to another, as where it joins two of them. The base and the other side
 * are then taken as if they had them there too, so that what the other side corrected or took away is met where it stands now.
 */

type Version = "base" | "ours" | "theirs";

/** Strands of the blocks of one date, with what a side carried in the same block of all versions. */
export function carried(strands: readonly Strand<LogBlock>[]): readonly Strand<LogBlock>[] {
  const day = strands.map((strand) => new DayBlock(strand));
  carry(day, "ours", "theirs");
  carry(day, "theirs", "ours");
  return day.map((block) => block.strand());
}

/** One block of a date, of which a version may be missing. */
class DayBlock {
  private readonly strandAsItWas: Strand<LogBlock>;
  private readonly elements: Record<Version, Element[] | undefined>;
  private readonly changed = new Set<Version>();

  constructor(strand: Strand<LogBlock>) {
    this.strandAsItWas = strand;
    const read = (block: LogBlock | undefined) => block && elementsOf(block);
    this.elements = { base: read(strand.base), ours: read(strand.ours), theirs: read(strand.theirs) };
  }

  in(version: Version): readonly Element[] {
    return this.elements[version] ?? [];
  }

  has(version: Version): boolean {
    return this.elements[version] !== undefined;
  }

  remove(version: Version, element: Element): void {
    this.elements[version] = this.elements[version]!.filter((each) => each !== element);
    this.changed.add(version);
  }

  /** Behind what stands above it where it was carried to, else below the last line; in a block that is not there below the date alone. */
  add(version: Version, element: Element, above?: Element): void {
    const all = [...(this.elements[version] ?? [this.bareHead()])];
    const known = above && saidOfAll(above);
    let at = all.findLastIndex((each) => saidOfAll(each) === known) + 1;
    if (at === 0) {
      at = all.length;
      while (at > 1 && isLoose(all[at - 1]!)) at--;
    }
    all.splice(at, 0, element);
    this.elements[version] = all;
    this.changed.add(version);
  }

  strand(): Strand<LogBlock> {
    const written = (version: Version): LogBlock | undefined => {
      if (!this.changed.has(version)) return this.strandAsItWas[version];
      const lines = this.in(version).flatMap(({ line, rows }) => [line, ...rows]);
      // What stands last in a text may have no line end.
      const text = lines.map(({ text, eol }, at) => text + (eol || at === lines.length - 1 ? eol : "\n"));
      return { ...this.any(), text: text.join("") };
    };
    return { base: written("base"), ours: written("ours"), theirs: written("theirs") };
  }

  private any(): LogBlock {
    const { base, ours, theirs } = this.strandAsItWas;
    return (ours ?? theirs ?? base)!;
  }

  private bareHead(): Element {
    const block = this.any();
    return elementsOf({ ...block, text: `${block.name}\n` })[0]!;
  }
}

const isTold = ({ line }: Element): boolean => ["entry", "sheet", "unread"].includes(line.kind);

interface Goal {
  readonly block: DayBlock;
  /** What stands there, and what stands above it. */
  readonly element: Element;
  readonly above: Element;
}

type OneSide = "ours" | "theirs";

/** Carries in the base and on the other side what one side carried. */
function carry(day: readonly DayBlock[], side: OneSide, other: OneSide): void {
  const goals = new Map<string, Goal[]>();
  for (const block of day) {
    const all = block.in(side);
    const added = surplus(all, block.in("base"));
    const places = added.map((element): Goal => ({ block, element, above: all[all.indexOf(element) - 1]! }));
    fill(goals, places, ({ element }) => saidOfAll(element));
  }
  if (goals.size === 0) return;
  for (const block of day) {
    const { items, origin } = sideOf(block.in("base"), block.in(other));
    const base = block.in("base");
    const [goalsOfBlock, isTwin] = [new Set<DayBlock>(), new Set<Element>()];
    for (const element of surplus(base, block.in(side))) {
      const goal = goals.get(saidOfAll(element))?.shift();
      if (goal === undefined || goal.block === block) continue;
      goalsOfBlock.add(goal.block);
      block.remove("base", element);
      goal.block.add("base", element, goal.above);
      const twin = items.find((_, index) => base[origin[index]!] === element);
      if (twin === undefined) continue;
      isTwin.add(twin);
      block.remove(other, twin);
      goal.block.add(other, twin, goal.above);
    }
    const [goal, ...others] = goalsOfBlock;
    if (block.has(side) || goal === undefined || others.length > 0 || block.in("base").some(isTold)) continue;
    // A block that went into another as a whole: what the other side wrote into it since goes there too.
    items.forEach((element, index) => {
      const isNew = origin[index]! < 0 && element.line.kind !== "head" && element.line.kind !== "blank";
      if (!isNew || isTwin.has(element)) return;
      block.remove(other, element);
      goal.add(other, element);
    });
  }
}

/** What elements say more often than others do. */
function surplus(elements: readonly Element[], others: readonly Element[]): readonly Element[] {
  const left = new Map<string, number>();
  for (const element of others) left.set(saidOfAll(element), (left.get(saidOfAll(element)) ?? 0) + 1);
  return elements.filter((element) => {
    const said = saidOfAll(element);
    const known = left.get(said) ?? 0;
    if (known > 0) left.set(said, known - 1);
    return known === 0 && isTold(element);
  });
}
