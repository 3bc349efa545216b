import { spokenDay } from "../../../language/book/dates.ts";
import { bathLine } from "../../../language/features/bath-words.ts";
import { h } from "../shared/dom.ts";
import { type Face, folding, leadsTo } from "./face.ts";
import type { BathCard, Place, RemedyCard } from "./shown.ts";

/** A course of treatment under its chart: how it stands, what is out, what the curve comes to, what is published. */

interface Fact {
  readonly word: string;
  readonly text: string;
  readonly isWrong?: boolean;
  readonly at?: Place | null;
}

/** What is told of a course under its chart: of a remedy in a tank, or of a case. */
export type Given = Pick<RemedyCard, "name" | "target" | "ceilingText" | "next" | "plan">;

export function courseFacts(face: Face, remedy: Given, day: number): HTMLElement {
  const facts = factsOf(remedy, day).filter(({ text }) => text !== "");
  return h(
    "dl",
    { class: "facts" },
    ...facts.map(({ word, text, isWrong = false, at = null }, index) =>
      h(
        "div",
        { class: isWrong ? "wrong" : "" },
        h("dt", {}, word),
        h("dd", {}, leadsTo(face, at, `fact-${remedy.name}-${index}`, "fact", text)),
      ),
    ),
  );
}

function factsOf({ target, ceilingText, next, plan }: Given, day: number): Fact[] {
  const stated: Fact[] = [
    { word: "target", text: target?.text ?? "" },
    { word: "ceiling", text: ceilingText },
  ];
  if (plan === null) return stated;
  const { figures, parts, changeAfterText, isChangeAfterDone, withdrawalEnd, stateText, end, state } = plan;
  return [
    ...stated,
    { word: "course", text: next === null ? stateText : "", isWrong: state === "cut" },
    { word: "next dose", text: next?.text ?? "", isWrong: next !== null && next.day < day },
    { word: "case", text: plan.case },
    ...parts.map(({ text, is, at }): Fact => {
      const isWrong = is === "in" || is === "back early";
      return { word: "to be out", text, isWrong, at };
    }),
    { word: "after it", text: changeAfterText, isWrong: !isChangeAfterDone && end < day },
    { word: "inside", text: figures.insideText },
    { word: "highest", text: figures.highestText },
    { word: "curve", text: figures.aboveText, isWrong: (figures.aboveDays ?? 0) > 0 },
    { word: "exposure", text: figures.exposureText },
    {
      word: "to leave",
      text:
        withdrawalEnd === null || withdrawalEnd <= day ? "" : `not before ${spokenDay(withdrawalEnd, day)}`,
    },
  ];
}

/** How much to add after a change: what it took out, and never a whole dose. */
export function topUpFold(face: Face, { name, plan }: Pick<Given, "name" | "plan">): HTMLElement | undefined {
  if (plan === null || plan.topUps.length === 0) return undefined;
  const key = `top-up-${name}`;
  const summary = ["After a change", h("span", { class: "unseen" }, ` of water with ${name}`)];
  return folding(face, key, "figures", summary, () => [
    h(
      "table",
      {},
      h("thead", {}, h("tr", {}, ...["Changed", "Add"].map((word) => h("th", { scope: "col" }, word)))),
      h(
        "tbody",
        {},
        ...plan.topUps.map(({ fraction, text }) =>
          h("tr", {}, h("td", {}, `${Math.round(fraction * 100)} %`), h("td", { class: "figure" }, text)),
        ),
      ),
    ),
    h(
      "p",
      { class: "aside" },
      "What the change took out of water at the target: target × litres replaced, not a whole dose.",
    ),
  ]);
}

/** What is published of the active substance: orientation beside the keeper's own figures. */
export function publishedFold(
  face: Face,
  { name, plan }: Pick<Given, "name" | "plan">,
): HTMLElement | undefined {
  const published = plan?.published;
  if (published === undefined || published === null) return undefined;
  const { substance, ranges, notes, cautions, caution } = published;
  const line = ({ text, source }: { readonly text: string; readonly source: string }): HTMLElement =>
    h("li", {}, text, h("span", { class: "aside source" }, ` ${source}`));
  return folding(face, `published-${name}`, "published", [`Published of ${substance}`], () => [
    h("ul", { class: "tree" }, ...[...ranges, ...notes, ...cautions].map(line)),
    h("p", { class: "caution" }, caution),
  ]);
}

/** Baths and dips of late. */
export function bathsPart(face: Face, baths: readonly BathCard[], day: number): HTMLElement[] {
  if (baths.length === 0) return [];
  const items = [...baths]
    .reverse()
    .map((bath, at) => h("li", {}, leadsTo(face, bath.at, `bath-${at}`, "bath", bathLine(bath, day))));
  return [h("h3", {}, "Baths and dips"), h("ul", { class: "baths tree" }, ...items)];
}
