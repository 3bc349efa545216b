import { h } from "../shared/dom.ts";
import { type Face, folding, leadsTo } from "./face.ts";
import type { WhyCard } from "./shown.ts";

/** Why a figure is what it is: the entries and formulas behind it, as a tree that unfolds. */

/** @param caution what to take care of with the figure; empty where there is nothing */
export function whyFold(face: Face, key: string, why: WhyCard | null, caution = ""): HTMLElement | undefined {
  return why === null
    ? undefined
    : folding(face, `why-${key}`, "why", ["Why"], () => [
        node(face, why, `why-${key}-of`, true),
        caution !== "" && h("p", { class: "caution" }, caution),
      ]);
}

function node(face: Face, why: WhyCard, key: string, isRoot = false): HTMLElement {
  const { what, value, formula, source, at, from } = why;
  const said = [
    leadsTo(face, at, key, "what", what),
    value !== "" && h("span", { class: "figure" }, ` ${value}`),
    formula !== "" && h("div", { class: "aside" }, formula),
    source !== "" && h("div", { class: "aside source" }, source),
  ];
  const parts = from.map((part, at) => h("li", {}, node(face, part, `${key}-${at}`)));
  const below =
    parts.length > foldedFrom && !isRoot
      ? folding(face, `${key}-parts`, "more", [`${parts.length} more`], () => [
          h("ul", { class: "tree" }, ...parts),
        ])
      : parts.length > 0 && h("ul", { class: "tree" }, ...parts);
  return h("div", {}, ...said, below);
}

/** More parts than these fold. */
const foldedFrom = 3;
