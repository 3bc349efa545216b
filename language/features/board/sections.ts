import type { Book } from "../../book/book.ts";
import { spokenDay } from "../../book/dates.ts";
import { Kind } from "../../book/entries/registry.ts";
import type { Gear, Place, Station } from "../../book/stations.ts";
import { days, limitText, readingSpan } from "../../checks/words.ts";
import { formatNumber } from "../../quantity/format.ts";
import { dutiesOn, placeOf } from "../../room/due.ts";
import { expiriesOn } from "../../room/expiries.ts";
import { casebookCard } from "../case-card.ts";
import { electricCaution, isElectric } from "../electric-caution.ts";
import { hatchesDue } from "../hatches-due.ts";
import type { OrderToPack } from "../orders-to-pack.ts";
import { quarantineCard } from "../quarantine-card.ts";
import { remediesNow } from "../remedies-now.ts";
import { locationOf, type View } from "../view.ts";
import { waterCard } from "../water-card.ts";
import type { Trouble } from "../water-troubles.ts";
import type { BoardLine, BoardTask } from "./board-card.ts";
import { noticeTask, plainWay } from "./ways.ts";

/** What to know of the room while working in it, in lines. */

const plainLine = { tone: "plain", task: null, place: null, card: null } as const;

/** Water out of its limits, or that will be: first what is before the next change. */
export function waterLines(view: View, troubles: readonly Trouble[], day: number): BoardLine[] {
  const { book, logbook } = view.checked;
  const lines = troubles.map((trouble) => {
    const { at, tank, parameter, is, low, high, limit, time } = trouble;
    const card = waterCard(logbook.ledgerOf(at), tank, parameter, day);
    const change = nextChange(view, at, day);
    const earliest = card.crossing?.earliest ?? card.crossing?.day ?? Number.POSITIVE_INFINITY;
    const isBefore = is === "heading" && earliest < change;
    const when = Number.isFinite(change) ? spokenDay(change, day) : "";
    const told =
      is === "heading"
        ? [
            `meets ${limitText(book, limit)} ${card.crossing?.text ?? ""}`.trim(),
            isBefore && when !== "" ? `that may be before the next change, due ${when}` : "",
            card.holdingText === "" ? "" : `${card.holdingText} would hold it`,
          ]
        : [
            `${readingSpan(book, parameter, low, high)} on ${spokenDay(Math.floor(time), day)}, limit ${limitText(book, limit)}`,
            card.changeBackText === "" ? "" : `${card.changeBackText} would bring it back`,
          ];
    const line: BoardLine = {
      ...plainLine,
      key: `water ${at.name} ${parameter.name}`,
      name: `${at.name} ${parameter.name}`,
      text: told.filter((part) => part !== "").join("; "),
      tone: is === "heading" && !isBefore ? "soon" : "bad",
      place: card.readings.at(-1)?.at ?? null,
      card: { tank: at.name },
    };
    return { line, rank: is === "heading" ? (isBefore ? 1 : 2) : 0 };
  });
  return lines.sort((a, b) => a.rank - b.rank).map(({ line }) => line);
}

/** The day on which the water is changed next by its duties: of what is late today. */
function nextChange({ checked }: View, at: Station, day: number): number {
  const ledger = checked.logbook.ledgerOf(at);
  const stations = [at, ...(ledger.body?.tanks ?? [])];
  const due = dutiesOn(ledger, [...new Set(stations)], day)
    .filter(({ duty, due: on }) => duty.kind === Kind.change && Number.isFinite(on))
    .map(({ due: on }) => Math.max(on, day));
  return Math.min(Number.POSITIVE_INFINITY, ...due);
}

/** Open cases. Of one species in one tank, with the line that says how many show signs today. */
export function caseLines({ checked, worldDay }: View): BoardLine[] {
  return casebookCard(checked, worldDay).open.map(({ name, episode, state, text, tanks, species, at }) => ({
    ...plainLine,
    task: signsTask(name, tanks, species, at),
    key: `case ${name} ${episode}`,
    name,
    text: [tanks.length === 0 ? "" : `in ${tanks.map((tank) => tank.name).join(", ")}`, state, text]
      .filter((part) => part !== "")
      .join("; "),
    tone: "bad",
    place: at,
    card: { case: name, episode },
  }));
}

function signsTask(
  name: string,
  tanks: readonly { readonly name: string }[],
  species: readonly string[],
  place: BoardTask["place"],
): BoardTask | null {
  const [tank, ...moreTanks] = tanks;
  const [animal, ...moreSpecies] = species;
  if (tank === undefined || animal === undefined || moreTanks.length + moreSpecies.length > 0) return null;
  const blank = { before: " ", label: `${animal} that show signs`, last: "" };
  return noticeTask({
    key: `${tank.name} signs ${name}`,
    target: tank.name,
    kind: "sick",
    way: { words: `sick ${animal}`, blanks: [blank], end: ` case ${name}` },
    place,
  });
}

