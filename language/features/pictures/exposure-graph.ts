import { isoOf, spokenDay } from "../../book/dates.ts";
import type { HopKind } from "../../checks/exposure-words.ts";
import { html } from "../document-html.ts";
import type { ArrowCard, ExposureCard, LaneCard } from "../exposure-cards.ts";

/**
 * Contacts in time: a lane for each tank, tool, barrel and party, time to the right, an arrow for each contact from lane to lane. What an
 * arrow is, is told by its dashes and its letter; whether it leads on or back by its head. No colour says anything.
 */
export interface ExposureGraph {
  readonly svg: string;
  /** The same in words. */
  readonly alt: string;
}

const letters: Readonly<Record<HopKind, string>> = {
  animals: "A",
  water: "W",
  barrel: "B",
  things: "P",
  tool: "T",
  shared: "S",
};
const dashes: Readonly<Record<HopKind, string>> = {
  animals: "",
  water: "8 3",
  barrel: "8 3 2 3",
  things: "4 3",
  tool: "1.5 3",
  shared: "12 3 1.5 3 1.5 3",
};
const legends: Readonly<Record<HopKind, string>> = {
  animals: "animals",
  water: "tank water",
  barrel: "barrel",
  things: "plants, wood, media",
  tool: "tool",
  shared: "shared water",
};

const width = 900;
const nameWidth = 190;
const right = 24;
const top = 30;
const laneHeight = 26;
const mostLetters = 30;
/** Between arrows of one time. */
const apart = 9;
const mostBeside = 14;

/**
 * @param isAlone for a page or a file by itself: ink on white. Else it takes the colour of the text around it, and has classes
 * `exposure-graph`, `lane`, `origin`, `spell`, `sign`, `cut`, `arrow` with its kind and way.
 */
export function exposureGraph(card: ExposureCard, isAlone = false): ExposureGraph {
  const { lanes, arrows, from, day } = card;
  const legendTop = top + lanes.length * laneHeight + 18;
  const kinds = (Object.keys(letters) as HopKind[]).filter((kind) =>
    arrows.some((each) => each.kind === kind),
  );
  const height = legendTop + 16 * (Math.ceil((kinds.length + 4) / 4) + 1);
  const begin = Math.floor(
    Math.min(from, ...lanes.flatMap(({ spells }) => spells.map((spell) => spell.from))),
  );
  const end = day + 1;
  const x = (time: number): number =>
    nameWidth +
    ((Math.min(Math.max(time, begin), end) - begin) / (end - begin)) * (width - nameWidth - right);
  const rows = new Map(lanes.map(({ name }, at) => [name, top + at * laneHeight + laneHeight / 2]));
  const alt = altOf(card);
  const ink = isAlone ? ' color="#1b1b1b"' : "";
  const svg = [
    `<svg xmlns="http://www.w3.org/2000/svg" class="exposure-graph" role="img" aria-label="${html(alt)}" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" fill="none" stroke="none" font-family="system-ui, sans-serif" font-size="11"${ink}>`,
    isAlone ? `<rect width="${width}" height="${height}" fill="#ffffff"/>` : "",
    ...ticks(begin, end, x, legendTop - 12),
    ...lanes.map((lane) => laneSvg(lane, rows.get(lane.name)!, x, end)),
    ...arrowsSvg(arrows, rows, x),
    ...legendSvg(kinds, legendTop),
    "</svg>",
  ].join("");
  return { svg, alt };
}

const num = (value: number): string => String(Math.round(value * 10) / 10);

const steps = [1, 2, 7, 14, 28, 91, 182, 364];
const mostTicks = 9;

function ticks(begin: number, end: number, x: (time: number) => number, bottom: number): string[] {
  const step =
    steps.find((each) => (end - begin) / each <= mostTicks) ?? Math.ceil((end - begin) / mostTicks);
  const found: string[] = [];
  for (let day = begin; day < end; day += step) {
    const at = num(x(day));
    found.push(
      `<path class="tick" d="M${at} ${top - 6}V${bottom}" stroke="currentColor" stroke-opacity=".2"/>`,
      `<text x="${at}" y="${top - 12}" fill="currentColor" text-anchor="middle">${shortDay(day, end)}</text>`,
    );
  }
  return found;
}

