import * as z from "zod/mini";
import type { Card, Place, Task } from "./shown.ts";

/** What the board and its host say to each other: both ends check what they hear against these. */

type Checks<Type> = z.ZodMiniType<Type>;

const figure = z.number();
const text = z.string();
const maybe = z.nullable(figure);

const position = z.object({ line: figure, character: figure });
const place: Checks<Place> = z.object({ uri: text, range: z.object({ start: position, end: position }) });
const maybePlace = z.nullable(place);

const blank = z.object({ before: text, label: text, last: text });
const way = z.object({ words: text, blanks: z.array(blank), end: text });

const task: Checks<Task> = z.object({
  key: text,
  target: text,
  kind: text,
  ways: z.array(way).check(z.minLength(1)),
  late: figure,
  when: text,
  last: text,
  why: text,
  litres: text,
  caution: text,
  place: maybePlace,
});

const stop = z.object({
  at: text,
  title: text,
  stage: text,
  reason: text,
  before: text,
  tasks: z.array(task),
  place: maybePlace,
  hasCard: z.boolean(),
});

/** What the preview can show: a tank or system, or a case. */
const about = z.union([z.object({ tank: text }), z.object({ case: text, episode: figure })]);

const notice = z.object({
  is: z.enum([
    "merge",
    "water",
    "unseen",
    "cases",
    "quarantine",
    "remedies",
    "broods",
    "orders",
    "expiry",
    "absence",
  ]),
  title: text,
  lines: z.array(
    z.object({
      key: text,
      name: text,
      text,
      tone: z.enum(["bad", "soon", "plain"]),
      task: z.nullable(task),
      place: maybePlace,
      card: z.nullable(about),
    }),
  ),
});

export const cardShape: Checks<Card> = z.object({
  title: text,
  day: figure,
  dayText: text,
  away: z.nullable(text),
  tanks: figure,
  load: z.array(
    z.object({ is: z.enum(["tanks", "litres", "minutes"]), done: figure, open: figure, most: maybe, text }),
  ),
  stops: z.array(stop),
  feeds: z.array(task),
  notices: z.array(notice),
  done: z.array(z.object({ line: text, clock: text, place })),
  coming: z.array(
    z.object({
      day: figure,
      dayText: text,
      away: z.nullable(text),
      text,
      litres: text,
      minutes: text,
      owed: text,
      moved: z.array(text),
    }),
  ),
  fit: z.array(text),
  hasRound: z.boolean(),
  cautions: z.array(text),
});

/** What the board remembers over a reload of the window. */
export const memoryShape = z.object({
  /** A file of the logbook. */
  uri: z.optional(text),
  /** The day that the rest is of: typed values are not another day's. */
  day: z._default(figure, 0),
  /** The row that has the focus. */
  focus: z._default(text, ""),
  /** Tasks, by their keys. */
  marks: z._default(z.array(text), []),
  /** Sections that are folded. */
  folded: z._default(z.array(text), []),
  /** Which of the usual ways was chosen, where it is not the first. */
  ways: z._default(z.record(text, figure), {}),
  /** What was typed into boxes, way by way. */
  typed: z._default(z.record(text, z.array(text)), {}),
  /** Tasks that wait for values, and those that are to be logged with them. */
  batch: z._default(z.array(text), []),
  scroll: z._default(figure, 0),
});
export type Memory = z.infer<typeof memoryShape>;

/** Commands of the editor that the page carries out, as by its keys. */
const pressed = z.enum(["log", "takeBack"]);

/** Host to board. */
export const toBoardShape = z.discriminatedUnion("say", [
  z.object({
    say: z.literal("card"),
    card: cardShape,
    uri: text,
    /** How many loggings and takings back went before it. */
    edition: figure,
    /** How many loggings can be taken back. */
    back: figure,
  }),
  /** There is no logbook. */
  z.object({ say: z.literal("nothing") }),
  z.object({ say: z.literal("failed"), why: text }),
  /** Written; a card of at least that edition knows of it. */
  z.object({
    say: z.literal("logged"),
    ask: figure,
    lines: z.array(text),
    edition: figure,
    back: figure,
  }),
  /** Nothing was written: for these reasons, or for that of all. */
  z.object({
    say: z.literal("refused"),
    ask: figure,
    reasons: z.array(z.object({ key: text, message: text })),
    why: text,
  }),
  z.object({
    say: z.literal("takenBack"),
    /** The tasks that they were of. */
    keys: z.array(text),
    lines: z.array(text),
    /** Left in the log, as they were changed or are gone. */
    left: z.array(text),
    back: figure,
  }),
  z.object({ say: z.literal("press"), pressed }),
]);
export type ToBoard = z.infer<typeof toBoardShape>;

/** Board to host. */
export const toHostShape = z.discriminatedUnion("say", [
  z.object({ say: z.literal("ready"), uri: z.optional(text) }),
  z.object({ say: z.literal("again") }),
  /** Whole lines, without indentation. */
  z.object({
    say: z.literal("log"),
    ask: figure,
    lines: z.array(z.object({ key: text, line: text })),
  }),
  z.object({ say: z.literal("takeBack") }),
  /** A line to be finished in the editor: its pieces, with a place to fill in between each two. */
  z.object({ say: z.literal("edit"), pieces: z.array(text) }),
  z.object({ say: z.literal("reveal"), at: place }),
  z.object({ say: z.literal("show"), about }),
  /** The round sheet, a sheet of the tests due, or the start of any line of today. */
  z.object({ say: z.literal("write"), what: z.enum(["round", "sheet", "start"]) }),
  z.object({ say: z.literal("marked"), marks: figure }),
  /** Back to the text. */
  z.object({ say: z.literal("leave") }),
  z.object({ say: z.literal("new") }),
]);
export type ToHost = z.infer<typeof toHostShape>;

/** A text that stands for nothing but itself: the same card is the same text. */
export const signature = (card: Card): string => JSON.stringify(card);
