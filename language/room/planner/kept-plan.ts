import type { WorkProblem } from "../../science/recurring-work.ts";
import { planWork, type WorkPlan } from "../../science/recurring-work-plan.ts";

/** So many problems are kept with their plans: yesterday's and today's, of two rooms. */
const mostKept = 4;
const kept = new Map<string, WorkPlan>();

/**
 * The plan of a problem. A plan follows from its problem alone, and most keys in a log leave the problem as it was: those that were planned last are not
 * planned anew.
 */
export function keptPlan(problem: WorkProblem): WorkPlan {
  // Infinity is no JSON, and what does not bind is.
  const key = JSON.stringify(problem, (_, value) =>
    typeof value === "number" && !Number.isFinite(value) ? String(value) : value,
  );
  const known = kept.get(key) ?? planWork(problem);
  kept.delete(key);
  kept.set(key, known);
  const [oldest] = kept.keys();
  if (kept.size > mostKept && oldest !== undefined) kept.delete(oldest);
  return known;
}
