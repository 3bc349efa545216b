import { spokenDay } from "../../../language/book/dates.ts";
import { h } from "../shared/dom.ts";
import { severitySign } from "../shared/icons.ts";
import { type Face, folding, leadsTo, section } from "./face.ts";
import type { FindingCard } from "./shown.ts";

/** So many are shown at once; the rest folds. */
const shownAtOnce = 5;

const severityNames = {
  error: "Error",
  warning: "Warning",
  information: "Information",
  hint: "Hint",
} as const;

/** What there is to see to, each leading to its line; absent where there is nothing. */
export function findingsPart(
  face: Face,
  findings: readonly FindingCard[],
  today: number,
): HTMLElement | undefined {
  if (findings.length === 0) return undefined;
  const rows = findings.map((finding, at) => findingRow(face, finding, at, today));
  const more = rows.slice(shownAtOnce);
  return section(
    "findings",
    "To see to",
    h("ul", { class: "rows" }, ...rows.slice(0, shownAtOnce)),
    more.length > 0 &&
      folding(face, "more-findings", "more", [`${more.length} more`], () => [
        h("ul", { class: "rows" }, ...more),
      ]),
  );
}

export function findingRow(face: Face, finding: FindingCard, at: number, today: number): HTMLElement {
  const { severity, message, day, code } = finding;
  const name = h("span", { class: "unseen" }, `${severityNames[severity]}: `);
  const when =
    day === null || day === today ? undefined : h("span", { class: "aside" }, ` ${spokenDay(day, today)}`);
  return h(
    "li",
    { class: `finding ${severity}` },
    severitySign(severity),
    leadsTo(face, finding.at, `finding-${code}-${at}`, "words", name, message, when),
  );
}