export function quarantineLines({ checked }: View, day: number): BoardLine[] {
  return quarantineCard(checked.logbook, day)
    .filter(({ end }) => end >= day)
    .map(({ tanks, animals, dayText, text, isOver, at }) => ({
      ...plainLine,
      key: `quarantine ${tanks.join(" ")}`,
      name: tanks.join(", "),
      text: [dayText, text, animals.map((each) => `${each.text} ${each.species}`).join(", ")]
        .filter((part) => part !== "")
        .join("; "),
      tone: isOver ? "soon" : "plain",
      place: at,
      card: tanks[0] === undefined ? null : { tank: tanks[0] },
    }));
}

export function remedyLines({ checked }: View, day: number): BoardLine[] {
  return remediesNow(checked, day).map(({ at, card, last, withdrawalUntil }) => ({
    ...plainLine,
    key: `remedy ${at} ${card.name}`,
    name: `${at} ${card.name}`,
    text: [
      card.now === null ? "what is in the water cannot be computed" : `${card.nowText} in the water`,
      `last dose ${spokenDay(last, day)}`,
      withdrawalUntil === undefined
        ? ""
        : `not to be shipped before ${spokenDay(withdrawalUntil, day)}, as you stated`,
    ]
      .filter((part) => part !== "")
      .join("; "),
    place: card.doses.at(-1)?.at ?? card.at,
    card: { tank: at },
  }));
}

/** Broods that are to hatch or to swim, each with the line that says so: how many is left blank. */
export function broodLines({ checked }: View, day: number): BoardLine[] {
  return hatchesDue(checked.logbook, day).map(({ brood, expected }) => {
    const { name, species, of, at, lot } = brood;
    const { stage } = expected;
    const blank = { before: " ", label: stage === "hatch" ? "hatched" : "swimming", last: "" };
    const end = lot === "" ? "" : ` lot ${lot}`;
    return {
      ...plainLine,
      key: `brood ${name} ${of}`,
      name: name.startsWith(`${species} in `) ? name : `${name} (${species}, ${of})`,
      text: `${expected.is} to ${expected.stage}, ${expected.text}`,
      tone: expected.is === "late" ? "bad" : "soon",
      task: noticeTask({
        key: `${of} ${stage} ${name}`,
        target: of,
        kind: stage,
        way: { words: `${stage} ${species}`, blanks: [blank], end },
        place: at,
      }),
      place: at,
      card: { tank: of },
    };
  });
}

/** Orders to pack; on the day they go, a line for each tank that something goes from. */
export function orderLines(orders: readonly OrderToPack[]): BoardLine[] {
  return orders.flatMap(({ card, text, late, unfed, parts }) => {
    const { name, buyer, at: place } = card;
    const told = unfed.length === 0 ? text : `${text}; do not feed ${unfed.join(", ")}: to be packed fasted`;
    const tone = late > 0 ? "bad" : late >= -1 ? "soon" : "plain";
    const line = { ...plainLine, tone, place } as const;
    const tasks = parts.map(({ tank, species, animals }) => ({
      tank,
      what: `${formatNumber(animals, 6)} ${species} from ${tank.name}`,
      task: noticeTask({
        key: `${tank.name} ship ${species} ${name}`,
        target: tank.name,
        kind: "ship",
        way: plainWay(`ship ${species} ${formatNumber(animals, 6)} order ${name}`),
        place,
      }),
    }));
    const [first, ...more] = tasks;
    return [
      {
        ...line,
        key: `order ${name}`,
        name: buyer === "" ? name : `${name} (${buyer})`,
        text: told,
        task: first?.task ?? null,
      },
      ...more.map(
        ({ tank, what, task }): BoardLine => ({
          ...line,
          key: `order ${name} ${task.key}`,
          name,
          text: what,
          task,
          card: { tank: tank.name },
        }),
      ),
    ];
  });
}

/** What lasts no longer, with the line that says a gear was replaced. */
export function expiryLines({ checked }: View, day: number): BoardLine[] {
  const { book } = checked;
  return expiriesOn(checked.logbook, day).map(({ name, title, sort, late, why, place }) => {
    const gear = sort === "gear" ? book.gears.find((each) => each.name === name) : undefined;
    return {
      ...plainLine,
      key: `expiry ${sort} ${name}`,
      name: title === "" ? name : `${name} (${title})`,
      text: late > 0 ? `${days(late)} past its day: ${why}` : why,
      tone: late > 0 ? "bad" : "soon",
      task: gear === undefined ? null : replaced(book, gear, place),
      place: locationOf(place),
    };
  });
}

function replaced(book: Book, gear: Gear, place: Place): BoardTask {
  const at = placeOf(book, gear);
  const words = at === gear ? "service replaced" : `service ${gear.name} replaced`;
  return noticeTask({
    key: `${gear.name} replaced`,
    target: at.name,
    kind: "service",
    way: plainWay(words),
    caution: isElectric(gear) ? electricCaution : "",
    place: locationOf(place),
  });
}
