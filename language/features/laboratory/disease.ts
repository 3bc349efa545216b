import { spokenDay } from "../../book/dates.ts";
import { entryOf } from "../../book/entry.ts";
import { signSites, signsIn } from "../../book/signs.ts";
import { ratesOf, rateText } from "../../room/case-rates.ts";
import { courses } from "../../room/course.ts";
import { isDeath } from "../../room/losses.ts";
import { movements } from "../../room/movement.ts";
import { rateTitles } from "../case-card.ts";
import { noPanel, panels } from "../pictures/panels.ts";
import { type Field, field } from "./field.ts";
import type { SheetScope } from "./scope.ts";

/** The course of the disease: signs as they were written, by site, and what died on which day. */
export interface SheetDisease {
  readonly first: Field;
  readonly course: readonly {
    readonly day: number;
    readonly tank: string;
    readonly species: string;
    readonly lot: string;
    /** NaN where it is not said. */
    readonly affected: number;
    readonly atRisk: number;
    readonly fresh: number;
    readonly isAbout: boolean;
    /** As written. */
    readonly signs: string;
    readonly note: string;
  }[];
  readonly signs: readonly SheetSign[];
  /** What is written among signs and stands in no vocabulary. */
  readonly otherSigns: readonly string[];
  readonly losses: readonly SheetLoss[];
  /** Attack rate and the like, with their intervals. */
  readonly rates: readonly { readonly title: string; readonly text: string }[];
  /** Why there is no attack rate; empty where there is one. */
  readonly unknown: string;
  /** Losses before the first sign that are told, in days. */
  readonly lossDaysBefore: number;
  readonly chart: string;
}

export interface SheetSign {
  readonly site: string;
  readonly sign: string;
  readonly gloss: string;
  readonly first: number;
  readonly last: number;
  readonly times: number;
}

export interface SheetLoss {
  readonly day: number;
  readonly tank: string;
  readonly species: string;
  readonly animals: number;
  readonly how: string;
  /** False for what was culled and what is missing. */
  readonly isDeath: boolean;
  readonly note: string;
}

const lossDaysBefore = 30;

export function sheetDisease(scope: SheetScope): SheetDisease {
  const { story, day } = scope;
  const course = story.sick
    .filter((each) => each.day <= day)
    .map(({ day: on, stations, species, lot, affected, atRisk, isAbout, block, row }) => {
      const entry = entryOf(block, row);
      return {
        day: on,
        tank: stations.map(({ name }) => name).join(", "),
        species,
        lot,
        affected,
        atRisk,
        fresh: entry?.item.new?.value ?? Number.NaN,
        isAbout,
        signs: entry?.item.signs?.text ?? "",
        note: entry?.line.is === "entry" ? (entry.line.note?.text ?? "") : "",
      };
    });
  const { signs, otherSigns } = signsOf(course);
  const losses = lossesOf(scope);
  const first = course[0];
  return {
    first: field(
      "First sign",
      first === undefined
        ? ""
        : `${spokenDay(first.day)}, in ${first.tank}: ${first.signs === "" ? `${first.species}, signs not written down` : `${first.species}, ${first.signs}`}`,
      "an entry “sick” with the case and signs",
    ),
    course,
    signs,
    otherSigns,
    losses,
    ...ratesIn(scope),
    lossDaysBefore,
    chart: chartOf(scope, losses),
  };
}

function signsOf(
  course: readonly { readonly day: number; readonly signs: string }[],
): Pick<SheetDisease, "signs" | "otherSigns"> {
  const seen = new Map<string, SheetSign>();
  const others = new Set<string>();
  for (const { day, signs } of course)
    for (const { sign, written, rest } of signsIn(signs)) {
      if (sign === undefined) {
        others.add(rest || written);
        continue;
      }
      const known = seen.get(sign.word);
      seen.set(sign.word, {
        site: sign.site,
        sign: sign.word,
        gloss: sign.gloss,
        first: known?.first ?? day,
        last: day,
        times: (known?.times ?? 0) + 1,
      });
    }
  const order = (site: string): number => (signSites as readonly string[]).indexOf(site);
  const inOrder = [...seen.values()].sort((a, b) => order(a.site) - order(b.site) || a.first - b.first);
  return { signs: inOrder, otherSigns: [...others] };
}

function ratesIn({ logbook, story, day }: SheetScope): Pick<SheetDisease, "rates" | "unknown"> {
  const { rates, unknown } = ratesOf(logbook, story, day);
  const told = rates.map((rate) => ({
    title: `${rateTitles[rate.is]}${Number.isNaN(rate.on) ? "" : ` on ${spokenDay(rate.on, day)}`}`,
    text: rateText(rate),
  }));
  return { rates: told, unknown };
}

/** Every loss, however: the laboratory tells what counts. */
function lossesOf({ logbook, tanks, story, day }: SheetScope): SheetLoss[] {
  return tanks
    .flatMap((tank) => {
      const ledger = logbook.ledgerOf(tank);
      return courses(ledger)
        .filter(({ holding }) => holding.tank === tank.id)
        .flatMap((course) => movements(ledger, course, story.since - lossDaysBefore, day + 1))
        .filter(({ is, animals }) => is === "lose" && animals > 0);
    })
    .sort((a, b) => a.time - b.time)
    .map((movement) => {
      const { time, tank, species, animals, how = "lost", block, row } = movement;
      const line = entryOf(block, row)?.line;
      return {
        day: Math.floor(time),
        tank: tank.name,
        species,
        animals,
        how: how === "lost" ? "not stated how" : how,
        isDeath: isDeath(movement),
        note: line?.is === "entry" ? (line.note?.text ?? "") : "",
      };
    });
}

/** Deaths by day, culls and what is missing left out; empty where none died. */
function chartOf({ story, day }: SheetScope, losses: readonly SheetLoss[]): string {
  const byDay = new Map<number, number>();
  for (const loss of losses) if (loss.isDeath) byDay.set(loss.day, (byDay.get(loss.day) ?? 0) + loss.animals);
  if (byDay.size === 0) return "";
  return panels([
    {
      ...noPanel,
      title: "Deaths by day",
      from: story.since - lossDaysBefore,
      to: day + 1,
      columns: [...byDay].map(([on, value]) => ({ day: on, value })),
      marks: [{ time: story.since, text: "first sign" }],
    },
  ]);
}
