import type { About, Card, Day, Done, NoticeLine, Place, Stop, Task } from "./shown.ts";

/** The board as rows below heads, in the order in which it is read and gone through. */

export interface Section {
  readonly key: string;
  readonly is: "stop" | "feeds" | "notice" | "days" | "done";
  readonly title: string;
  readonly stop: Stop | null;
  readonly rows: readonly Row[];
}

interface RowBase {
  /** Of all rows. */
  readonly key: string;
  readonly section: Section["key"];
}
export type TaskRow = RowBase & {
  readonly is: "task";
  readonly task: Task;
  /** The name that the head says already. */
  readonly of: string;
};
export type Row =
  | (RowBase & { readonly is: "head"; readonly of: Section })
  | TaskRow
  | (RowBase & { readonly is: "line"; readonly line: NoticeLine })
  | (RowBase & { readonly is: "day"; readonly day: Day })
  | (RowBase & { readonly is: "fit"; readonly text: string })
  | (RowBase & { readonly is: "done"; readonly done: Done });

/** @param isGone tasks that were logged since the card was made */
export function sectionsOf(card: Card, isGone: (task: string) => boolean): Section[] {
  const tasks = (section: string, of: string, some: readonly Task[]): Row[] =>
    some
      .filter(({ key }) => !isGone(key))
      .map((task) => ({ is: "task", key: `${section}/${task.key}`, section, task, of }));
  const section = (
    is: Section["is"],
    key: string,
    title: string,
    rows: readonly Row[],
    stop: Stop | null = null,
  ): Section => ({ is, key, title, stop, rows });
  return [
    ...card.stops.map((stop) =>
      section("stop", `stop ${stop.at}`, stop.at, tasks(`stop ${stop.at}`, stop.at, stop.tasks), stop),
    ),
    section("feeds", "feeds", "Feeding", tasks("feeds", "", card.feeds)),
    ...card.notices.map(({ is, title, lines }) =>
      section(
        "notice",
        `notice ${is}`,
        title,
        lines.map((line) => ({
          is: "line",
          key: `notice ${is}/${line.key}`,
          section: `notice ${is}`,
          line: line.task !== null && isGone(line.task.key) ? { ...line, task: null } : line,
        })),
      ),
    ),
    section("days", "days", "Days to come", [
      ...card.fit.map((text, at): Row => ({ is: "fit", key: `days/fit ${at}`, section: "days", text })),
      ...card.coming.map((day): Row => ({ is: "day", key: `days/${day.day}`, section: "days", day })),
    ]),
    section(
      "done",
      "done",
      "Done today",
      card.done.map((done, at) => ({
        is: "done",
        key: `done/${card.done.length - at} ${done.line}`,
        section: "done",
        done,
      })),
    ),
  ].filter(({ rows }) => rows.length > 0);
}

/** What is seen and can be gone to: heads, and the rows below those that are unfolded. */
export function rowsOf(sections: readonly Section[], isFolded: (section: string) => boolean): Row[] {
  return sections.flatMap((of): Row[] => [
    { is: "head", key: of.key, section: of.key, of },
    ...(isFolded(of.key) ? [] : of.rows),
  ]);
}

export function taskOf(row: Row): Task | null {
  return row.is === "task" ? row.task : row.is === "line" ? row.line.task : null;
}

/** What a row answers for when it is marked: its task, or those below a head. */
export function tasksOf(row: Row): Task[] {
  if (row.is === "head") return row.of.rows.flatMap((each) => taskOf(each) ?? []);
  const task = taskOf(row);
  return task === null ? [] : [task];
}

/** Where what a row says is stated or written. */
export function placeOf(row: Row): Place | null {
  switch (row.is) {
    case "head":
      return row.of.stop?.place ?? null;
    case "task":
      return row.task.place;
    case "line":
      return row.line.place;
    case "done":
      return row.done.place;
    default:
      return null;
  }
}

/** What the preview shows of a row: its tank or case. */
export function aboutOf(row: Row, sections: readonly Section[]): About | null {
  if (row.is === "line") return row.line.card;
  const stop = sections.find(({ key }) => key === row.section)?.stop;
  if (stop != null) return stop.hasCard ? { tank: stop.at } : null;
  // What is fed is fed in a tank; of a group there is no card.
  return row.is === "task" && !row.task.target.startsWith("@") ? { tank: row.task.target } : null;
}
