import * as z from "zod/mini";
import type { FeedMatrixCard } from "./shown.ts";

/** The form of the feedings that the host sends. */

const place = z.nullable(
  z.object({
    uri: z.string(),
    range: z.object({
      start: z.object({ line: z.number(), character: z.number() }),
      end: z.object({ line: z.number(), character: z.number() }),
    }),
  }),
);

export const feedingShape: z.ZodMiniType<FeedMatrixCard | null> = z.nullable(
  z.object({
    day: z.number(),
    days: z.number(),
    rowsAre: z.enum(["kind", "tank"]),
    rows: z.array(
      z.object({
        name: z.string(),
        isTank: z.boolean(),
        cells: z.array(
          z.object({ day: z.number(), times: z.number(), text: z.string(), isFast: z.boolean(), at: place }),
        ),
        need: z.string(),
        isShort: z.boolean(),
        isOver: z.boolean(),
      }),
    ),
    lastText: z.string(),
    lastAt: place,
    rationText: z.string(),
  }),
);
