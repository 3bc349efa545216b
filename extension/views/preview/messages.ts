import * as z from "zod/mini";
import { caseShapes } from "./case-shape.ts";
import { courseShapes } from "./course-shape.ts";
import { feedingShape } from "./feeding-shape.ts";
import { lightShape } from "./light-shape.ts";
import type {
  BroodCard,
  Card,
  DayCard,
  DutyCard,
  FindingCard,
  FreeCard,
  Place,
  QuarantineCard,
  RemedyCard,
  TankCard,
  WaterCard,
  WhyCard,
} from "./shown.ts";

/** What the preview and its host say to each other: both ends check what they hear against these. */

type Checks<Type> = z.ZodMiniType<Type>;

const figure = z.number();
const maybe = z.nullable(z.number());
const text = z.string();

const position = z.object({ line: figure, character: figure });
const place: Checks<Place> = z.object({ uri: text, range: z.object({ start: position, end: position }) });
const maybePlace = z.nullable(place);

const finding: Checks<FindingCard> = z.object({
  code: text,
  severity: z.enum(["error", "warning", "information", "hint"]),
  message: text,
  day: maybe,
  at: place,
});

const duty: Checks<DutyCard> = z.object({
  act: text,
  when: text,
  of: text,
  periodDays: figure,
  last: maybe,
  due: maybe,
  late: maybe,
  times: figure,
  timesStated: figure,
  form: z.enum(["every", "at least", "at most"]),
  text,
  note: z.exactOptional(text),
  at: place,
  lastAt: maybePlace,
});

const why: Checks<WhyCard> = z.object({
  what: text,
  value: text,
  formula: text,
  source: text,
  at: maybePlace,
  get from() {
    return z.array(why);
  },
});

const free: Checks<FreeCard> = z.object({
  tank: text,
  species: text,
  animals: figure,
  free: figure,
  promised: figure,
  from: maybe,
  fromText: text,
  reasons: z.array(z.object({ is: text, until: maybe, text, why })),
  lots: z.array(z.object({ lot: text, animals: figure })),
  at: maybePlace,
});

const quarantine: Checks<QuarantineCard> = z.object({
  tanks: z.array(text),
  animals: z.array(z.object({ species: text, animals: figure, text })),
  since: figure,
  end: figure,
  daysLeft: figure,
  dayText: text,
  text,
  isOver: z.boolean(),
  signs: z.array(text),
  putOff: z.array(z.object({ by: text, text, day: figure, from: figure, to: figure, at: maybePlace })),
  arrivals: z.array(
    z.object({
      how: z.enum(["arrive", "move"]),
      tank: text,
      from: z.array(text),
      species: text,
      animals: figure,
      lot: text,
      day: figure,
      end: figure,
      text,
      at: maybePlace,
    }),
  ),
  why,
  at: maybePlace,
});

const spanOf = z.object({ best: figure, low: maybe, high: maybe, text });
const course = z.array(z.object({ time: figure, value: figure }));

const water: Checks<WaterCard> = z.object({
  parameter: text,
  title: text,
  unit: text,
  limit: z.nullable(z.object({ low: maybe, high: maybe, text, by: text, at: place })),
  readings: z.array(
    z.object({
      time: figure,
      low: figure,
      high: maybe,
      text,
      isOutside: z.boolean(),
      of: text,
      at: place,
    }),
  ),
  level: z.nullable(spanOf),
  production: z.nullable(spanOf),
  productionUnknown: text,
  course,
  ahead: z.array(z.object({ time: figure, best: figure, low: figure, high: figure })),
  crossing: z.nullable(z.object({ day: maybe, earliest: maybe, latest: maybe, text })),
  regular: z.nullable(
    z.object({
      everyDays: figure,
      fraction: figure,
      text,
      steady: maybe,
      steadyText: text,
      at: place,
    }),
  ),
  holdingText: text,
  changeBackText: text,
  why: z.nullable(why),
});

const { course: plan, bath } = courseShapes(place);

const remedy: Checks<RemedyCard> = z.object({
  name: text,
  title: text,
  unit: text,
  target: z.nullable(z.object({ low: figure, high: figure, text })),
  ceiling: maybe,
  ceilingText: text,
  now: maybe,
  nowText: text,
  course,
  doses: z.array(z.object({ time: figure, after: maybe, text, at: place })),
  next: z.nullable(z.object({ day: figure, number: figure, of: figure, changeOwed: figure, text })),
  plan: z.nullable(plan),
  caution: text,
  at: place,
});

const share = z.object({
  what: text,
  count: figure,
  outOf: figure,
  isAbout: z.boolean(),
  share: maybe,
  low: maybe,
  high: maybe,
  text,
  why,
});

