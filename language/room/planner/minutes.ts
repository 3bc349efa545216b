import { timedActs } from "../../book/definitions/shared.ts";
import { kindNumber } from "../../book/entries/registry.ts";
import { Col, intsPerRow, isFurther, kindOfRow, minuteOfRow } from "../../book/facts.ts";
import type { Duty, Station, Tank } from "../../book/stations.ts";
import { median } from "../../science/median.ts";
import { eachRow, firstFrom } from "../days.ts";
import type { Logbook } from "../logbook.ts";

/** How long the act of a duty takes: as it is stated, else as the times of the log tell. */
export interface ActTime {
  /** NaN where it is neither stated nor to be learned: it then does not bind. */
  readonly minutes: number;
  /** How it is known. */
  readonly by: "stated" | "tank" | "room" | "unknown";
  /** What states it, or how many times were seen. */
  readonly from: string;
}

/** So many times have to be seen. Our own choice: of five a median has two to either side. */
export const fewestTimes = 5;
/** A longer while between two entries is a pause and not work. Our own choice. */
const longestMinutes = 90;
/** Older times are not looked at. */
const learnedDays = 365;

/**
 * The minutes of acts on a day. What was learned is the median of the whiles from one entry to the next of the same kind, where each
 * stands alone at its time and nothing stands between: so whether a keeper writes at the beginning or at the end does not matter, and
 * the way from tank to tank is in it. The median, as one phone call is not to count. *Our own rule.*
 */
export function actTimes(logbook: Logbook, day: number): (of: Pick<Duty, "station" | "kind">) => ActTime {
  const { book } = logbook;
  const learned = learnedBefore(logbook, day);
  return ({ station, kind }) => {
    for (const by of [station, systemOf(station), book.stations[0]]) {
      const minutes = by === undefined ? Number.NaN : statedIn(by, kind);
      if (!Number.isNaN(minutes))
        return { minutes, by: "stated", from: by!.kind === "room" ? "the room" : by!.name };
    }
    const own = learned.get(keyOf(kind, station)) ?? [];
    if (own.length >= fewestTimes) return { minutes: median(own), by: "tank", from: `${own.length} times` };
    const all = learned.get(keyOf(kind)) ?? [];
    if (all.length >= fewestTimes) return { minutes: median(all), by: "room", from: `${all.length} times` };
    return { minutes: Number.NaN, by: "unknown", from: `${all.length} of ${fewestTimes} times` };
  };

  function systemOf(station: Station): Station | undefined {
    const system = station.kind === "tank" ? (station as Tank).system : "";
    return system === ""
      ? undefined
      : book.stations.find(({ kind, name }) => kind === "system" && name === system);
  }

  function statedIn({ definition }: Station, kind: number): number {
    let minutes = Number.NaN;
    for (const { word, filled } of definition?.properties ?? []) {
      if (word !== "takes") continue;
      for (const { act, time } of filled.items) {
        if (act === undefined || time === undefined || kindNumber(act.text) !== kind) continue;
        minutes = book.units.canonical(time.value, time.unit, "duration") * 1440;
      }
    }
    return minutes;
  }
}

const keyOf = (kind: number, station?: Station): string => `${kind} ${station?.id ?? ""}`;

function learnedBefore({ dayGroups, book }: Logbook, day: number): Map<string, number[]> {
  const kinds = new Set(timedActs.map((act) => kindNumber(act)));
  const learned = new Map<string, number[]>();
  const add = (key: string, minutes: number): void => {
    const known = learned.get(key);
    if (known === undefined) learned.set(key, [minutes]);
    else known.push(minutes);
  };
  for (let at = firstFrom(dayGroups, day - learnedDays); at < dayGroups.length; at++) {
    const group = dayGroups[at]!;
    if (group.day > day) break;
    let last = { minute: 0, kind: -1, target: 0, isAlone: false };
    let before = last;
    const close = (): void => {
      const minutes = last.minute - before.minute;
      if (before.isAlone && last.isAlone && before.kind === last.kind && kinds.has(last.kind)) {
        if (minutes > 0 && minutes <= longestMinutes) {
          add(keyOf(last.kind), minutes);
          const station = book.station(last.target);
          if (station !== undefined) add(keyOf(last.kind, station), minutes);
        }
      }
      before = last;
    };
    eachRow(group, (_, facts, row) => {
      if (isFurther(facts, row)) return;
      const minute = minuteOfRow(facts, row);
      const target = facts.ints[row * intsPerRow + Col.target]!;
      if (minute === last.minute) last.isAlone = false;
      else {
        close();
        // An entry of a group is of many tanks.
        last = { minute, kind: kindOfRow(facts, row), target, isAlone: book.station(target) !== undefined };
      }
    });
    close();
  }
  return learned;
}
