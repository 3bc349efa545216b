import { lotCard } from "../lot-card.ts";
import { list, paragraphs, plain } from "../markdown.ts";
import { linked, type Scope, section } from "./parts.ts";

/** What is known of a lot: of a brood its stages and what is to come, its parents and inbreeding, its young. Empty where that is nothing. */
export function lotText(scope: Scope, name: string): string {
  const { checked, worldDay } = scope.view;
  const card = lotCard(checked, name, worldDay);
  if (card === undefined) return "";
  const { brood, species, sex, line, generation, ancestors, inbreeding, young } = card;
  const parents = ancestors.filter(({ back }) => back === 1);
  const about = [species, sex, line === "" ? "" : `line “${line}”`, generation].filter((part) => part !== "");
  const by = parents.map(
    ({ as, name: parent, isGroup }) => `${as} ${parent}${isGroup ? " (one of several)" : ""}`,
  );
  const inbred = inbreeding === null ? "" : `inbreeding ${inbreeding.text}`;
  const stages = (brood?.stages ?? [])
    .filter(({ text }) => text !== "")
    .map(({ stage, text }) => `${text} ${stage === "alive" ? "eggs alive" : stage}`);
  const next =
    brood?.expected == null
      ? ""
      : `${brood.expected.is === "late" ? "late: " : ""}${brood.expected.stage} ${brood.expected.text}`;
  const shares = (brood?.shares ?? []).map(({ what, text }) => `${what}: ${text}`);
  return paragraphs(
    plain(about.join(", ")),
    plain([...by, inbred].filter((part) => part !== "").join(", ")),
    plain([brood?.stateText ?? "", next].filter((part) => part !== "").join("; ")),
    plain(stages.join(", ")),
    list(shares.map(plain)),
    section(
      "Young",
      young.map((each) => `${linked(scope, each.name, each.at)} ${plain(each.text)}`),
    ),
  );
}
