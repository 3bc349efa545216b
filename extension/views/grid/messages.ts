import * as z from "zod/mini";
import type { CellCompletion } from "../../../language/features/grid/cell-completion.ts";
import type { CellRef, Face, GridColumn, GridQuery } from "../../../language/features/grid/grid-model.ts";
import type {
  ChartOver,
  GridChange,
  GridCharted,
  GridChoices,
  GridFound,
  GridPage,
  GridView,
  PageCell,
  PageRow,
  RowRange,
  Summed,
} from "../../../language/server/grid-protocol.ts";
import { definitionWords } from "../../../language/syntax/blocks.ts";

/** What the grid and its host say to each other: both ends check what they hear against these. */

export type {
  CellRef,
  ChartOver,
  Face,
  GridChange,
  GridCharted,
  GridChoices,
  GridColumn,
  GridFound,
  GridPage,
  GridQuery,
  GridView,
  PageCell,
  PageRow,
  RowRange,
  Summed,
};
export type Completed = Pick<CellCompletion, "label" | "detail" | "text" | "replace">;

type Checks<Type> = z.ZodMiniType<Type>;

const text = z.string();
const figure = z.number();
const whole = z.int();
const count = z.int().check(z.nonnegative());
/** Of what is asked for at once: a page asks for no more, whatever it is told. */
const window = z.int().check(z.nonnegative(), z.maximum(2000));
const words = z.array(text);

export const faceShape: Checks<Face> = z.union([
  z.object({ is: z.literal("entries"), path: z.optional(text), kind: z.optional(text) }),
  z.object({ is: z.literal("rounds"), of: z.literal("tank"), name: text }),
  z.object({ is: z.literal("rounds"), of: z.literal("day"), day: whole }),
  z.object({ is: z.literal("definitions"), of: z.enum(definitionWords) }),
]) as Checks<Face>;

const sortShape = z.array(z.object({ column: text, isDown: z.boolean() }));
const filterShape = z.record(text, text);
const viewShape = z.object({
  columns: z.optional(words),
  sort: sortShape,
  filter: filterShape,
  turn: whole,
}) as Checks<GridView>;
const queryShape = z.object({
  from: count,
  count: window,
  columns: z.optional(words),
  sort: sortShape,
  filter: filterShape,
  turn: whole,
}) as Checks<GridQuery>;

const cellShape: Checks<CellRef> = z.object({ row: text, column: text });
const rangeShape: Checks<RowRange> = z.object({
  view: viewShape,
  from: count,
  count,
  first: text,
  last: text,
  columns: words,
});

const changeShape = z.discriminatedUnion("is", [
  z.object({
    is: z.literal("cells"),
    cells: z.array(z.object({ row: text, column: text, text, was: z.optional(text) })),
  }),
  z.object({ is: z.literal("paste"), over: rangeShape, cells: z.array(words) }),
  z.object({ is: z.literal("clear"), over: rangeShape }),
  z.object({ is: z.literal("down"), over: rangeShape }),
  z.object({ is: z.literal("series"), over: rangeShape, seeds: count }),
  z.object({ is: z.literal("delete"), over: rangeShape }),
  z.object({ is: z.literal("replace"), view: viewShape, text, isCaseSensitive: z.boolean(), by: text }),
  z.object({ is: z.literal("insert"), behind: z.optional(text), rows: z.array(filterShape) }),
]) as Checks<GridChange>;

const pageCell = z.object({
  text,
  fixed: z.optional(text),
  implied: z.optional(text),
  state: z.optional(z.enum(["", "within", "above", "below", "unsure"])),
  detail: z.optional(text),
  unit: z.optional(text),
  marks: z.optional(
    z.array(
      z.object({ code: text, severity: z.enum(["error", "warning", "information", "hint"]), message: text }),
    ),
  ),
}) as Checks<PageCell>;

const pageRow: Checks<PageRow> = z.object({
  id: text,
  is: z.enum(["entry", "sheet", "row", "day", "comment", "text", "round", "definition"]),
  line: figure,
  cells: z.array(pageCell),
});

const columnShape: Checks<GridColumn> = z.object({
  id: text,
  title: text,
  unit: text,
  doc: text,
  isFigure: z.boolean(),
  isComputed: z.boolean(),
  isShown: z.boolean(),
});

export const pageShape: Checks<GridPage> = z.object({
  version: z.nullable(figure),
  columns: z.array(columnShape),
  shown: words,
  total: figure,
  from: figure,
  rows: z.array(pageRow),
  problem: text,
  trackedAt: figure,
  placedAt: figure,
});

/** What came of a change, as the page is told it. */
export const outcomeShape = z.discriminatedUnion("is", [
  z.object({ is: z.literal("written"), cells: figure, files: figure, left: figure }),
  z.object({ is: z.literal("refused"), message: text, at: z.optional(cellShape) }),
]) as Checks<Outcome>;
export type Outcome =
  | { readonly is: "written"; readonly cells: number; readonly files: number; readonly left: number }
  | { readonly is: "refused"; readonly message: string; readonly at?: CellRef };

