import type { Book } from "../book/book.ts";
import { entryOf } from "../book/entry.ts";
import { parameterOf } from "../book/parameters.ts";
import type { Water } from "../book/stations.ts";
import type { CheckedLogbook } from "../checks/check.ts";
import { type ChangeDue, changesDue, type Litres } from "../room/changes-due.ts";
import type { Ledger } from "../room/ledger.ts";
import { isRaw, type MadeOf, madeOf } from "../room/made-of.ts";
import { thiosulfateMg } from "../science/chlorine.ts";
import { flowThroughFraction, flowThroughVolumeL } from "../science/dilution.ts";
import { isOutside } from "../science/result.ts";
import { type Warmth, warmthOf } from "./water-warmth.ts";

/** Water to prepare: what the changes of a day take, of which water, made how, in what time. */

export interface WaterDay {
  readonly day: number;
  readonly changes: readonly WaterChange[];
  /** What of each water they take, and of what that is made, in the order of definitions. */
  readonly waters: readonly WaterNeed[];
  /** Of all prepared waters that go into tanks together; undefined where there is none. */
  readonly litres: Litres | undefined;
  /** Draining and filling, one tank after the other; undefined where a flow is not stated. */
  readonly minutes: Litres | undefined;
}

export interface WaterChange {
  readonly at: string;
  readonly act: string;
  readonly late: number;
  readonly method: "batch" | "flow";
  /** A water, or a tank whose water it is; empty where no water is defined. */
  readonly source: string;
  readonly isFromTank: boolean;
  /** Whether source and method were told by the duty or by earlier changes. */
  readonly isUsual: boolean;
  /** What it takes: what is filled in, or runs through. Undefined with a `problem`. */
  readonly litres: Litres | undefined;
  /** The share of the old water that is gone then; undefined with a `problem`. */
  readonly share: Litres | undefined;
  readonly minutes: Litres | undefined;
  readonly warmth: Warmth | undefined;
  /** Why it cannot be said; empty where it can. */
  readonly problem: string;
}

export interface WaterNeed {
  readonly name: string;
  readonly title: string;
  readonly litres: Litres;
  /** Of it what goes into tanks as it is; undefined where nothing does. */
  readonly direct: Litres | undefined;
  /** The waters that are made of the rest. */
  readonly into: readonly string[];
  readonly made: MadeOf | undefined;
  /** Why it cannot be made as stated; empty where it can. */
  readonly problem: string;
  /** Undefined where it holds none, is not stated, or is made of others. */
  readonly conditioner: Conditioner | undefined;
  /** Whether it comes as it is and does not state its chlorine. */
  readonly isChlorineUnstated: boolean;
}

export interface Conditioner {
  readonly totalMgL: number;
  readonly combinedMgL: number;
  /** Crystals of sodium thiosulfate (pentahydrate), by the reaction that needs most. */
  readonly crystalsMg: Litres;
}

/** The days from today on. @param count of them */
export function waterDays(checked: CheckedLogbook, worldDay: number, count: number): WaterDay[] {
  const { logbook, book } = checked;
  const today = logbook.today(worldDay);
  const changes = changesDue(logbook, today, today + count - 1);
  return Array.from({ length: count }, (_, at) => {
    const on = changes
      .filter(({ day }) => day === today + at)
      .map((change) => waterChange(book, change, today));
    const times = on.flatMap(({ minutes }) => minutes ?? []);
    // Water of another tank is not prepared.
    const litres = on.flatMap((each) => (each.isFromTank ? [] : (each.litres ?? [])));
    return {
      day: today + at,
      changes: on,
      waters: needsOf(book, on),
      litres: litres.length === 0 ? undefined : sum(litres),
      minutes: times.length === 0 ? undefined : sum(times),
    };
  });
}

const sum = (all: readonly Litres[]): Litres => ({
  low: all.reduce((total, { low }) => total + low, 0),
  high: all.reduce((total, { high }) => total + high, 0),
});
const times = ({ low, high }: Litres, factor: number): Litres => ({ low: low * factor, high: high * factor });

function waterChange(book: Book, change: ChangeDue, today: number): WaterChange {
  const { station, act, late, volumeL, ledger, duty } = change;
  const usual = usualOf(ledger, change, today);
  const taken = takenBy(change, usual.method === "flow");
  const { litres, share, problem } = taken;
  const source = book.waters.find(({ name }) => name === usual.source);
  const isFromTank = source === undefined && book.tank(usual.source) !== undefined;
  return {
    at: station.name,
    act,
    late,
    ...usual,
    isFromTank,
    litres,
    share,
    problem,
    minutes: litres === undefined ? undefined : minutesOf(book, litres, usual.method),
    warmth:
      share === undefined || litres === undefined
        ? undefined
        : warmthOf(book, ledger, station, source, { litres, share, today }),
  };

  function takenBy(
    { litres: asked }: ChangeDue,
    isFlow: boolean,
  ): Pick<WaterChange, "litres" | "share" | "problem"> {
    const none = { litres: undefined, share: undefined };
    if (asked === undefined || !(volumeL > 0))
      return {
        ...none,
        problem: `the volume of ${station.name} is not stated: volume, below ${station.kind} ${station.name}`,
      };
    if (!isFlow) {
      if (asked.high > volumeL) return { ...none, problem: "more than all of its water" };
      return { litres: asked, share: times(asked, 1 / volumeL), problem: "" };
    }
    // A duty that says flow names what runs through; else the share is stated, and more must run through for it.
    if (duty !== undefined && wordOf(duty.form.items[0]?.method) === "flow")
      return {
        litres: asked,
        share: {
          low: flowThroughFraction(asked.low, volumeL),
          high: flowThroughFraction(asked.high, volumeL),
        },
        problem: "",
      };
    const low = flowThroughVolumeL(asked.low / volumeL, volumeL);
    const high = flowThroughVolumeL(asked.high / volumeL, volumeL);
    if (isOutside(low) || isOutside(high))
      return { ...none, problem: isOutside(low) ? low.outside : (high as { outside: string }).outside };
    return { litres: { low, high }, share: times(asked, 1 / volumeL), problem: "" };
  }
}

