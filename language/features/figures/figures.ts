import { Kind } from "../../book/entries/registry.ts";
import type { DayLine } from "../../book/entry.ts";
import type { Block } from "../../book/source.ts";
import type { CheckedLogbook } from "../../checks/check.ts";
import { countFigure, enterFigure, leaveFigure } from "./animals.ts";
import { bathFigure } from "./bath.ts";
import { eggsFigure, hatchFigure, spawnFigure, swimFigure } from "./brood.ts";
import { closeFigure, sickFigure } from "./case.ts";
import { changeFigure } from "./change.ts";
import { harvestFigure, startFigure } from "./culture.ts";
import { doseFigure } from "./dose.ts";
import { feedFigure, onHandFigure } from "./feed.ts";
import { goneFigure } from "./gone.ts";
import { type FigureKind, type LineFigure, type Row, rowsOf } from "./row.ts";
import { resultFigure, sendFigure } from "./samples.ts";
import { testFigure } from "./test.ts";

type Maker = (rows: readonly Row[]) => LineFigure | undefined;

/** What is made of the rows of a line, by the kind of its first. */
const makers = new Map<number, { readonly kind: FigureKind; readonly make: Maker }>([
  [Kind.test, { kind: "test", make: testFigure }],
  [Kind.change, { kind: "change", make: ([row]) => (row === undefined ? undefined : changeFigure(row)) }],
  [Kind.dose, { kind: "dose", make: ([row]) => (row === undefined ? undefined : doseFigure(row)) }],
  [Kind.bath, { kind: "dose", make: ([row]) => (row === undefined ? undefined : bathFigure(row)) }],
  [Kind.count, { kind: "count", make: countFigure }],
  [Kind.arrive, { kind: "arrive", make: enterFigure }],
  [Kind.spawn, { kind: "brood", make: spawnFigure }],
  [Kind.eggs, { kind: "brood", make: eggsFigure }],
  [Kind.hatch, { kind: "brood", make: hatchFigure }],
  [Kind.swim, { kind: "brood", make: swimFigure }],
  [Kind.move, { kind: "move", make: leaveFigure }],
  [Kind.lose, { kind: "move", make: leaveFigure }],
  [Kind.sell, { kind: "move", make: goneFigure }],
  [Kind.ship, { kind: "move", make: goneFigure }],
  [Kind.feed, { kind: "feed", make: feedFigure }],
  [Kind.buy, { kind: "feed", make: onHandFigure }],
  [Kind.left, { kind: "feed", make: onHandFigure }],
  [Kind.start, { kind: "feed", make: startFigure }],
  [Kind.harvest, { kind: "feed", make: harvestFigure }],
  [Kind.send, { kind: "case", make: sendFigure }],
  [Kind.result, { kind: "case", make: resultFigure }],
  [Kind.sick, { kind: "case", make: sickFigure }],
  [Kind.close, { kind: "case", make: closeFigure }],
]);

/**
 * What follows from a line of the log, as it was just then: the one figure that tells most of it. Undefined where nothing does, or
 * where its kind is not wanted.
 */
export function figureOf(
  checked: CheckedLogbook,
  block: Block,
  line: DayLine,
  isWanted: (kind: FigureKind) => boolean = () => true,
): LineFigure | undefined {
  const rows = rowsOf(checked, block, line);
  // A sheet may hold tests and counts: the tests are told.
  const first = rows.find(({ kind }) => kind === Kind.test) ?? rows[0];
  const maker = first === undefined ? undefined : makers.get(first.kind);
  if (first === undefined || maker === undefined || !isWanted(maker.kind)) return undefined;
  return maker.make(rows.filter(({ kind }) => kind === first.kind));
}
