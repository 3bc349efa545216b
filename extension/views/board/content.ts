import { type Child, h } from "../shared/dom.ts";
import { pieces, shownWords } from "./line.ts";
import type { Model } from "./model.ts";
import { type Row, type Section, tasksOf } from "./sections.ts";
import type { Task } from "./shown.ts";
import { boardSign } from "./signs.ts";

/** What rows say, to the eye and in words. */

const texts = new WeakMap<Row, string>();

/** A text that is the same as long as the row says the same. */
export function textOf(row: Row, model: Model): string {
  const known = texts.get(row) ?? JSON.stringify(row);
  texts.set(row, known);
  // The ways that are chosen, of which what is shown depends.
  return row.is === "head" ? known : known + tasksOf(row).map((task) => model.wayAt(task));
}

/** How urgent it is, for the style sheet. */
export function lookOf(row: Row): string {
  switch (row.is) {
    case "head":
      return row.of.is;
    case "task":
      return row.task.late > 0 ? "late" : row.task.late === 0 ? "now" : "early";
    case "line":
      return row.line.tone;
    case "day":
      return row.day.away === null ? "" : "away";
    default:
      return "";
  }
}

export function contentOf(row: Row, model: Model): Child[] {
  switch (row.is) {
    case "head":
      return headContent(row.of);
    case "task":
      return taskContent(row.task, row.of, model);
    case "line": {
      const { name, text: words, tone, task } = row.line;
      const sign = tone === "bad" ? boardSign("late") : tone === "soon" ? boardSign("soon") : null;
      const act = task === null ? null : h("p", { class: "act" }, ...actOf(task, "", model));
      return [h("p", { class: "words" }, sign, h("b", {}, name), " ", words), act];
    }
    case "day": {
      const { dayText, away, text: words, litres, minutes, owed, moved } = row.day;
      const does = away === null ? words : `away${away === "" ? "" : `: ${away}`}`;
      const sums = [litres, minutes, owed === "" ? "" : `still owed: ${owed}`].filter(Boolean);
      return [
        h("p", { class: "words" }, h("b", {}, dayText), " ", does === "" ? "nothing falls due" : does),
        facts(sums),
        ...moved.map((each) => h("p", { class: "why" }, `moved: ${each}`)),
      ];
    }
    case "fit":
      return [h("p", { class: "words" }, row.text)];
    case "done": {
      const { line, clock } = row.done;
      // The clock stands at the beginning of its line.
      const rest = line.slice(line.startsWith(clock) ? clock.length : 0);
      return [h("p", { class: "written" }, clock !== "" && h("span", { class: "clock" }, clock), rest)];
    }
  }
}

function headContent({ is, title, stop, rows }: Section): Child[] {
  const tasks = rows.filter((row) => row.is === "task").length;
  const count = is === "stop" ? tasks : is === "days" ? 0 : rows.length;
  const number = count > 1 && h("span", { class: "count" }, String(count));
  if (stop === null) return [h("p", { class: "title" }, h("b", {}, title), number)];
  const { at, title: name, stage, reason, before } = stop;
  return [
    before !== "" && h("p", { class: "before" }, boardSign("hands"), h("span", {}, `${stage}: ${before}`)),
    h(
      "p",
      { class: "title" },
      h("b", {}, at),
      name !== "" && name !== at && h("span", { class: "name" }, name),
      isMarkedStage(stage, reason) &&
        h("span", { class: "stage" }, reason === "" ? stage : `${stage}, ${reason}`),
      number,
    ),
  ];
}

/** The usual stage is not said. */
const isMarkedStage = (stage: string, reason: string): boolean =>
  reason !== "" || (stage !== "healthy" && stage !== "");

function taskContent(task: Task, of: string, model: Model): Child[] {
  const { late, when, why, last, litres, caution } = task;
  return [
    h(
      "div",
      { class: "first" },
      h("p", { class: "act" }, ...actOf(task, of, model)),
      when !== "" && h("p", { class: "when" }, late > 0 && boardSign("late"), h("span", {}, when)),
    ),
    why !== "" && h("p", { class: "why" }, why),
    facts([last, litres].filter(Boolean)),
    caution !== "" && h("p", { class: "caution" }, caution),
  ];
}

/** @param of the name that stands above already */
function actOf(task: Task, of: string, model: Model): Child[] {
  const way = model.wayOf(task);
  const words = shownWords(task, way, of);
  const isWhole = words === pieces(task, way).join("…");
  const rest = isWhole && task.target !== "" ? words.slice(task.target.length) : words;
  const { length } = task.ways;
  return [
    isWhole && task.target !== "" && h("b", {}, task.target),
    rest,
    length > 1 &&
      h(
        "button",
        {
          type: "button",
          tabindex: -1,
          class: "way",
          "data-do": "way",
          title: "Another usual way",
          "aria-label": `Another usual way, now ${model.wayAt(task) + 1}/${length}`,
        },
        boardSign("other"),
        h("span", {}, `${model.wayAt(task) + 1}/${length}`),
      ),
  ];
}

function facts(some: readonly string[]): HTMLElement | null {
  if (some.length === 0) return null;
  return h("p", { class: "facts" }, ...some.map((each) => h("span", {}, each)));
}

/** The row in one sentence, for those who hear it. */
export function wordsOfRow(row: Row, model: Model): string {
  const join = (...some: readonly string[]): string => some.filter(Boolean).join(", ");
  switch (row.is) {
    case "head": {
      const { title, stop, rows } = row.of;
      if (stop === null) return `${title}: ${rows.length}`;
      const before = stop.before === "" ? "" : `before it ${stop.before}`;
      return join(
        stop.at,
        stop.title === stop.at ? "" : stop.title,
        isMarkedStage(stop.stage, stop.reason) ? stop.stage : "",
        stop.reason,
        before,
      );
    }
    case "task": {
      const { task } = row;
      const { when, why, last, litres, caution, ways } = task;
      const way = ways.length > 1 ? `way ${model.wayAt(task) + 1} of ${ways.length}` : "";
      return join(shownWords(task, model.wayOf(task)), when, why, last, litres, way, caution);
    }
    case "line": {
      const { name, text, task } = row.line;
      return join(`${name} ${text}`, task === null ? "" : `to log: ${model.wordsOf(task)}`);
    }
    case "day": {
      const { dayText, away, text, litres, minutes, owed, moved } = row.day;
      return join(
        dayText,
        away === null ? text : `away ${away}`,
        litres,
        minutes,
        owed === "" ? "" : `still owed ${owed}`,
        ...moved.map((each) => `moved: ${each}`),
      );
    }
    case "fit":
      return row.text;
    case "done":
      return row.done.line;
  }
}
