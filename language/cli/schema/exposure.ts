import * as z from "zod/mini";
import { head, isoDay, place, said, unread, whole } from "./parts.ts";

/** What `exposure` prints. */

const maybeDay = () => z.nullable(isoDay());
const time = () => z.string().check(z.regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/), said("YYYY-MM-DDTHH:MM"));
const kind = z
  .enum(["animals", "water", "barrel", "things", "tool", "shared"])
  .check(said("`things`: plants, wood, media; `shared`: tanks of one water, no line of its own"));

const step = z.object({
  time: time(),
  kind,
  from: z.string(),
  to: z.string(),
  text: z.string(),
  at: z.nullable(place).check(said("the line; null for shared water")),
});

const held = z.object({
  tank: z.string(),
  isOrigin: z.boolean().check(said("animals in it showed signs, it was sampled, or it was asked for")),
  kind: z
    .string()
    .check(
      said(
        "signs, sampled, result or asked for; else how close the contact is, of its links the least close",
      ),
    ),
  links: whole(),
  since: time(),
  last: time().check(said("the last time anything came into its water from what may have had it")),
  why: z.string(),
  steps: z.array(step),
});

const reached = z.object({
  name: z.string(),
  is: z.enum(["tank", "tool", "barrel", "consignment", "party"]),
  time: time().check(said("forward when it was first reached, backward when it was last left")),
  links: whole(),
  isOrigin: z.boolean(),
  path: z.string(),
  steps: z.array(step),
});

export const exposureOfOne = z.object({
  case: z.string().check(said("empty for signs without a case, and for a tank that was asked for")),
  title: z.string(),
  by: z.enum(["signs", "result", "asked"]),
  from: isoDay(),
  day: isoDay().check(said("the last day that counts: today, or the day the case was closed")),
  closed: maybeDay(),
  windowDays: whole(),
  windowText: z.string(),
  origins: z.array(
    z.object({
      place: z.string(),
      day: isoDay(),
      how: z.enum(["signs", "sample", "result", "asked"]),
      text: z.string(),
      at: z.nullable(place),
    }),
  ),
  hold: z.array(held).check(said("in the order in which they are to be held")),
  past: z.array(held).check(said("not reached again for longer than the window, and no sign is written")),
  ended: z.array(
    z.object({ tank: z.string(), since: time(), ended: time(), text: z.string(), at: z.nullable(place) }),
  ),
  tools: z
    .array(z.object({ name: z.string(), since: time(), last: time() }))
    .check(said("not disinfected since")),
  forward: z.array(reached),
  back: z.array(reached),
  beside: z
    .array(z.object({ source: z.string(), reached: z.array(reached) }))
    .check(said("what else a consignment or a barrel it may have come from has reached")),
  cuts: z.array(
    z.object({
      name: z.string(),
      time: time(),
      how: z.enum(["disinfected", "emptied"]),
      text: z.string(),
      at: z.nullable(place),
    }),
  ),
});

export const exposureReport = z.object({
  ...head("exposure"),
  logbooks: z.array(
    z.object({
      folder: z.string(),
      title: z.string(),
      day: isoDay(),
      exposures: z.array(exposureOfOne).check(said("of each open case, or of what was asked for")),
    }),
  ),
  caution: z.string(),
  unread,
});
export type ExposureReport = z.infer<typeof exposureReport>;
