import { h } from "../shared/dom.ts";
import type { Hands } from "./row.ts";
import type { Task } from "./shown.ts";

/** The boxes of a task for what has to be measured or seen: a name, a box, the last value beside it. */

export const boxKey = (task: Task, at: number): string => `${at} ${task.key}`;

/** @param refusalId what says why it was not logged; empty if nothing does */
export function boxes(hands: Hands, task: Task, refusalId: string, id: string): HTMLElement[] {
  const { model } = hands;
  const { blanks } = model.wayOf(task);
  const fields = blanks.map(({ label, last }, at) => {
    const lastId = `${id}-last-${at}`;
    const described = [last === "" ? "" : lastId, refusalId].filter(Boolean).join(" ");
    const input = h("input", {
      type: "text",
      id: `${id}-box-${at}`,
      "data-box": boxKey(task, at),
      autocomplete: "off",
      autocapitalize: "off",
      spellcheck: "false",
      "aria-describedby": described === "" ? null : described,
      "aria-invalid": refusalId === "" ? null : "true",
      oninput: () => hands.typed(task, at, input.value),
    });
    input.addEventListener("keydown", (event) => hands.boxKey(event, task));
    input.value = model.typedOf(task)[at] ?? "";
    return h(
      "div",
      { class: "field" },
      h("label", { for: `${id}-box-${at}` }, h("span", { class: "unseen" }, `${task.target} `), label),
      input,
      last !== "" && h("span", { class: "last", id: lastId }, last),
    );
  });
  return [...fields, h("button", { type: "button", class: "log-boxes", "data-do": "boxes" }, "Log")];
}