const wordOf = (value: { readonly text: string } | undefined): string => value?.text ?? "";

/** So many of the last changes tell what is usual. */
const lastChanges = 5;

/** By the duty itself, else as most of the last changes were, of two the later; else a batch of the first water. */
function usualOf(
  ledger: Ledger,
  { duty }: ChangeDue,
  today: number,
): Pick<WaterChange, "method" | "source" | "isUsual"> {
  const first = ledger.book.waters[0]?.name ?? "";
  const { exchanges } = ledger;
  const said: string[] = [];
  for (let at = exchanges.from(today + 1) - 1; at >= 0 && said.length < lastChanges; at--) {
    // A top-up takes nothing out.
    if (!(exchanges.first[at]! > 0)) continue;
    const item = entryOf(exchanges.block[at]!, exchanges.row[at]!)?.item;
    said.push(`${wordOf(item?.method) || "batch"} ${wordOf(item?.source) || first}`);
  }
  const count = (each: string): number => said.filter((other) => other === each).length;
  const [most = `batch ${first}`] = [...said].sort((a, b) => count(b) - count(a));
  const [method, source] = most.split(" ") as ["batch" | "flow", string];
  const stated = duty?.form.items[0];
  return {
    method: (wordOf(stated?.method) || method) === "flow" ? "flow" : "batch",
    source: wordOf(stated?.source) || source,
    isUsual: said.length > 0 || wordOf(stated?.source) !== "",
  };
}

const minutesPerHour = 60;

/** A batch is drained, then filled; a flow runs as fast as the slower of the two. Undefined where a flow is not stated. */
function minutesOf({ flow }: Book, litres: Litres, method: "batch" | "flow"): Litres | undefined {
  const perLitre = method === "batch" ? 1 / flow.drain + 1 / flow.fill : 1 / Math.min(flow.drain, flow.fill);
  return Number.isNaN(perLitre) ? undefined : times(litres, perLitre * minutesPerHour);
}

type Taken = Pick<WaterNeed, "litres" | "direct" | "into">;

/** What is taken of each water, down to what comes as it is. */
function needsOf(book: Book, changes: readonly WaterChange[]): WaterNeed[] {
  const taken = new Map<Water, Taken>();
  const take = (water: Water, litres: Litres, into: readonly string[], above: readonly Water[]): void => {
    // What is said to be made of itself, over others, is not gone round in.
    if (above.includes(water)) return;
    const known = taken.get(water);
    const isDirect = above.length === 0;
    const direct = [...(known?.direct === undefined ? [] : [known.direct]), ...(isDirect ? [litres] : [])];
    taken.set(water, {
      litres: known === undefined ? litres : sum([known.litres, litres]),
      direct: direct.length === 0 ? undefined : sum(direct),
      into: [...new Set([...(known?.into ?? []), ...into])],
    });
    const made = madeOf(book, water);
    if (made === undefined || isOutside(made)) return;
    for (const part of made.parts)
      take(part.water, times(litres, part.share), [water.name], [...above, water]);
  };
  for (const { source, litres } of changes) {
    const water = book.waters.find(({ name }) => name === source);
    if (water !== undefined && litres !== undefined) take(water, litres, [], []);
  }
  return book.waters.flatMap((water) => {
    const need = taken.get(water);
    return need === undefined ? [] : [needOf(book, water, need)];
  });
}

function needOf(book: Book, water: Water, { litres, direct, into }: Taken): WaterNeed {
  const made = madeOf(book, water);
  const raw = isRaw(book, water);
  const totalMgL = water.content.get(parameterOf("chlorine").id);
  const combinedMgL = water.content.get(parameterOf("chloramine").id) ?? 0;
  // Combined chlorine is part of the total: where that alone is stated it is at least so much.
  const chlorineMgL = Math.max(totalMgL ?? 0, combinedMgL);
  const isTreated = made === undefined && chlorineMgL > 0;
  return {
    name: water.name,
    title: water.title,
    litres,
    direct,
    into,
    made: made === undefined || isOutside(made) ? undefined : made,
    problem: made !== undefined && isOutside(made) ? made.outside : "",
    conditioner: isTreated
      ? {
          totalMgL: chlorineMgL,
          combinedMgL,
          crystalsMg: { low: crystals(chlorineMgL, litres.low), high: crystals(chlorineMgL, litres.high) },
        }
      : undefined,
    isChlorineUnstated: raw && totalMgL === undefined && combinedMgL === 0,
  };
}

function crystals(totalMgL: number, litres: number): number {
  const mg = thiosulfateMg(totalMgL, litres, "pentahydrate");
  return isOutside(mg) ? Number.NaN : mg;
}
