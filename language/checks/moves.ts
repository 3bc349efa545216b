import type { Book } from "../book/book.ts";
import { Kind } from "../book/entries/registry.ts";
import { lineAt, placeOfSlot } from "../book/entry.ts";
import { Col, intsPerRow, kindOfRow, minuteOfRow } from "../book/facts.ts";
import { noName, wordOf } from "../book/interner.ts";
import { type Block, idOfRow } from "../book/source.ts";
import { nextLine } from "../syntax/blocks.ts";
import { page } from "./code.ts";
import type { Finding, Fix } from "./finding.ts";

/** Moves that cannot have been, as far as a day alone tells. */

const prelude = `species praecox
tank dam
  volume 300 L
tank q1
  volume 50 L
2026-03-01
  dam arrive praecox 14
`;

export const movePages = [
  page({
    code: "move/to-itself",
    severity: "error",
    since: "0.2",
    title: "A move to where the animals are",
    says: "The tank that animals are moved to is the one they are moved from. The line does not count.",
    whatToDo: "Correct one of the two tanks, or take the line out.",
    raises: `${prelude}  dam move praecox 4 -> dam
#                    ^^^^^^ move/to-itself`,
    fine: `${prelude}  dam move praecox 4 -> q1`,
  }),
  page({
    code: "move/circle",
    severity: "warning",
    since: "0.2",
    title: "Animals that go round in a circle",
    says: "Within one minute animals of the species go from tank to tank and back to where they began. An entry without a time of day counts at the time of the last one above it that has one. The book follows the lines as they stand.",
    whatToDo:
      "If they were there for a while, as for a bath, write the times of day; if one of the moves is written the wrong way round, or twice, correct it.",
    raises: `${prelude}  dam move praecox 4 -> q1
  q1 move praecox 4 -> dam
#                   ^^^^^^ move/circle`,
    fine: `${prelude}  09:00 dam move praecox 4 -> q1
  10:30 q1 move praecox 4 -> dam`,
  }),
] as const;

interface Step {
  readonly from: number;
  readonly to: number;
}

/** What the moves of a day tell by themselves. */
export function moveFindings(book: Book, block: Block): Finding[] {
  const { facts } = block;
  const found: Finding[] = [];
  /** The moves so far by minute, species and lot. */
  const steps = new Map<string, Step[]>();
  for (let row = 0; row < facts.count; row++) {
    if (kindOfRow(facts, row) !== Kind.move) continue;
    const at = row * intsPerRow;
    const target = facts.ints[at + Col.target]!;
    const to = facts.ints[at + Col.object]!;
    if (to === noName || book.station(to)?.kind !== "tank") continue;
    const sources = target >= 0 ? [book.station(target)] : (book.groupTanks(~target) ?? []);
    const names = sources.flatMap((tank) => (tank === undefined ? [] : [tank.name]));
    const own = names.indexOf(wordOf(to));
    if (own >= 0 && (target >= 0 || names.length === 1)) {
      found.push(
        finding(block, row, "move/to-itself", `${wordOf(to)} is where they are already`, goneFix(block, row)),
      );
      continue;
    }
    const key = [minuteOfRow(facts, row), facts.ints[at + Col.subject], facts.ints[at + Col.lot]].join(" ");
    const known = steps.get(key) ?? [];
    steps.set(key, known);
    // Of a group one of its tanks may be where the others go to: it keeps its own.
    if (target < 0) continue;
    const way = wayBetween(known, to, target);
    known.push({ from: target, to });
    if (way === undefined) continue;
    found.push(
      finding(
        block,
        row,
        "move/circle",
        `${wordOf(facts.ints[at + Col.subject]!)} go round within a minute: ${[target, ...way].map(wordOf).join(" -> ")}; write the times of day if they did`,
        [],
      ),
    );
  }
  return found;
}

/** The tanks that some moves lead through from one to another, both included; undefined where they do not. */
function wayBetween(steps: readonly Step[], from: number, to: number): number[] | undefined {
  const reached = new Map<number, number[]>([[from, [from]]]);
  const next = [from];
  for (let at = 0; at < next.length; at++) {
    const way = reached.get(next[at]!)!;
    if (next[at] === to) return way;
    for (const step of steps) {
      if (step.from !== next[at] || reached.has(step.to)) continue;
      reached.set(step.to, [...way, step.to]);
      next.push(step.to);
    }
  }
  return undefined;
}

function finding(
  block: Block,
  row: number,
  code: "move/to-itself" | "move/circle",
  message: string,
  fixes: readonly Fix[],
): Finding {
  const place = placeOfSlot(block, idOfRow(block, row), "destination");
  const severity = code === "move/to-itself" ? "error" : "warning";
  return { code, severity, block, ...place, message, fixes, related: [], why: undefined };
}

/** Takes the line out. */
function goneFix(block: Block, row: number): Fix[] {
  const line = lineAt(block, block.facts.ints[row * intsPerRow + Col.start]!);
  if (line === undefined) return [];
  const end = nextLine(block.text, line.end);
  let start = line.start;
  while (start > 0 && !/[\r\n]/.test(block.text[start - 1]!)) start--;
  // Behind the last line of a text there is no line end: the one before goes instead.
  const isLast = end >= block.text.length && !/[\r\n]$/.test(block.text);
  if (isLast) while (start > 0 && /[\r\n]/.test(block.text[start - 1]!)) start--;
  return [{ title: "Take the line out", edits: [{ block, start, end, text: "" }], isSure: false }];
}
