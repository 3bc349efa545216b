import * as z from "zod/mini";
import { counts, head, isoDay, logbook, place, said, unread, whole } from "./parts.ts";
import { quarantine } from "./quarantine.ts";

/** The report of the day. */

const litres = z
  .object({ low: z.number(), high: z.number() })
  .check(said("new water, the least and the most that will do"));

const work = z.object({
  act: z.string().check(said("what to write down when it is done, without the target")),
  of: z.string().check(said("what owes it: the tank, its system, or a gear that serves it")),
  due: z.nullable(isoDay()).check(said("on a day away or off: the next day with work")),
  late: whole().check(said("whole days past due; 0 if due on the day")),
  last: z.nullable(isoDay()).check(said("when it was last done; null if never")),
  text: z.string().check(said("`6 days late`, `today`, `1 of 3`")),
  note: z
    .string()
    .check(
      said(
        "the absence it fell into, what was done and is less than it asks for; empty where there is nothing to say",
      ),
    ),
  litres: z.nullable(litres),
  place: place.check(said("where the duty is stated")),
});
export type WorkReport = z.infer<typeof work>;

const placedWork = z.extend(work, { at: z.string() });

const capacity = z.object({
  tanks: z.nullable(z.number()),
  litres: z.nullable(z.number()),
  minutes: z.nullable(z.number()),
});

const away = {
  from: isoDay(),
  until: isoDay().check(said("the last day away, with days off before and behind")),
  why: z.string().check(said("perhaps empty")),
  covered: z.array(z.string()).check(said("kinds of entries that someone else does on all of these days")),
};

const stage = z.enum(["fry", "healthy", "exposed", "quarantine", "hospital", "sick"]);

