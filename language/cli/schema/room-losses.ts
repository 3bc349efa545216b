import * as z from "zod/mini";
import { isoDay, place, said, whole, why } from "./parts.ts";

/** What the room loses against what it usually loses, as a part of a report. */

const figure = () => z.nullable(z.number());

export const roomLosses = z.object({
  day: isoDay(),
  unknown: z.string().check(said("what is missing to tell what is usual; empty where nothing is")),
  baseline: z.object({
    from: isoDay(),
    to: isoDay().check(said("the reference, both days included: it ends 14 days before the day")),
    days: whole().check(said("of it with animals, outside of outbreaks that were told")),
    deaths: z.number().check(said("no culls, none that are missing, none that the book did not know of")),
    animalDays: z.number(),
    perThousand: figure().check(said("deaths in 1000 animal-days")),
    low: figure(),
    high: figure().check(said("exact 95 % interval, Garwood 1936")),
    aDay: figure().check(said("deaths of a day, at the mean number of animals")),
    animals: figure().check(said("their mean number")),
    spread: figure().check(said("index of dispersion: about 1 where deaths come one by one")),
    text: z.string(),
    why,
  }),
  scheme: z
    .nullable(
      z.object({
        ratio: z.number().check(said("so many times the usual are to be found")),
        k: z.number().check(said("of a day with the mean number of animals, in deaths")),
        h: z.number().check(said("an alarm is at a sum of so much")),
        falseAlarmDays: figure().check(said("mean days to an alarm by chance alone")),
        falseAlarmDaysAtHigh: figure().check(said("the same, were the usual rate at its upper end")),
        daysToFind: figure().check(said("mean days to an alarm at the rate to be found")),
        text: z.string(),
      }),
    )
    .check(said("Poisson CUSUM, Lucas 1985; null where it is not known what is usual")),
  sum: figure(),
  chart: z.array(
    z.object({
      day: isoDay(),
      died: z.number(),
      animals: z.number().check(said("times the part of the day that they were there")),
      expected: figure(),
      k: figure(),
      h: figure(),
      sum: figure().check(said("null on a day of whose reference too little is known; so the others")),
      isAlarm: z.boolean(),
    }),
  ),
  outbreaks: z
    .array(
      z.object({
        from: isoDay().check(said("since when the sum was above 0")),
        told: isoDay(),
        last: isoDay().check(said("of its alarms")),
        alarms: whole(),
        died: z.number(),
        expected: z.number(),
        isOpen: z.boolean().check(said("less than 14 days since the last alarm")),
        text: z.string(),
        place: z.nullable(place),
        why,
      }),
    )
    .check(said("the latest first")),
  leftOut: z.number().check(said("deaths of animals that the book did not know of")),
});
export type RoomLosses = z.infer<typeof roomLosses>;
