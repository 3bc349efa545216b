import { spokenDay } from "../book/dates.ts";
import { days } from "../checks/words.ts";
import {
  caution,
  type Line,
  list,
  type Part,
  type Report,
  type Section,
  sectionsOfRooms,
  text,
} from "./document.ts";
import type { ExposureCard, HeldCard, ReachedCard, StepCard } from "./exposure-cards.ts";
import { exposureGraph } from "./pictures/exposure-graph.ts";

/** What a case may have reached and where it may have come from: as a report. */

export const exposureCaution =
  "Only what is written is followed: not hands, splashes, live food, or eggs that changed tanks, unless a line says so. A tank that is not listed may have it. What it is, a veterinarian or a laboratory tells; whether it must be reported, the authority of the place.";

export interface RoomExposures {
  readonly title: string;
  readonly day: number;
  /** Of the open cases, or the one that was asked for. */
  readonly cards: readonly ExposureCard[];
}

export function exposureReport(rooms: readonly RoomExposures[]): Report {
  const [only] = rooms;
  const of =
    rooms.length === 1 ? `${only!.title === "" ? "" : `${only!.title}, `}${spokenDay(only!.day)}` : "";
  const sections = sectionsOfRooms(
    rooms.map(({ title, cards }) => ({ title, card: cards })),
    (cards) =>
      cards.length === 0 ? [noneSection] : cards.flatMap((card) => sectionsOf(card, cards.length > 1)),
  );
  return {
    title: "Exposure",
    about: of,
    sections: [
      ...sections,
      ...(rooms.some(({ cards }) => cards.length > 0)
        ? [{ title: "What this does not tell", parts: [caution(exposureCaution)] }]
        : []),
    ],
  };
}

const noneSection: Section = {
  title: "Open cases",
  parts: [
    text(
      'No case is open on this day. A case is opened under a day: q1 sick praecox 2 of 9 signs "flashing" case flukes-1. A tank, or a case that is closed, is asked for by its name.',
    ),
  ],
};

function sectionsOf(card: ExposureCard, isOneOfSeveral: boolean): Section[] {
  const named = (title: string): string => (isOneOfSeveral ? `${card.title}: ${title.toLowerCase()}` : title);
  return [
    headSection(card),
    holdSection(card, named("Tanks to hold")),
    backSection(card, named("Where it may have come from")),
    reachedSection(card, named("What it may have reached")),
    endedSection(card, named("What ended it")),
  ].filter((section) => section !== undefined);
}

function headSection(card: ExposureCard): Section {
  const { title, origins, windowText, closed, day, from, forward, back } = card;
  const { svg } = exposureGraph(card, true);
  const reached = forward.filter(({ isOrigin }) => !isOrigin).length;
  const counts = `${reached} reached, ${back.length} from where it may have come`;
  const named = reached + back.length === 0 ? "" : " They are named below.";
  return {
    title,
    ...(closed === null
      ? {}
      : { note: `closed on ${spokenDay(closed, day)}${closed < day ? "" : ": as it stood then"}` }),
    parts: [
      list(origins.map(({ place, text: told }) => `${place}: ${told}`)),
      text(`Followed: ${windowText}. A tank is held for as many days after it was last reached.`, "faint"),
      { is: "picture", svg, alt: `${at(from, day)} to ${spokenDay(day)}: ${counts}.${named}` },
    ],
  };
}

function holdSection({ hold, past, tools, day, windowDays }: ExposureCard, title: string): Section {
  const parts: Part[] = [];
  if (hold.length === 0) parts.push(text("None: what may have had it was ended."));
  else {
    parts.push(list(grouped(hold, heldKey).map((group) => heldLine(hold, group, day))));
    parts.push(
      text("Held: nothing moved out or sold, tools of its own, seen to last. In this order.", "faint"),
    );
  }
  if (tools.length > 0) {
    parts.push(text("To disinfect before they are used elsewhere:"));
    parts.push(
      list(tools.map(({ name, last }) => `${name}, last in what may have had it on ${at(last, day)}`)),
    );
  }
  if (past.length > 0) {
    parts.push(text(`Not reached again for more than ${days(windowDays)}, and no sign is written:`));
    parts.push(
      list(
        grouped(past, heldKey).map((group) => {
          const { why, last } = group[0]!;
          return `${names(group.map(({ tank }) => tank))}: ${why}; last on ${at(last, day)}`;
        }),
      ),
    );
  }
  return { title, ...(hold.length === 0 ? {} : { note: String(hold.length) }), parts };
}

