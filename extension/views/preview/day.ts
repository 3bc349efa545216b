import { spokenDay, weekdayName } from "../../../language/book/dates.ts";
import { h } from "../shared/dom.ts";
import { dutyRow } from "./duties.ts";
import { type Face, folding, leadsTo, leadsToTank, nothing, section } from "./face.ts";
import { feedingPart } from "./feeding.ts";
import { findingRow } from "./findings.ts";
import type { DayCard, DayTankCard, FindingCard, Place } from "./shown.ts";
import type { CardView } from "./tank.ts";

/** A day: what was done, tank by tank, with what is to be said of it; and what was left over. */
export function dayView(face: Face, card: DayCard): CardView {
  const { day, titles, isToday, entries, litres, topUpL, due, at } = card;
  const counts = [
    `${entries} ${entries === 1 ? "entry" : "entries"}`,
    ...(litres > 0 ? [`${round(litres)} L changed`] : []),
    ...(topUpL > 0 ? [`${round(topUpL)} L topped up`] : []),
  ];
  const name = spokenDay(day);
  return {
    name,
    title: [weekdayName(day), ...titles].join(", "),
    about: [leadsTo(face, at, "definition", "definition", counts.join(", ")), ...neighbours(face, card)],
    first: [duePart(face, due, day, isToday)],
    wide: [entriesPart(face, card), feedingPart(face, card.feeding)].filter((part) => part !== undefined),
    last: [],
    charts: [],
  };
}

function neighbours(face: Face, { before, after, day }: DayCard): HTMLElement[] {
  const step = (to: number, key: string, words: string): HTMLElement =>
    h(
      "button",
      { type: "button", class: "leads step", "data-key": key, onclick: () => face.showDay(to) },
      words,
    );
  return [
    ...(before === null ? [] : [step(before.day, "day-before", `‹ ${spokenDay(before.day, day)}`)]),
    ...(after === null ? [] : [step(after.day, "day-after", `${spokenDay(after.day, day)} ›`)]),
  ];
}

function entriesPart(face: Face, { tanks, findings, day }: DayCard): HTMLElement {
  if (tanks.length === 0)
    return section("entries", "Done", nothing("Nothing written yet. For example:", "  dam  change 30 %"));
  const left = new Set(findings);
  const parts = tanks.map((tank, at) => {
    const about = findings.filter((finding) => tank.entries.some((entry) => isOn(finding, entry.at)));
    for (const finding of about) left.delete(finding);
    return tankPart(face, tank, at, about);
  });
  const others = [...left].map((finding, at) => findingRow(face, finding, 1000 + at, day));
  return section(
    "entries",
    "Done",
    others.length > 0 && h("ul", { class: "rows" }, ...others),
    h("div", { class: "targets" }, ...parts),
  );
}

/** Whether a finding is about the entry at a place: an entry is one line. */
function isOn({ at }: FindingCard, { uri, range }: Place): boolean {
  return at.uri === uri && at.range.start.line === range.start.line;
}

function tankPart(face: Face, tank: DayTankCard, at: number, findings: readonly FindingCard[]): HTMLElement {
  const { name, title, isTank, entries } = tank;
  const head = isTank
    ? leadsToTank(face, name, `tank-${at}`)
    : leadsTo(face, tank.at, `tank-${at}`, "name", name);
  const rows = entries.flatMap((entry, index) => {
    const key = `entry-${at}-${index}`;
    const about = findings.filter((finding) => isOn(finding, entry.at));
    return [
      h(
        "li",
        { class: "entry" },
        entry.clock !== "" && h("span", { class: "clock" }, entry.clock),
        leadsTo(face, entry.at, key, "log", entry.text),
      ),
      ...about.map((finding, which) =>
        findingRow(face, finding, at * 100 + index * 10 + which, finding.day ?? 0),
      ),
    ];
  });
  return h(
    "div",
    { class: "target" },
    h("h3", {}, head, title !== "" && h("span", { class: "aside" }, ` ${title}`)),
    h("ul", { class: "rows" }, ...rows),
  );
}

/** So many are shown at once; the rest folds. */
const shownAtOnce = 12;

function duePart(face: Face, due: DayCard["due"], day: number, isToday: boolean): HTMLElement {
  const rows = due.map((duty, at) => dutyRow(face, duty, at, "", day));
  const more = rows.slice(shownAtOnce);
  return section(
    "duties",
    isToday ? "Left to do" : "Left over",
    rows.length === 0
      ? h("p", { class: "aside" }, "Everything that was due is done.")
      : h("ul", { class: "rows" }, ...rows.slice(0, shownAtOnce)),
    more.length > 0 &&
      folding(face, "more-due", "more", [`${more.length} more`], () => [h("ul", { class: "rows" }, ...more)]),
  );
}

const round = (litres: number): number => Math.round(litres * 10) / 10;
