import * as z from "zod/mini";
import { head, isoDay, said, unread, whole } from "./parts.ts";

/** What `water` prints. */

const span = z.object({
  low: z.number().check(said("the least that will do")),
  high: z.number().check(said("the most")),
});
const maybe = () => z.nullable(span);

const change = z.object({
  at: z.string(),
  act: z.string(),
  late: whole().check(said("whole days")),
  method: z.enum(["batch", "flow"]),
  source: z.string().check(said("a water, or a tank whose water it is; empty where no water is defined")),
  isFromTank: z.boolean(),
  isUsual: z.boolean().check(said("false where neither the duty nor an earlier change tells the water")),
  litres: maybe().check(said("filled in, or run through; null with a problem")),
  share: maybe().check(said("of the old water that is gone then, 0 to 1")),
  minutes: maybe().check(said("null where the room states no flow")),
  temperature: z.nullable(
    z.object({
      tank: z.nullable(z.number()).check(said("as last read, degrees Celsius")),
      read: z.nullable(isoDay()),
      source: z.nullable(z.number()),
      change: maybe().check(said("of the tank, unmatched: below 0 it cools")),
      mix: z.nullable(z.object({ water: z.string(), share: z.number(), litres: span })),
    }),
  ),
  problem: z.string(),
});

const need = z.object({
  water: z.string(),
  title: z.string(),
  litres: span,
  direct: maybe().check(said("of it what goes into tanks as it is")),
  into: z.array(z.string()).check(said("waters made of the rest")),
  made: z.nullable(
    z.object({
      isStated: z.boolean().check(said("false where it follows from what the waters hold alone")),
      parts: z.array(z.object({ water: z.string(), share: z.number(), litres: span })),
      salts: z.array(z.object({ formula: z.string(), mgL: z.number(), grams: span })),
      reached: z.array(
        z.object({
          parameter: z.string(),
          unit: z.string(),
          wanted: z.number(),
          reached: z.number(),
          isMet: z.boolean(),
        }),
      ),
      remarks: z.array(z.string()),
    }),
  ),
  problem: z.string().check(said("why it cannot be made as stated")),
  conditioner: z.nullable(
    z.object({
      totalMgL: z.number().check(said("chlorine, free and combined")),
      combinedMgL: z.number(),
      thiosulfateMg: span.check(said("crystals, the pentahydrate, by the reaction that needs most")),
    }),
  ),
});

export const waterReport = z.object({
  ...head("water"),
  logbooks: z.array(
    z.object({
      folder: z.string(),
      title: z.string(),
      capacity: z.nullable(z.number()).check(said("litres a day, as the room states it")),
      days: z
        .array(
          z.object({
            day: isoDay(),
            capacity: z.nullable(z.number()).check(said("litres that this day may take")),
            away: z
              .nullable(z.string())
              .check(said("why nobody works on it, perhaps empty; null on a day with work")),
            changes: z.array(change),
            waters: z.array(need),
            litres: maybe(),
            minutes: maybe(),
          }),
        )
        .check(said("today first")),
      notStated: z.array(z.string()),
    }),
  ),
  caution: z.string(),
  unread,
});
export type WaterReport = z.infer<typeof waterReport>;
