import type { LineFact, LogLine } from "../log-lines.ts";

/** Properties of which one definition says each thing once: two values for one of them contradict each other. */

/** What may be said as often as one likes, and what each line of says something of its own. */
const many: ReadonlySet<string> = new Set(["note", "away", "off", "capacity"]);

/** Whether two properties say something of the same. */
export function sharedFacts(a: LogLine, b: LogLine): boolean {
  if (a.kind !== "property" || b.kind !== "property") return false;
  const about = new Set(a.facts.filter(isOnce).map((fact) => fact.about));
  return b.facts.some((fact) => isOnce(fact) && about.has(fact.about));
}

const isOnce = ({ about }: LineFact): boolean => !many.has(about.split(" ")[0]!);