/** `3 Mar`; with its year where it is another. */
const shortDay = (day: number, near: number): string =>
  spokenDay(day, near).replace(/ (\p{L}{3})\p{L}*/u, " $1");

function laneSvg(
  { name, is, isOrigin, spells, signs, cuts }: LaneCard,
  y: number,
  x: (time: number) => number,
  end: number,
): string {
  const at = num(y);
  const shown = name.length > mostLetters ? `${name.slice(0, mostLetters - 1)}…` : name;
  const style = is === "tank" ? "" : ' font-style="italic"';
  return [
    `<g class="lane ${is}${isOrigin ? " origin" : ""}"><title>${html(name)}</title>`,
    `<path d="M${nameWidth} ${at}H${width - right}" stroke="currentColor" stroke-opacity=".35"/>`,
    `<text x="${nameWidth - 8}" y="${num(y + 4)}" text-anchor="end" fill="currentColor"${style}${isOrigin ? ' font-weight="700"' : ""}>${html(shown)}</text>`,
    ...spells.map(
      (spell) =>
        `<path class="spell" d="M${num(x(spell.from))} ${at}H${num(x(spell.to ?? end))}" stroke="currentColor" stroke-width="3.5" stroke-opacity=".75"/>`,
    ),
    ...cuts.map((time) => {
      const cut = x(time);
      return `<path class="cut" d="M${num(cut - 2)} ${num(y - 7)}V${num(y + 7)}M${num(cut + 2)} ${num(y - 7)}V${num(y + 7)}" stroke="currentColor" stroke-width="1.5"/>`;
    }),
    ...signs.map((time) => {
      const sign = x(time);
      return `<path class="sign" d="M${num(sign)} ${num(y - 7)}L${num(sign + 6)} ${at}L${num(sign)} ${num(y + 7)}L${num(sign - 6)} ${at}Z" fill="currentColor"/>`;
    }),
    "</g>",
  ].join("");
}

/** What goes at once from one lane to several is one trunk; trunks that would lie one on the other stand side by side. */
function arrowsSvg(
  arrows: readonly ArrowCard[],
  rows: ReadonlyMap<string, number>,
  x: (time: number) => number,
): string[] {
  const trunks = new Map<string, ArrowCard[]>();
  for (const arrow of arrows) {
    const [from, to] = [rows.get(arrow.from), rows.get(arrow.to)];
    if (from === undefined || to === undefined || from === to) continue;
    const key = `${arrow.time} ${arrow.kind} ${arrow.way} ${arrow.from}`;
    const known = trunks.get(key);
    if (known === undefined) trunks.set(key, [arrow]);
    else known.push(arrow);
  }
  const taken: { x: number; low: number; high: number }[] = [];
  return [...trunks.values()].flatMap((trunk) => {
    const met = trunk.flatMap(({ from, to }) => [rows.get(from)!, rows.get(to)!]);
    const [low, high] = [Math.min(...met), Math.max(...met)];
    let at = x(trunk[0]!.time);
    // To the left at the right edge, else to the right.
    const way = at > width - right - 5 * apart ? -apart : apart;
    const isTaken = (): boolean =>
      taken.some((each) => Math.abs(each.x - at) < apart && each.low < high && low < each.high);
    for (let tries = 0; tries < mostBeside && isTaken(); tries++) at += way;
    at = Math.min(Math.max(at, nameWidth), width - right);
    taken.push({ x: at, low, high });
    const downs = trunk.map((arrow) => rows.get(arrow.to)! > rows.get(arrow.from)!);
    return trunk.map((arrow, index) => {
      // One letter to each side.
      const isFirst = downs.indexOf(downs[index]!) === index;
      return arrowSvg(arrow, at, rows.get(arrow.from)!, rows.get(arrow.to)!, isFirst);
    });
  });
}

