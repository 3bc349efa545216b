import * as z from "zod/mini";
import type { BathCard, CaseCard, CaseItemCard, CourseCard, Place, WhyCard } from "./shown.ts";

/** Cases as the preview may be sent them. */

const figure = z.number();
const maybe = z.nullable(z.number());
const text = z.string();

/** The shapes that a case has in common with other cards. */
interface Common {
  readonly place: z.ZodMiniType<Place>;
  readonly why: z.ZodMiniType<WhyCard>;
  readonly course: z.ZodMiniType<CourseCard>;
  readonly bath: z.ZodMiniType<BathCard>;
}

export function caseShapes({ place, why, course, bath }: Common): {
  readonly item: z.ZodMiniType<CaseItemCard>;
  readonly whole: z.ZodMiniType<CaseCard>;
} {
  const at = z.nullable(place);
  const item = z.object({
    name: text,
    episode: figure,
    since: figure,
    closed: maybe,
    outcome: text,
    state: text,
    species: z.array(text),
    text,
    affected: maybe,
    ever: figure,
    isLeast: z.boolean(),
    atRisk: maybe,
    dead: figure,
    tanks: z.array(z.object({ name: text, title: text, from: figure, text, at })),
    target: text,
    at,
  });
  const line = z.object({
    day: figure,
    clock: text,
    kind: text,
    text,
    by: z.enum(["named", "linked", "after"]),
    at,
  });
  const step = z.object({
    time: figure,
    kind: z.enum(["animals", "water", "barrel", "things", "tool", "shared"]),
    from: text,
    to: text,
    text,
    at,
  });
  const held = z.object({
    tank: text,
    isOrigin: z.boolean(),
    kind: text,
    links: figure,
    since: figure,
    last: figure,
    why: text,
    steps: z.array(step),
  });
  const whole = z.extend(item, {
    is: z.literal("case"),
    day: figure,
    episodes: z.array(z.object({ episode: figure, since: figure, closed: maybe })),
    places: z.array(
      z.object({
        of: text,
        species: text,
        lot: text,
        affected: figure,
        present: maybe,
        ever: figure,
        atRisk: maybe,
        dead: figure,
      }),
    ),
    rates: z.array(
      z.object({
        is: z.enum(["attack", "fatality", "mortality", "prevalence"]),
        title: text,
        count: figure,
        outOf: figure,
        best: figure,
        low: figure,
        high: figure,
        isLeast: z.boolean(),
        text,
        why,
      }),
    ),
    unknown: text,
    curve: z.array(
      z.object({
        day: figure,
        fresh: figure,
        dead: figure,
        affected: maybe,
        present: maybe,
        low: maybe,
        high: maybe,
        text,
      }),
    ),
    signs: z.array(
      z.object({
        site: text,
        word: text,
        gloss: text,
        grade: text,
        first: figure,
        last: figure,
        times: figure,
        at,
      }),
    ),
    courses: z.object({
      of: text,
      day: figure,
      courses: z.array(course),
      baths: z.array(bath),
      caution: text,
    }),
    samples: z.array(
      z.object({
        text,
        day: figure,
        container: text,
        laboratory: text,
        state: text,
        steps: z.array(line),
        caution: text,
        at,
      }),
    ),
    results: z.array(z.object({ day: figure, outcome: text, note: text, at })),
    questions: z.array(line),
    exposure: z.nullable(
      z.object({
        windowText: text,
        hold: z.array(held),
        past: z.array(held),
        ended: z.array(z.object({ tank: text, since: figure, ended: figure, text, at })),
      }),
    ),
    graph: z.nullable(z.object({ svg: text, alt: text })),
    entries: z.array(line),
    caution: text,
  });
  return { item, whole };
}
