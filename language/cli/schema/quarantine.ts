import * as z from "zod/mini";
import { isoDay, place, said, whole, why } from "./parts.ts";

/** The clock of one quarantine water. */
export const quarantine = z.object({
  tanks: z.array(z.string()).check(said("the quarantine tanks of the water")),
  animals: z.array(z.object({ species: z.string(), animals: z.number(), text: z.string() })),
  since: isoDay(),
  end: isoDay().check(
    said("the first day on which it is over; while signs of a case last, the earliest that may be"),
  ),
  daysLeft: whole(),
  dayText: z.string().check(said("`day 12 of 28`")),
  text: z.string(),
  isOver: z.boolean(),
  signs: z.array(z.string()).check(said("cases of which signs last")),
  putOff: z
    .array(
      z.object({
        by: z.string().check(said("arrive, move, loss, signs, over, dose or bath")),
        text: z.string(),
        day: isoDay(),
        from: isoDay(),
        to: isoDay(),
        at: z.nullable(place),
      }),
    )
    .check(said("what put the end off since it began, in order of time")),
  arrivals: z.array(
    z.object({
      how: z.enum(["arrive", "move"]),
      tank: z.string(),
      from: z.array(z.string()).check(said("the tanks they were moved from")),
      species: z.string(),
      animals: z.number(),
      lot: z.string(),
      day: isoDay(),
      end: isoDay().check(said("the first day on which their own clock is over")),
      text: z.string(),
      at: z.nullable(place),
    }),
  ),
  why,
  at: z.nullable(place),
});
export type QuarantineReport = z.infer<typeof quarantine>;