export const summaryShape: Checks<Summed[]> = z.array(z.object({ name: text, text }));
export const foundShape: Checks<GridFound> = z.object({
  places: z.array(z.tuple([figure, figure])),
});
export const completedShape: Checks<Completed[]> = z.array(
  z.object({ label: text, detail: text, text, replace: z.object({ start: figure, end: figure }) }),
);
const named = z.array(z.object({ word: text, title: text }));
export const choicesShape: Checks<GridChoices> = z.object({
  kinds: named,
  places: z.array(z.object({ name: text, title: text })),
  definitions: named,
  first: z.nullable(z.enum(definitionWords)),
  isDefining: z.boolean(),
  firstDay: z.nullable(figure),
  lastDay: z.nullable(figure),
  today: figure,
});
export const fixesShape = z.array(text);
export const textShape = text;
export const doneShape = z.boolean();

/** What the page may ask; each is answered once. */
const questionShape = z.discriminatedUnion("is", [
  z.object({
    is: z.literal("rows"),
    face: faceShape,
    query: queryShape,
    track: z.optional(text),
    /** A line of the file, from 0. */
    line: z.optional(count),
  }),
  z.object({ is: z.literal("change"), face: faceShape, change: changeShape }),
  z.object({ is: z.literal("copy"), face: faceShape, over: rangeShape }),
  z.object({ is: z.literal("summary"), face: faceShape, over: rangeShape }),
  z.object({
    is: z.literal("chart"),
    face: faceShape,
    over: z.union([rangeShape, z.object({ rows: words, columns: words })]) as Checks<ChartOver>,
  }),
  z.object({
    is: z.literal("find"),
    face: faceShape,
    view: viewShape,
    text,
    isCaseSensitive: z.boolean(),
  }),
  z.object({
    is: z.literal("complete"),
    face: faceShape,
    column: text,
    typed: text,
    caret: count,
    row: z.optional(text),
    fresh: z.optional(filterShape),
  }),
  z.object({ is: z.literal("choices") }),
  /** What mends the findings of a cell, by name; and one of those last told. */
  z.object({ is: z.literal("fixes"), face: faceShape, cell: cellShape }),
  z.object({ is: z.literal("fix"), number: count }),
]);
export type Question = z.infer<typeof questionShape>;

export const layoutShape = z.object({
  /** Those shown, in order; null where nobody chose. */
  columns: z.nullable(words),
  widths: z.record(text, figure),
  frozen: z.int().check(z.nonnegative()),
});
export type Layout = z.infer<typeof layoutShape>;

/** Page to host. */
export const toHostShape = z.discriminatedUnion("say", [
  z.object({ say: z.literal("ready") }),
  z.object({ say: z.literal("ask"), ask: whole, question: questionShape }),
  z.object({ say: z.literal("layout"), key: text, layout: layoutShape }),
  /** The cell at the cursor: what “Open as Text” leads to. */
  z.object({ say: z.literal("at"), face: faceShape, cell: z.nullable(cellShape) }),
  z.object({ say: z.literal("text") }),
  /** What was asked for is not wanted any more. */
  z.object({ say: z.literal("cancel"), ask: whole }),
]);
export type ToHost = z.infer<typeof toHostShape>;

export const presses = [
  "insert",
  "delete",
  "down",
  "series",
  "fix",
  "chart",
  "find",
  "sortUp",
  "sortDown",
  "hide",
  "freeze",
] as const;
export type Press = (typeof presses)[number];

/** Host to page. */
export const toGridShape = z.discriminatedUnion("say", [
  z.object({
    say: z.literal("hello"),
    uri: text,
    file: text,
    isReadOnly: z.boolean(),
    notice: text,
    layouts: z.record(text, layoutShape),
    /** Where to begin, from 0. */
    line: z.nullable(count),
  }),
  /** The text is another: what is shown is to be asked for anew. */
  z.object({ say: z.literal("stale"), version: figure, notice: text }),
  z.object({ say: z.literal("answer"), ask: whole, answer: z.unknown() }),
  z.object({ say: z.literal("failed"), ask: whole, why: text }),
  z.object({ say: z.literal("progress"), ask: whole, share: figure }),
  z.object({ say: z.literal("line"), line: count }),
  z.object({ say: z.literal("press"), press: z.enum(presses), column: z.optional(text) }),
]);
export type ToGrid = z.infer<typeof toGridShape>;

/** What the grid remembers over a reload of the window. */
export const memoryShape = z.object({
  face: z.optional(faceShape),
  row: z._default(z.int(), 0),
  column: z._default(text, ""),
  /** The other end of the selection. */
  toRow: z._default(z.int(), 0),
  toColumn: z._default(text, ""),
  scroll: z._default(figure, 0),
  scrollLeft: z._default(figure, 0),
  sort: z._default(sortShape, []),
  filter: z._default(filterShape, {}),
  zoom: z._default(figure, 1),
});
export type Memory = z.infer<typeof memoryShape>;
