import * as z from "zod/mini";
import type { GridCharted } from "../../../language/server/grid-protocol.ts";

/** What is told of columns that are drawn. */

const text = z.string();
const figure = z.number();

const limitShape = z.nullable(z.object({ low: z.nullable(figure), high: z.nullable(figure), text }));
export const chartedShape: z.ZodMiniType<GridCharted | "moved"> = z.union([
  z.literal("moved"),
  z.object({
    names: z.nullable(z.array(text)),
    today: figure,
    columns: z.array(
      z.object({
        id: text,
        title: text,
        unit: text,
        limit: limitShape,
        points: z.array(
          z.object({
            row: text,
            at: figure,
            low: z.nullable(figure),
            high: z.nullable(figure),
            text,
            state: z.enum(["", "within", "above", "below", "unsure"]),
            detail: text,
            limit: limitShape,
          }),
        ),
      }),
    ),
    left: z.array(z.object({ title: text, why: text })),
    rows: z.array(text),
    skipped: figure,
  }),
]);
