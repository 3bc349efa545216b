import { spokenDay } from "../../../language/book/dates.ts";
import { h } from "../shared/dom.ts";
import { type Face, leadsToCase, section } from "./face.ts";
import type { TankCard } from "./shown.ts";

/** The open cases of a tank's water, each leading to its card. Absent where none is open. */
export function openCasesPart(face: Face, { cases, name, day }: TankCard): HTMLElement[] {
  if (cases.length === 0) return [];
  const items = cases.map((each) => {
    const isHere = each.tanks.some((tank) => tank.name === name);
    const where = isHere ? "" : `in ${each.tanks.map((tank) => tank.name).join(", ")}, of this water; `;
    return h(
      "li",
      {},
      leadsToCase(face, each.name, each.episode, `case-${each.name}`),
      h("span", { class: "figure" }, ` ${each.state}`),
      h("div", { class: "aside" }, `${where}since ${spokenDay(each.since, day)}: ${each.text}`),
    );
  });
  return [section("cases", "Open cases", h("ul", { class: "rows" }, ...items))];
}
