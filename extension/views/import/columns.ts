import { h } from "../shared/dom.ts";
import { asksOf, control, samplesOf } from "./control.ts";
import type { Decision, Form } from "./messages.ts";
import { label } from "./words.ts";

type Answer = (id: string, value: string) => void;

const kinds = ["parameter", "unit", "basis", "tank"] as const;
const kindOf = ({ id }: Decision): string => id.split(":")[0]!;

/** What each column is taken for: a row a column, with its first values, and below it what its words mean. */
export function columnsTable(form: Form, answer: Answer): HTMLElement {
  const heads = ["Column", "First values", "Is", "Unit", "Counted as", "Of", ""];
  const used = kinds.filter((kind) =>
    form.decisions.some(
      (each) => each.word === undefined && each.column !== undefined && placeOf(each) === kind,
    ),
  );
  const shown = heads.filter((_, at) => at < 2 || at > 5 || used.includes(kinds[at - 2]!));
  return h(
    "div",
    { class: "wide" },
    h(
      "table",
      { class: "columns" },
      h(
        "thead",
        {},
        h(
          "tr",
          {},
          ...shown.map((each) =>
            h("th", { scope: "col" }, each === "" ? h("span", { class: "unseen" }, "Why") : each),
          ),
        ),
      ),
      h("tbody", {}, ...form.columns.flatMap((column) => rowsOf(column, form, used, answer))),
    ),
  );
}

/** Below which head a decision stands; which food or species it is, beside what it is. */
const placeOf = (decision: Decision): (typeof kinds)[number] =>
  kinds.find((each) => each === kindOf(decision)) ?? "parameter";

function rowsOf(
  { at, head, as, why, samples }: Form["columns"][number],
  form: Form,
  used: readonly (typeof kinds)[number][],
  answer: Answer,
): HTMLElement[] {
  const own = form.decisions.filter(({ column }) => column === at);
  const whole = own.filter(({ word }) => word === undefined);
  const words = own.filter(({ word }) => word !== undefined);
  const isLeftOut = as === "ignored";
  const reasons = form.reasons
    .filter(({ about }) => about === head)
    .map(({ says, sureness }) => (sureness === "likely" ? `${says} (likely)` : says));
  const cell = (kind: (typeof kinds)[number]): HTMLElement => {
    const decisions = whole.filter((each) => placeOf(each) === kind);
    if (decisions.length === 0) return h("td", { class: "quiet" }, kind === "parameter" ? as : "");
    return h(
      "td",
      { class: decisions.some(({ value }) => value === undefined) ? "is-open" : "" },
      ...decisions.flatMap((each) => [
        control(each, form, answer, `${label(each.id)}: #${at} ${head}`),
        asksOf(each, form, false),
      ]),
    );
  };
  const row = h(
    "tr",
    { class: isLeftOut ? "left-out" : "" },
    h("th", { scope: "row" }, h("span", { class: "quiet" }, `#${at} `), head),
    h("td", { class: "samples" }, samplesOf(samples)),
    ...used.map(cell),
    h(
      "td",
      { class: "quiet why" },
      [isLeftOut ? why : "", ...reasons].filter((each) => each !== "").join("; "),
    ),
  );
  if (words.length === 0) return [row];
  return [
    row,
    h(
      "tr",
      { class: "words" },
      h("td", {}),
      h(
        "td",
        { colspan: used.length + 2 },
        h(
          "ul",
          {},
          ...groupsOf(words).map(([word, decisions]) =>
            h(
              "li",
              { class: decisions.some(({ value }) => value === undefined) ? "is-open" : "" },
              h("span", { class: "word" }, `“${word}” is`),
              ...decisions.flatMap((each) => [
                control(each, form, answer, `${label(each.id)}: “${word}”`),
                asksOf(each, form, false),
              ]),
            ),
          ),
        ),
      ),
    ),
  ];
}

function groupsOf(decisions: readonly Decision[]): [word: string, decisions: Decision[]][] {
  const groups = new Map<string, Decision[]>();
  for (const each of decisions) groups.set(each.word!, [...(groups.get(each.word!) ?? []), each]);
  return [...groups];
}
