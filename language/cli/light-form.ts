import type * as z from "zod/mini";
import { clockOf, isoOf } from "../book/dates.ts";
import type { ComparedCard, LightCard, LightChangeCard } from "../features/light-cards.ts";
import type { Location } from "../features/view.ts";
import type { light, lightChange } from "./schema/light.ts";
import type { Place } from "./schema/parts.ts";

/** Places of the logbook's files: null for what has none. */
type At = (location: Location | null) => Place | null;

const timeOf = (time: number): string => `${isoOf(time)}T${clockOf(time)}`;

/** The light of a tank in the form of `--json`. */
export function lightOf(card: LightCard, at: At): z.infer<typeof light> {
  const timed = <Each extends { readonly time: number; readonly at: LightCard["at"] }>({
    time,
    at: location,
    ...rest
  }: Each) => ({ ...rest, time: timeOf(time), at: at(location) });
  return {
    text: card.text,
    since: card.since === null ? null : isoOf(card.since),
    at: at(card.at),
    unit: card.unit,
    course: card.course.map(({ time, value }) => ({ time: timeOf(time), value })),
    settings: card.settings.map(timed),
    algae: card.algae.map((each) => ({ ...each, ratings: each.ratings.map(timed) })),
    trims: card.trims.map(timed),
    changes: card.changes.map((each) => lightChangeOf(each, at)),
  };
}

export const lightChangeOf = (card: LightChangeCard, at: At): z.infer<typeof lightChange> => ({
  ...card,
  day: isoOf(card.day),
  compared: card.compared.map(comparedOf),
  meanwhile: [...card.meanwhile],
  sisters: card.sisters.map(({ tank, compared }) => ({ tank, compared: compared.map(comparedOf) })),
  at: at(card.at),
});

const comparedOf = (card: ComparedCard) => ({
  ...card,
  before: { ...card.before },
  after: { ...card.after },
  shift: card.shift === null ? null : { ...card.shift },
});
