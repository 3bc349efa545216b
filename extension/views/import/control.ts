import { h } from "../shared/dom.ts";
import type { Decision, Form } from "./messages.ts";
import { choiceWords, label } from "./words.ts";

type Answer = (id: string, value: string) => void;

/** Ids of a page hold no blanks: a decision has its place among them. */
export const controlId = ({ decisions }: Form, id: string): string =>
  `decision-${decisions.findIndex((each) => each.id === id)}`;

/** What changes a decision. @param name for those who do not see where it stands */
export function control(decision: Decision, form: Form, answer: Answer, name: string): HTMLElement {
  const { id, choices, value, isTypedToo } = decision;
  const own = controlId(form, id);
  const common = {
    id: own,
    "data-key": id,
    "aria-label": name,
    "aria-invalid": value === undefined || decision.problem !== "" ? "true" : null,
    "aria-describedby": `${own}-asks`,
  };
  const change = (event: Event): void =>
    answer(id, (event.target as HTMLSelectElement | HTMLInputElement).value.trim());
  if (choices.length === 1 && isTypedToo !== true && value === choices[0])
    return h("span", { class: "fixed" }, choiceWords(id, choices[0]!));
  if (choices.length > 0 && isTypedToo !== true)
    return h(
      "select",
      { ...common, onchange: change },
      value === undefined ? h("option", { value: "", selected: true }, "choose …") : null,
      ...choices.map((choice) =>
        h("option", { value: choice, selected: choice === value }, choiceWords(id, choice)),
      ),
    );
  return h(
    "span",
    { class: "typed" },
    h("input", {
      ...common,
      type: "text",
      value: value ?? "",
      list: choices.length > 0 ? `${own}-choices` : null,
      placeholder: choices.join(", "),
      onchange: change,
    }),
    choices.length > 0
      ? h("datalist", { id: `${own}-choices` }, ...choices.map((choice) => h("option", { value: choice })))
      : null,
  );
}

/** What speaks for or against an answer, below its control. */
export function asksOf(decision: Decision, form: Form, isLong: boolean): HTMLElement {
  const { id, asks, hint, samples, value, problem } = decision;
  const isOpen = value === undefined;
  const told = isLong || isOpen ? [asks, hint, isLong ? samplesOf(samples) : ""] : [];
  return h(
    "p",
    { class: isOpen || problem !== "" ? "asks" : "asks quiet", id: `${controlId(form, id)}-asks` },
    [problem, ...told].filter((each) => each !== "").join(" · "),
  );
}

const longest = 24;
const shortened = (words: string): string =>
  words.length <= longest ? words : `${[...words].slice(0, longest - 1).join("")}…`;

export const samplesOf = (samples: readonly string[]): string =>
  samples.length === 0 ? "" : samples.map((each) => `“${shortened(each)}”`).join(", ");

/** A decision about the whole table, with its reasons. */
export function decisionField(decision: Decision, form: Form, answer: Answer): HTMLElement {
  const { id, value } = decision;
  const named = label(id);
  const about: Readonly<Record<string, readonly string[]>> = {
    "date-order": ["dates"],
    decimal: ["numbers"],
    thin: ["thin"],
    tank: ["tank"],
  };
  const reasons = form.reasons
    .filter(({ about: what }) => about[id]?.includes(what) === true || what === id.replace(":", " "))
    .map(({ says, sureness }) => (sureness === "likely" ? `${says} (likely)` : says));
  const { choices, isTypedToo } = decision;
  const isFixed = choices.length === 1 && isTypedToo !== true && value === choices[0];
  return h(
    "div",
    { class: value === undefined ? "field is-open" : "field" },
    isFixed
      ? h("span", { class: "label" }, named)
      : h("label", { class: "label", for: controlId(form, id) }, named),
    control(decision, form, answer, named),
    h(
      "div",
      { class: "more" },
      isFixed ? null : asksOf(decision, form, true),
      ...reasons.map((each) => h("p", { class: "quiet" }, each)),
    ),
  );
}
