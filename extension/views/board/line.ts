import type { Task, Way } from "./shown.ts";

/** From a task and what was typed into its boxes to a line of the log. */

/** The pieces of the line, with a value between each two: one more than there are blanks. */
export function pieces(task: Task, way: Way): string[] {
  const [first, ...rest] = way.blanks;
  const start = `${task.target} ${way.words}`.trim();
  if (first === undefined) return [start + way.end];
  const gap = /^[\s,]/.test(first.before) || start === "" ? "" : " ";
  return [`${start}${gap}${first.before}`, ...rest.map(({ before }) => before), way.end];
}

/** The line with what was typed; a box that was left empty is left out with what stands before it. Undefined while all are empty. */
export function lineWith(task: Task, way: Way, values: readonly string[]): string | undefined {
  if (way.blanks.length === 0) return pieces(task, way)[0]!;
  const start = `${task.target} ${way.words}`.trim();
  const filled = way.blanks.flatMap(({ before }, at) => {
    const value = values[at]?.trim() ?? "";
    return value === "" ? [] : [before + value];
  });
  if (filled.length === 0) return undefined;
  const [first, ...rest] = filled;
  return [`${start} ${first!.replace(/^[\s,]+/, "")}`, ...rest].join("") + way.end;
}

/** How it is shown before anything is typed: `test nitrate …, pH …`. @param target it is said by what stands above */
export function shownWords(task: Task, way: Way, target = ""): string {
  const words = pieces(task, way).join("…");
  return target !== "" && words.startsWith(`${target} `) ? words.slice(target.length + 1) : words;
}
