import * as z from "zod/mini";
import { head, isoDay, said, unread, whole } from "./parts.ts";

/** What `plan` prints. */

const litres = z
  .object({ low: z.number(), high: z.number() })
  .check(said("new water, the least and the most that will do"));

const job = z.object({
  at: z.string().check(said("where it is done: of a gear its tank")),
  of: z.string().check(said("what owes it")),
  act: z.string().check(said("what to write down when it is done, without the target")),
  every: z.nullable(whole()).check(said("days; null for what comes once")),
  isFixed: z.boolean().check(said("it has a day of its own, which no plan moves: a dose, a packing")),
});

const work = z.object({
  ...job.shape,
  late: whole().check(said("days past due when it is done; below 0 early")),
  litres: z.nullable(litres).check(said("null where it is no change, or the volume is not known")),
  minutes: z.nullable(z.number()).check(said("null where not known: it then does not bind")),
  minutesBy: z
    .enum(["stated", "tank", "room", "unknown"])
    .check(said("stated by `takes`; the median of the log's times for the tank, or for all of the room")),
});

const resource = z.enum(["tanks", "litres", "minutes"]);

export const planReport = z.object({
  ...head("plan"),
  logbooks: z.array(
    z.object({
      folder: z.string(),
      title: z.string(),
      day: isoDay().check(said("the first day of the plan")),
      verdict: z.string(),
      nearness: z.string().check(said("how near the plan is to the least waiting there can be")),
      fits: z
        .boolean()
        .check(said("on average, for good: what duties ask for is within each capacity stated")),
      allTimes: z
        .nullable(z.number())
        .check(
          said("all intervals so many times as long would do for all that does not fit; null where it fits"),
        ),
      demands: z.array(
        z.object({
          of: resource,
          perDay: z.number().check(said("on an average day; of tanks the least")),
          capacity: z.nullable(z.number()).check(said("on an average day, days off counted as nothing")),
          over: z
            .nullable(z.number())
            .check(said("above capacity; below 0 what is left; null without a capacity")),
          overAWeek: z.nullable(z.number()),
          sparedDays: z
            .nullable(whole())
            .check(said("so many more days a week could be off on average; null without a capacity")),
          unknown: whole().check(said("duties of which it is not known what they take")),
          fixes: z.array(
            z.object({
              is: z.enum(["capacity", "one day", "no day off", "all intervals", "intervals of"]),
              at: z.nullable(z.string()).check(said("whose intervals")),
              weekday: z.nullable(whole()).check(said("no longer off; 1 for Monday")),
              value: z
                .number()
                .check(
                  said(
                    "what each day is to hold, one day a week more, or a weekday adds; or how many times as long the intervals",
                  ),
                ),
              text: z.string(),
            }),
          ),
        }),
      ),
      tooLarge: z.array(job).check(said("work that no single day holds")),
      doneTanks: whole().check(
        said(
          "tanks and systems on which a duty was done on the first day already: they are off what it holds",
        ),
      ),
      days: z.array(
        z.object({
          day: isoDay(),
          away: z.boolean(),
          reason: z.string().check(said("of the absence")),
          tanks: whole(),
          litres,
          minutes: z.number().check(said("of what is known")),
          holds: z
            .object({
              tanks: z.nullable(z.number()),
              litres: z.nullable(z.number()),
              minutes: z.nullable(z.number()),
            })
            .check(said("null where it is not stated")),
          covered: z.array(job).check(said("done by someone else, as nobody works on the day")),
          stops: z
            .array(
              z.object({
                at: z.string(),
                stage: z.enum(["fry", "healthy", "exposed", "quarantine", "hospital", "sick"]),
                work: z.array(work),
              }),
            )
            .check(said("in the order of a round: from the clean to the dirty")),
          owed: z.array(job).check(said("due, and not done when the day ends")),
        }),
      ),
      daysLate: whole().check(said("days that end with a duty owed, over all duties")),
      cost: z
        .number()
        .check(said("lateness in parts of its interval, summed over days; with early days and moves")),
      bound: z.number().check(said("no plan costs less")),
      isBest: z.boolean().check(said("it was shown that no plan costs less")),
      moved: z
        .array(
          z.object({
            ...job.shape,
            day: isoDay(),
            from: z.nullable(isoDay()).check(said("null where it is done once more than planned")),
            why: z
              .string()
              .check(said("as far as the problem tells; empty where it is done once more than planned")),
          }),
        )
        .check(said("on days that the plan of yesterday did not have for it")),
    }),
  ),
  unread,
});
export type PlanReport = z.infer<typeof planReport>;
