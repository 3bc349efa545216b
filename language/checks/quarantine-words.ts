import { spokenDay } from "../book/dates.ts";
import { formatNumber } from "../quantity/format.ts";
import type { Quarantine } from "../room/quarantine.ts";
import type { PutOff, QuarantineArrival } from "../room/quarantine-period.ts";

/** The clock of quarantine in the words of findings, hints, cards and reports. */

/** `a loss on 10 March`, `signs of case flukes-1 on 10 March`. @param day the year of which needs no saying */
export function putOffText({ by, name, day: on }: PutOff, day: number): string {
  const when = `on ${spokenDay(on, day)}`;
  switch (by) {
    case "arrive":
      return `animals that came ${when}`;
    case "move":
      return `animals that were moved in ${when}`;
    case "loss":
      return `a loss ${when}`;
    case "signs":
      return `signs of ${caseText(name)} ${when}`;
    case "over":
      return `signs of ${caseText(name)} that were over ${when}`;
    case "dose":
      return `a dose of ${name} ${when}`;
    case "bath":
      return `a bath with ${name} ${when}`;
  }
}

export const caseText = (name: string): string => (name === "" ? "disease" : `case ${name}`);

/** `day 12 of 28`: the day it began is the first. */
export function dayOfText({ since, end }: Quarantine, day: number): string {
  return `day ${Math.min(day, end) - since + 1} of ${end - since}`;
}

/** `until 4 April, 12 days left`, `ends today`, `over since 4 April`. */
export function endText({ end, signs }: Quarantine, day: number): string {
  if (signs.length > 0)
    return `not before ${spokenDay(end, day)}: signs of ${signs.map(caseText).join(", ")} last`;
  if (end === day) return "ends today";
  if (end < day) return `over since ${spokenDay(end, day)}`;
  const left = end - day;
  return `until ${spokenDay(end, day)}, ${left} ${left === 1 ? "day" : "days"} left`;
}

/** What put the end off after the clock began, in order of time. */
export const putOffSince = ({ putOff }: Quarantine): readonly PutOff[] => putOff.slice(1);

/** `8 praecox (lot a17), came on 1 March`, `4 horn from dam, moved in on 3 March`. */
export function arrivalText(arrival: QuarantineArrival, day: number): string {
  const { how, from, species, animals, isAbout, lot, day: on } = arrival;
  const many = animals > 0 ? `${isAbout ? "~" : ""}${formatNumber(animals, 6)} ${species}` : species;
  const of = lot === "" ? "" : ` (lot ${lot})`;
  const came = how === "arrive" ? "came" : `from ${from.join(", ")}, moved in`;
  return `${many}${of}${how === "arrive" ? "," : ""} ${came} on ${spokenDay(on, day)}`;
}