/** Tanks that are held for the same, one after the other. */
const heldKey = ({ isOrigin, kind, links, since, last, why }: HeldCard): string =>
  `${isOrigin} ${kind} ${links} ${since} ${last} ${why}`;

function heldLine(hold: readonly HeldCard[], group: readonly HeldCard[], day: number): Line {
  const { kind, links, since, why, isOrigin } = group[0]!;
  const first = hold.indexOf(group[0]!) + 1;
  const number = group.length === 1 ? `${first}.` : `${first}.-${first + group.length - 1}.`;
  const by = links > 1 ? `${kind}, ${links} links` : kind;
  return {
    text: `${number} ${names(group.map(({ tank }) => tank))}: ${why}`,
    note: `${by}; since ${at(since, day)}`,
    ...(isOrigin ? { tone: "warning" as const } : {}),
  };
}

/** What stands one after the other and is told alike. */
function grouped<T>(all: readonly T[], keyOf: (each: T) => string): T[][] {
  const groups: T[][] = [];
  let last: string | undefined;
  for (const each of all) {
    const key = keyOf(each);
    if (key === last) groups.at(-1)!.push(each);
    else groups.push([each]);
    last = key;
  }
  return groups;
}

const names = (all: readonly string[]): string => all.join(", ");

/** A way in its steps; at its end the water that is shared is told without the tank, as of all that share it. */
function stepsText(steps: readonly StepCard[]): string {
  return steps
    .map(({ kind, from, text: told }, index) =>
      kind === "shared" && index === steps.length - 1 ? `sharing the water of ${from}` : told,
    )
    .join("; ");
}

function backSection({ back, beside, day }: ExposureCard, title: string): Section {
  if (back.length === 0) return { title, parts: [text("No written contact leads to it within these days.")] };
  return {
    title,
    parts: [
      list(
        back.map((each) => ({
          text: wayText(each),
          ...(each.isOrigin ? { note: "itself among those it begins at" } : {}),
        })),
      ),
      text("Each with the last day on which it could have passed it on, the latest first.", "faint"),
      ...(beside.length === 0
        ? []
        : [
            text("What these reached beside, and may share the source:"),
            list(
              beside.map(
                ({ source, reached }) =>
                  `${source}: ${reached.map(({ name, time }) => `${name} (${at(time, day)})`).join(", ")}`,
              ),
            ),
          ]),
    ],
  };

  function wayText({ name, time, steps }: ReachedCard): string {
    const on = at(time, day);
    return `${name.endsWith(on) ? name : `${name}, ${on}`}: ${steps.map(({ text: told }) => told).join("; ")}`;
  }
}

function reachedSection({ forward, day }: ExposureCard, title: string): Section {
  const reached = forward.filter(({ isOrigin, links }) => !isOrigin && links > 0);
  if (reached.length === 0) return { title, parts: [text("No written contact leads away from it.")] };
  return {
    title,
    parts: [
      list(
        grouped(reached, ({ time, steps }) => `${time} ${stepsText(steps)}`).map(
          (group) =>
            `${names(group.map(({ name }) => name))}, ${at(group[0]!.time, day)}: ${stepsText(group[0]!.steps)}`,
        ),
      ),
      text("Each with the first day on which it may have been reached.", "faint"),
    ],
  };
}

/** What was ended, then what else was disinfected or emptied at what it is about: what is not followed because of it is not hidden. */
function endedSection({ ended, cuts, day }: ExposureCard, title: string): Section | undefined {
  if (cuts.length === 0) return undefined;
  const told = new Set(ended.map((each) => each.text));
  const others = cuts.filter((cut) => !told.has(cut.text));
  return {
    title,
    parts: [
      ...(ended.length === 0
        ? []
        : [
            list(
              ended.map(({ tank, since, text: cut }) => ({
                text: cut,
                note: `${tank}, since ${at(since, day)}`,
              })),
            ),
          ]),
      ...(others.length === 0 ? [] : [list(others.map((cut) => cut.text))]),
      text("What was there before is not followed further.", "faint"),
    ],
  };
}

const at = (time: number, day: number): string => spokenDay(Math.floor(time), day);