function arrowSvg(
  { kind, way, text, time }: ArrowCard,
  x: number,
  from: number,
  to: number,
  isLettered: boolean,
): string {
  const isDown = to > from;
  const tip = isDown ? to - 3 : to + 3;
  const base = isDown ? tip - 7 : tip + 7;
  const [at, weight] = [num(x), way === "forward" ? "1.6" : "1.1"];
  const dash = dashes[kind] === "" ? "" : ` stroke-dasharray="${dashes[kind]}"`;
  const head = `M${num(x - 3.5)} ${num(base)}L${at} ${num(tip)}L${num(x + 3.5)} ${num(base)}${way === "forward" ? "Z" : ""}`;
  const filled = way === "forward" ? ' fill="currentColor"' : "";
  return [
    `<g class="arrow ${kind} ${way}"><title>${html(`${text}, ${isoOf(Math.floor(time))}`)}</title>`,
    kind === "shared" ? "" : `<circle cx="${at}" cy="${num(from)}" r="2.4" fill="currentColor"/>`,
    `<path d="M${at} ${num(from)}V${num(kind === "shared" ? to : base)}" stroke="currentColor" stroke-width="${weight}"${dash}/>`,
    // Water is shared both ways: it has no head.
    kind === "shared" ? "" : `<path d="${head}" stroke="currentColor"${filled}/>`,
    isLettered
      ? `<text x="${num(x + 4)}" y="${num(from + (isDown ? 12 : -5))}" fill="currentColor" font-size="9">${letters[kind]}</text>`
      : "",
    "</g>",
  ].join("");
}

function legendSvg(kinds: readonly HopKind[], y: number): string[] {
  const cell = (width - 20) / 4;
  const spots = [
    ...kinds.map((kind) => ({
      mark: (x: number, row: number) =>
        `<path d="M${num(x)} ${num(row)}h26" stroke="currentColor" stroke-width="1.6"${dashes[kind] === "" ? "" : ` stroke-dasharray="${dashes[kind]}"`}/>`,
      text: `${letters[kind]} ${legends[kind]}`,
    })),
    {
      mark: (x: number, row: number) =>
        `<path d="M${num(x)} ${num(row)}h26" stroke="currentColor" stroke-width="3.5" stroke-opacity=".75"/>`,
      text: "may have had it",
    },
    {
      mark: (x: number, row: number) =>
        `<path d="M${num(x + 13)} ${num(row - 5)}l5 5l-5 5l-5 -5Z" fill="currentColor"/>`,
      text: "first signs, or sample",
    },
    {
      mark: (x: number, row: number) =>
        `<path d="M${num(x + 11)} ${num(row - 5)}v10M${num(x + 15)} ${num(row - 5)}v10" stroke="currentColor" stroke-width="1.5"/>`,
      text: "disinfected, or emptied",
    },
    {
      mark: (x: number, row: number) =>
        `<path d="M${num(x)} ${num(row - 4)}l7 4l-7 4Z" fill="currentColor"/><path d="M${num(x + 15)} ${num(row - 4)}l7 4l-7 4" stroke="currentColor"/>`,
      text: "reached; came from",
    },
  ];
  return spots.map(({ mark, text }, at) => {
    const x = 12 + (at % 4) * cell;
    const row = y + 8 + Math.floor(at / 4) * 16;
    return `<g class="legend">${mark(x, row)}<text x="${num(x + 34)}" y="${num(row + 4)}" fill="currentColor">${text}</text></g>`;
  });
}

const mostNamed = 12;

function altOf({ title, from, day, origins, forward, back }: ExposureCard): string {
  const on = (time: number): string => spokenDay(Math.floor(time), day);
  const listed = (names: readonly string[]): string =>
    names.length > mostNamed
      ? `${names.slice(0, mostNamed).join("; ")}; and ${names.length - mostNamed} more`
      : names.join("; ");
  const reached = forward.filter(({ isOrigin }) => !isOrigin);
  return [
    `${title}, contacts from ${on(from)} to ${spokenDay(day)}.`,
    `${origins.map(({ place, text }) => `${place}: ${text}`).join("; ")}.`,
    reached.length === 0
      ? "Nothing else was reached."
      : `May have reached: ${listed(reached.map(({ name, time }) => `${name} (${on(time)})`))}.`,
    back.length === 0
      ? "No contact leads to it."
      : `May have come from: ${listed(back.map(({ name, time }) => `${name} (${on(time)})`))}.`,
  ].join(" ");
}