export const dayReport = z.object({
  ...logbook.shape,
  entriesToday: whole(),
  capacity: capacity.check(said("what the keeper can do on this day, as the room states it")),
  away: z
    .nullable(z.object(away))
    .check(said("the days away that this day lies in; null on a day with work")),
  before: z
    .array(
      z.object({
        ...away,
        days: z
          .array(z.object({ day: isoDay(), work: z.array(placedWork) }))
          .check(said("what falls due on days away, by the day it does")),
        meanwhile: z
          .array(z.object({ at: z.string(), of: z.string(), act: z.string(), days: whole() }))
          .check(said("what falls due at least twice while nobody is there; `days` is its interval")),
        doses: z.array(
          z.object({ at: z.string(), remedy: z.string(), number: whole(), of: whole(), due: isoDay() }),
        ),
        steps: z
          .array(z.object({ at: z.string(), act: z.string(), due: isoDay() }))
          .check(said("what courses owe beside their doses")),
        orders: z.array(z.object({ order: z.string(), due: isoDay() })),
        hatches: z
          .array(
            z.object({
              brood: z.string(),
              at: z.string(),
              stage: z.enum(["hatch", "swim"]),
              earliest: isoDay(),
              latest: z.nullable(isoDay()).check(said("null where no end is in sight")),
              text: z.string(),
            }),
          )
          .check(said("broods that may hatch, or swim, meanwhile")),
        cultures: z
          .array(
            z.object({
              food: z.string(),
              at: z.string(),
              from: isoDay(),
              until: z.nullable(isoDay()).check(said("null for what gives again and again")),
              text: z.string(),
            }),
          )
          .check(
            said("live foods that are ready then, or no longer after it; not where someone else harvests"),
          ),
        quarantines: z
          .array(z.object({ at: z.array(z.string()), end: isoDay(), text: z.string() }))
          .check(said("clocks that end then; not of weekdays off")),
        results: z
          .array(
            z.object({
              case: z.string(),
              laboratory: z.string().check(said("empty where nobody wrote it")),
              left: isoDay(),
              text: z.string(),
            }),
          )
          .check(said("of samples that left within two months and have none yet; not of weekdays off")),
      }),
    )
    .check(said("before you go: told on the last days with work before days away")),
  unseen: z
    .array(
      z.object({
        at: z.string(),
        since: z.nullable(isoDay()).check(said("when one of them was counted last, or came; null if never")),
        text: z.string(),
      }),
    )
    .check(said("animals that nobody counted for a month, by tank; not where a count is due anyway")),
  expiring: z
    .array(
      z.object({
        name: z.string(),
        sort: z.enum(["food", "remedy", "gear"]),
        day: isoDay().check(
          said("the last day on which it is good; of what lasts, the day it is due to be replaced"),
        ),
        late: whole().check(said("whole days past it; below 0 before it")),
        by: z.enum(["expires", "opened", "lasts"]),
        text: z.string(),
        place: place.check(said("where it is stated")),
      }),
    )
    .check(
      said("to be replaced within two weeks, or past its day and in use or on hand, the earliest first"),
    ),
  round: z
    .array(
      z.object({
        at: z.string(),
        kind: z.enum(["tank", "system", "room", "gear"]),
        title: z.string(),
        stage,
        reason: z.string().check(said("why it is of its stage")),
        before: z
          .string()
          .check(
            said("what to do before it: said at the first place of a stage that is dirtier, else empty"),
          ),
        work: z.array(work),
      }),
    )
    .check(said("what is due or late, by place, in the order of the round: from the clean to the dirty")),
  hands: z
    .array(z.object({ at: z.string(), stage, reason: z.string() }))
    .check(
      said(
        "all tanks in service in the order of a round: fry, healthy, exposed to an open case, quarantine, hospital, sick",
      ),
    ),
  prepare: z.nullable(litres).check(said("water for the whole round; null if no change is due")),
  courseSteps: z
    .array(
      z.object({
        at: z.string(),
        remedy: z.string(),
        is: z.enum(["remove", "test", "change", "return"]),
        act: z.string().check(said("as it is written when it is done")),
        reason: z.string(),
        due: isoDay().check(said("the last day on which it is in time")),
        late: whole().check(said("days; below 0 while it is not due")),
      }),
    )
    .check(said("what courses of treatment owe beside their doses")),
  doses: z.array(
    z.object({
      at: z.string(),
      remedy: z.string(),
      number: whole(),
      of: whole(),
      due: isoDay(),
      late: whole(),
      changeOwed: z.number().check(said("new water owed before it, as a fraction; 0 if none")),
      now: z
        .nullable(z.number())
        .check(said("what is in the water, in `unit`; null if it cannot be computed")),
      unit: z.string(),
      text: z.string(),
      caution: z.string(),
    }),
  ),
  remedies: z
    .array(
      z.object({
        at: z.string(),
        remedy: z.string(),
        now: z.nullable(z.number()),
        unit: z.string(),
        text: z.string(),
        last: isoDay().check(said("of the last dose")),
        withdrawalUntil: z
          .nullable(isoDay())
          .check(said("not to be shipped before; as the keeper states it")),
        caution: z.string(),
      }),
    )
    .check(said("what is still in the water, or was there too lately to ship")),
  water: z
    .array(
      z.object({
        at: z.string(),
        parameter: z.string(),
        is: z.enum(["above", "below", "heading"]),
        unit: z.string(),
        low: z.number(),
        high: z
          .nullable(z.number())
          .check(said("the ends of the last reading; null for above what the test can tell")),
        limit: z.object({ low: z.nullable(z.number()), high: z.nullable(z.number()), text: z.string() }),
        reading: z.string(),
        day: isoDay().check(said("of the last reading")),
        level: z.string().check(said("now, by tests and changes; empty if it cannot be told")),
        crossing: z.nullable(
          z.object({
            day: z.nullable(isoDay()),
            earliest: z.nullable(isoDay()),
            latest: z.nullable(isoDay()),
            text: z.string(),
          }),
        ),
        regular: z.string().check(said("the change that is stated; empty if none is")),
        holding: z
          .string()
          .check(said("the change that would hold the limit; empty where none is needed or known")),
        changeBack: z
          .string()
          .check(said("the one change that would bring it back; empty where it is within")),
      }),
    )
    .check(said("out of its limit by the last reading, then heading for it, the soonest first")),
  quarantine: z
    .array(quarantine)
    .check(said("the clocks that run, and those that end today; the first first")),
  hatches: z
    .array(
      z.object({
        brood: z.string(),
        at: z.string(),
        species: z.string(),
        stage: z.enum(["hatch", "swim"]),
        is: z.enum(["due", "late"]),
        earliest: z.nullable(isoDay()),
        likely: z.nullable(isoDay()),
        latest: z.nullable(isoDay()),
        text: z.string(),
        place: z.nullable(place).check(said("the first entry of the brood")),
      }),
    )
    .check(said("eggs that are to hatch, and young that are to swim, about now; late ones first")),
  sick: z.array(
    z.object({
      case: z.string().check(said("empty for signs without a case")),
      since: isoDay(),
      at: z.array(z.string()),
      species: z.string(),
      affected: z.nullable(z.number()),
      atRisk: z.nullable(z.number()),
      latest: z.nullable(isoDay()).check(said("when the sick were last written down")),
      signs: z.string(),
      place,
    }),
  ),
  orders: z
    .array(
      z.object({
        order: z.string(),
        buyer: z.string(),
        due: isoDay(),
        late: whole().check(said("whole days past due; 0 if due on the day")),
        text: z.string().check(said("when it is due, what is missing and from when")),
        unfed: z.array(z.string()).check(said("tanks that are not to be fed before it is packed")),
        place: place.check(said("where it is defined")),
      }),
    )
    .check(said("to be packed: due within three days, or late")),
  coming: z
    .array(
      z.object({
        day: isoDay(),
        away: z
          .nullable(z.string())
          .check(said("why nobody works on it, perhaps empty; null on a day with work")),
        capacity,
        work: z.array(placedWork),
        litres: z.nullable(litres),
      }),
    )
    .check(said("what falls due on each of the next days, if nothing of it is done before")),
  findings: counts,
});
export type DayReport = z.infer<typeof dayReport>;

export const todayReport = z.object({ ...head("today"), days: z.array(dayReport), unread });
export type TodayReport = z.infer<typeof todayReport>;
