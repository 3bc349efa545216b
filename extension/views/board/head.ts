import { h, svg } from "../shared/dom.ts";
import type { Card, Load } from "./shown.ts";
import { boardSign } from "./signs.ts";

/** The head: room and day, how much is done of what a day holds, and how much of what is left. */
export function headOf(card: Card): HTMLElement[] {
  const { title, dayText, away, load } = card;
  return [
    h(
      "div",
      { class: "names" },
      h("h1", {}, title === "" ? "Today" : title),
      h("p", { class: "day" }, dayText),
    ),
    h("p", { class: "counts" }, ...counts(card).map((each) => h("span", {}, each))),
    h("div", { class: "loads" }, ...load.map(loadBar)),
    away !== null &&
      h("p", { class: "away" }, `Nobody works today${away === "" ? "" : `: ${away}`}. What is due waits.`),
  ].filter((each) => each instanceof HTMLElement);
}

/** `4 late`, `9 due`, `24 to feed`. */
function counts({ stops, feeds, notices }: Card): string[] {
  const tasks = stops.flatMap((stop) => stop.tasks);
  const late = tasks.filter((task) => task.late > 0).length;
  const bad = notices.flatMap(({ lines }) => lines).filter(({ tone }) => tone === "bad").length;
  const some: [number, string][] = [
    [late, "late"],
    [tasks.length - late, "due"],
    [feeds.length, "to feed"],
    [bad, "to look at"],
  ];
  return some.filter(([number]) => number > 0).map(([number, words]) => `${number} ${words}`);
}

const widthPx = 100;

/** What is done stands full, what is to do is open, a stroke is where the day is full. */
function loadBar({ is, done, open, most, text }: Load): HTMLElement {
  const whole = Math.max(most ?? 0, done + open);
  const isOver = most !== null && done + open > most;
  const share = (figure: number): number => (whole > 0 ? (figure / whole) * widthPx : 0);
  const bar = svg(
    "svg",
    {
      class: "bar",
      viewBox: `0 0 ${widthPx} 8`,
      preserveAspectRatio: "none",
      "aria-hidden": "true",
      focusable: "false",
    },
    svg("path", { class: "rail", d: `M0 4H${widthPx}` }),
    svg("path", { class: "open", d: `M${share(done)} 4H${share(done + open)}` }),
    svg("path", { class: "done", d: `M0 4H${share(done)}` }),
    most !== null && isOver && svg("path", { class: "over", d: `M${share(most)} 4H${widthPx}` }),
    most !== null && svg("path", { class: "most", d: `M${share(most)} 0V8` }),
  );
  return h(
    "div",
    { class: `load ${is}${isOver ? " over" : ""}` },
    h("p", {}, isOver && boardSign("late"), text),
    bar,
  );
}