const brood: Checks<BroodCard> = z.object({
  name: text,
  lot: text,
  title: text,
  species: text,
  state: z.enum(["eggs", "hatched", "swimming", "gone", "lost"]),
  isOpen: z.boolean(),
  stateText: text,
  of: text,
  where: z.array(z.object({ tank: text, count: figure, text })),
  among: figure,
  stages: z.array(
    z.object({
      stage: z.enum(["laid", "alive", "hatched", "swimming", "living"]),
      day: figure,
      count: maybe,
      isAbout: z.boolean(),
      text,
      at: maybePlace,
    }),
  ),
  shares: z.array(share),
  expected: z.nullable(
    z.object({
      stage: z.enum(["hatch", "swim"]),
      by: z.enum(["own broods", "stated", "days alone"]),
      earliest: maybe,
      likely: maybe,
      latest: maybe,
      text,
      is: z.enum(["ahead", "due", "late"]),
      degreeDays: z.nullable(z.object({ low: figure, high: figure, soFar: maybe })),
      why,
    }),
  ),
  took: z.array(
    z.object({
      stage: z.enum(["hatch", "swim"]),
      days: figure,
      degreeDays: maybe,
      meanC: maybe,
      text,
    }),
  ),
  father: text,
  mother: text,
  line: text,
  generation: text,
  inbreeding: z.nullable(z.object({ low: figure, high: figure, text, why })),
  at: maybePlace,
});

const { item: caseItem, whole: caseCard } = caseShapes({ place, why, course: plan, bath });

const tank: Checks<TankCard> = z.object({
  is: z.literal("tank"),
  name: text,
  title: text,
  day: figure,
  at: maybePlace,
  role: text,
  place: text,
  note: text,
  volumeL: maybe,
  volumeText: text,
  system: z.nullable(
    z.object({ name: text, title: text, volumeL: maybe, tanks: z.array(text), at: maybePlace }),
  ),
  water: z.array(water),
  rounds: z.array(
    z.object({
      what: text,
      text,
      isKnown: z.boolean(),
      beside: text,
      calculation: text,
      caution: text,
      time: figure,
      at: maybePlace,
      why,
    }),
  ),
  changes: z.array(z.object({ time: figure, fraction: figure, litres: figure, text, at: place })),
  remedies: z.array(remedy),
  baths: z.array(bath),
  feeding: feedingShape,
  cases: z.array(caseItem),
  broods: z.array(brood),
  residents: z.array(
    z.object({
      species: text,
      title: text,
      kind: text,
      of: text,
      animals: figure,
      isAbout: z.boolean(),
      text,
      counted: maybe,
      at: maybePlace,
    }),
  ),
  quarantine: z.nullable(quarantine),
  free: z.array(free),
  light: lightShape(place),
  populations: z.array(
    z.object({
      of: text,
      species: text,
      animals: figure,
      text,
      came: text,
      went: text,
      course,
      entries: z.array(z.object({ time: figure, after: figure, text, at: maybePlace })),
      why,
    }),
  ),
  bearing: z.array(z.object({ of: text, text, oxygen: text, why, oxygenWhy: z.nullable(why) })),
  duties: z.array(duty),
  findings: z.array(finding),
});

const otherDay = z.nullable(z.object({ day: figure, at: place }));

const day: Checks<DayCard> = z.object({
  is: z.literal("day"),
  day: figure,
  titles: z.array(text),
  isToday: z.boolean(),
  at: place,
  entries: figure,
  litres: figure,
  topUpL: figure,
  tanks: z.array(
    z.object({
      name: text,
      title: text,
      at: maybePlace,
      isTank: z.boolean(),
      litres: figure,
      entries: z.array(z.object({ kind: text, text, clock: text, at: place })),
    }),
  ),
  due: z.array(duty),
  feeding: feedingShape,
  findings: z.array(finding),
  before: otherDay,
  after: otherDay,
});

export const cardShape: Checks<Card> = z.union([tank, day, caseCard]);

/** What a preview is about: where the cursor of a file stands, or what was asked for in the logbook of a file. */
const subjectShape = z.object({
  uri: text,
  /** Line and character of the cursor. */
  cursor: z.optional(position),
  tank: z.optional(text),
  day: z.optional(figure),
  case: z.optional(text),
  /** Which time of a case that came back. */
  episode: z.optional(figure),
});
export type Subject = z.infer<typeof subjectShape>;

/** What the preview remembers over a reload of the window: what it is about, and how it looks. */
export const memoryShape = z.object({
  subject: z.optional(subjectShape),
  isPinned: z._default(z.boolean(), false),
  days: z._default(figure, 120),
  scroll: z._default(figure, 0),
  open: z._default(z.array(text), []),
});
export type Memory = z.infer<typeof memoryShape>;

/** Host to preview. */
export const toPreviewShape = z.discriminatedUnion("say", [
  z.object({ say: z.literal("card"), card: cardShape, subject: subjectShape, isPinned: z.boolean() }),
  /** There is nothing to show at the cursor; what was shown stays if something was. */
  z.object({ say: z.literal("nothing"), isPinned: z.boolean() }),
  z.object({ say: z.literal("failed"), why: text }),
]);
export type ToPreview = z.infer<typeof toPreviewShape>;

/** Preview to host. */
export const toHostShape = z.discriminatedUnion("say", [
  z.object({ say: z.literal("ready") }),
  z.object({ say: z.literal("reveal"), at: place }),
  z.object({ say: z.literal("tank"), name: text }),
  z.object({ say: z.literal("day"), day: figure }),
  z.object({ say: z.literal("case"), name: text, episode: figure }),
  z.object({ say: z.literal("pick") }),
  z.object({ say: z.literal("pin"), isPinned: z.boolean() }),
  z.object({ say: z.literal("again") }),
]);
export type ToHost = z.infer<typeof toHostShape>;

/** A text that stands for nothing but itself: the same card is the same text. */
export const signature = (card: Card): string => JSON.stringify(card);
