import * as z from "zod/mini";
import { head, isoDay, place, said, unread, whole, why } from "./parts.ts";

/** What `feed` prints. */

const figure = () => z.nullable(z.number());
const isoTime = () => z.string().check(z.regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/), said("YYYY-MM-DDThh:mm"));

const need = z.object({
  food: z.string().check(said("a food or a kind of food")),
  text: z.string(),
  times: whole().check(
    said("entries in the days up to today that count; of grazing also days on which a surface was left"),
  ),
  is: z
    .enum(["met", "due", "late", "over", "young"])
    .check(said("young: the animals are not there for as long as the need counts")),
  species: z.array(z.string()),
  why,
});

const ration = z.object({
  gramsADay: figure().check(said("of what has a weight")),
  biomassG: figure().check(said("null where the weight of a species is not known")),
  share: figure().check(said("of the biomass, a day")),
  text: z.string(),
  ammoniaMgN: figure().check(said("a day, of foods that state their protein")),
  unknown: z.array(z.string()).check(said("why some of it has no weight")),
  why,
});

const tank = z.object({
  name: z.string(),
  title: z.string(),
  at: z.nullable(place),
  animals: z.string(),
  meals: z.array(
    z.object({
      day: isoDay(),
      food: z.string().check(said("none for a day without food")),
      entry: whole().check(said("the items of one entry share it")),
      kind: z.string().check(said("other for a food that states no kind; empty for none")),
      text: z.string(),
      at: z.nullable(place),
    }),
  ),
  last: z.nullable(z.object({ time: isoTime(), text: z.string(), at: z.nullable(place) })),
  hours: figure().check(said("from the last food to the end of the day")),
  needs: z.array(need),
  ration: z.nullable(ration),
});

const pantry = z.object({
  name: z.string(),
  title: z.string(),
  kind: z.string().check(said("of a food its kind, else remedy")),
  unit: z.string(),
  onHand: figure(),
  onHandText: z.string().check(said("or why it is not known")),
  useADay: figure().check(said("the median week over seven")),
  daysLeft: figure(),
  daysLeftLow: figure(),
  daysLeftHigh: figure().check(said("null also where there is no end to it")),
  lastsText: z.string(),
  runsOut: z.nullable(isoDay()),
  expires: z.nullable(isoDay()),
  openedUntil: z.nullable(isoDay()).check(said("by when it was opened")),
  remark: z.string(),
  lastUsed: z.nullable(isoDay()),
  at: z.nullable(place),
  why,
});

const culture = z.object({
  food: z.string(),
  of: z.string().check(said("where it was begun")),
  started: isoTime(),
  at: z.nullable(place),
  is: z.enum(["growing", "ready", "overdue", "missed", "harvested", "running"]),
  text: z.string(),
  readyFrom: z.nullable(isoTime()),
  readyUntil: z.nullable(isoTime()),
  harvests: whole(),
  lastHarvest: z.nullable(isoTime()),
  hasBackUp: z.boolean(),
  hatch: z
    .array(z.object({ text: z.string(), isWithin: z.boolean() }))
    .check(said("how cysts were set to hatch, beside the published ranges: orientation")),
  hatchSource: z.string(),
  why,
});

export const feedReport = z.object({
  ...head("feed"),
  logbooks: z.array(
    z.object({
      folder: z.string(),
      title: z.string(),
      day: isoDay().check(said("the day it is true for")),
      from: isoDay().check(said("the first day that is shown")),
      days: whole(),
      kinds: z.array(z.string()).check(said("of food, fed or needed")),
      tanks: z.array(tank),
      pantry: z.array(pantry),
      cultures: z.array(culture),
    }),
  ),
  unread,
});
export type FeedReport = z.infer<typeof feedReport>;
