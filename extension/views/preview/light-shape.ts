import * as z from "zod/mini";
import type { LightCard, Place } from "./shown.ts";

/** The light, the algae and the plants of a tank as the preview may be sent them. */

const figure = z.number();
const maybe = z.nullable(z.number());
const text = z.string();

/** @param place the shape of a place in a file */
export function lightShape(place: z.ZodMiniType<Place>): z.ZodMiniType<LightCard | null> {
  const at = z.nullable(place);
  const side = z.object({ count: figure, low: maybe, high: maybe, text });
  const compared = z.object({
    what: text,
    isMain: z.boolean(),
    unit: text,
    before: side,
    after: side,
    shift: z.nullable(z.object({ low: maybe, high: maybe })),
    low: maybe,
    high: maybe,
    confidence: maybe,
    text,
    isSure: z.boolean(),
    chanceText: text,
  });
  return z.nullable(
    z.object({
      text,
      since: maybe,
      at,
      course: z.array(z.object({ time: figure, value: figure })),
      unit: text,
      settings: z.array(z.object({ time: figure, value: maybe, text, isLamp: z.boolean(), at })),
      algae: z.array(
        z.object({
          sort: text,
          title: text,
          unit: text,
          most: figure,
          ratings: z.array(z.object({ time: figure, low: figure, high: figure, text, at })),
        }),
      ),
      trims: z.array(z.object({ time: figure, grams: maybe, plant: text, growthText: text, text, at })),
      changes: z.array(
        z.object({
          tank: text,
          day: figure,
          text,
          moreText: text,
          daysText: text,
          days: figure,
          isClosed: z.boolean(),
          compared: z.array(compared),
          meanwhile: z.array(text),
          sisters: z.array(z.object({ tank: text, compared: z.array(compared) })),
          remark: text,
          at,
        }),
      ),
    }),
  );
}
