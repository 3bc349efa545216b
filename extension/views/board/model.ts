import { lineWith, shownWords } from "./line.ts";
import type { Memory } from "./messages.ts";
import { type Row, rowsOf, type Section, sectionsOf, taskOf, tasksOf } from "./sections.ts";
import type { Card, Task, Way } from "./shown.ts";

/** A line to be logged, and the task that it does. */
export interface Line {
  readonly key: string;
  readonly line: string;
}

/** What became of the wish to log: lines to send, boxes to fill first, or nothing, for a reason in words. */
export type Wish =
  | { readonly is: "send"; readonly lines: readonly Line[] }
  | { readonly is: "boxes" }
  | { readonly is: "nothing"; readonly why: string };

interface Sent {
  readonly keys: readonly string[];
  readonly marks: readonly string[];
  readonly batch: readonly string[];
}

/** What is on the board and what the keeper did to it, without a page: focus, marks, ways, boxes and what waits for an answer. */
export class Model {
  memory: Memory;
  card: Card | undefined;
  sections: readonly Section[] = [];
  /** Rows that can be gone to. */
  rows: readonly Row[] = [];
  /** Why tasks could not be logged, until they are tried again. */
  readonly refused = new Map<string, string>();
  /** Tasks that were sent and wait for an answer. */
  private readonly pending = new Set<string>();
  /** What each asking was about, to be as it was if it is refused. */
  private readonly sent = new Map<number, Sent>();
  /** Tasks that were logged, and the edition of cards that know of it. */
  private readonly gone = new Map<string, number>();
  private anchor = "";
  private asks = 0;
  private tasks: ReadonlyMap<string, Task> = new Map();

  constructor(memory: Memory) {
    this.memory = memory;
  }

  /** Another card. Focus, marks, boxes and what was typed stay with their tasks. */
  take(card: Card, edition: number): void {
    for (const [key, since] of this.gone) if (edition >= since) this.gone.delete(key);
    const before = this.rows;
    this.card = card;
    if (card.day !== this.memory.day) {
      this.change({ day: card.day, marks: [], batch: [], typed: {}, ways: {} });
      this.refused.clear();
    }
    this.lay(before);
    const isThere = (key: string): boolean => this.tasks.has(key);
    const { marks, batch, ways } = this.memory;
    this.change({
      marks: marks.filter(isThere),
      batch: batch.filter(isThere),
      ways: Object.fromEntries(Object.entries(ways).filter(([key]) => isThere(key))),
    });
    for (const key of this.refused.keys()) if (!isThere(key)) this.refused.delete(key);
  }

  /** Rows anew. The focus stays on its row; where that is gone, it goes to what followed. */
  private lay(before: readonly Row[] = this.rows): void {
    if (this.card === undefined) return;
    this.sections = sectionsOf(this.card, (task) => this.gone.has(task));
    this.rows = rowsOf(this.sections, (section) => this.memory.folded.includes(section));
    this.tasks = new Map(
      this.sections.flatMap(({ rows }) =>
        rows.flatMap((row) => tasksOf(row).map((task): [string, Task] => [task.key, task])),
      ),
    );
    const { focus } = this.memory;
    if (this.indexOf(focus) >= 0) return;
    const was = before.findIndex(({ key }) => key === focus);
    const after = [...before.slice(was + 1), ...before.slice(0, Math.max(0, was)).reverse()];
    const left = was < 0 ? undefined : after.find(({ key }) => this.indexOf(key) >= 0);
    const first = this.rows.find((row) => row.is === "task") ?? this.rows[0];
    this.change({ focus: (left ?? first)?.key ?? "" });
  }

  get focused(): Row | undefined {
    return this.rows[this.indexOf(this.memory.focus)];
  }

  /** The task of the row with the focus. */
  get task(): Task | null {
    return this.focused === undefined ? null : taskOf(this.focused);
  }

  private indexOf(key: string): number {
    return this.rows.findIndex((row) => row.key === key);
  }

  focus(key: string): void {
    if (this.indexOf(key) < 0) return;
    this.anchor = key;
    this.change({ focus: key });
  }

  move(step: number): void {
    const { rows } = this;
    const at = Math.max(0, Math.min(rows.length - 1, this.indexOf(this.memory.focus) + step));
    if (rows[at] !== undefined) this.focus(rows[at].key);
  }

  /** To the first row of the next section, or of this one, then of the one before. */
  moveSection(step: 1 | -1): void {
    const { rows } = this;
    const starts = rows.flatMap((row, at) => {
      if (row.is !== "head") return [];
      return [rows[at + 1]?.section === row.section ? at + 1 : at];
    });
    const here = this.indexOf(this.memory.focus);
    const to = step > 0 ? starts.find((at) => at > here) : starts.findLast((at) => at < here);
    const row = rows[to ?? (step > 0 ? rows.length - 1 : 0)];
    if (row !== undefined) this.focus(row.key);
  }

  /** To the first row of the first section of a kind. */
  moveTo(is: Section["is"]): boolean {
    const section = this.sections.find((each) => each.is === is);
    if (section === undefined) return false;
    const isFolded = this.memory.folded.includes(section.key);
    this.focus(isFolded ? section.key : (section.rows[0]?.key ?? section.key));
    return true;
  }

  isFolded(section: string): boolean {
    return this.memory.folded.includes(section);
  }

  fold(section: string, isFolded: boolean): void {
    const others = this.memory.folded.filter((key) => key !== section);
    this.change({ folded: isFolded ? [...others, section] : others });
    // What is folded away gives the focus to its head.
    if (isFolded && this.focused?.section === section) this.focus(section);
    this.lay();
  }

  // Marks

  isMarked(row: Row): boolean {
    const tasks = tasksOf(row);
    return tasks.length > 0 && tasks.every(({ key }) => this.memory.marks.includes(key));
  }

  toggle(row: Row): void {
    this.mark(tasksOf(row), !this.isMarked(row));
  }

  private mark(tasks: readonly Task[], isMarked = true): void {
    const keys = tasks.map(({ key }) => key);
    const others = this.memory.marks.filter((key) => !keys.includes(key));
    this.change({ marks: isMarked ? [...others, ...keys] : others });
  }

  /** One row on, with all that lie between here and where it began. */
  extend(step: 1 | -1): void {
    const anchor = this.anchor === "" ? this.memory.focus : this.anchor;
    this.move(step);
    this.anchor = anchor;
    const [from, to] = [this.indexOf(anchor), this.indexOf(this.memory.focus)].sort((a, b) => a - b);
    const between = this.rows.slice(from, to! + 1).filter((row) => row.is !== "head");
    this.mark(between.flatMap(tasksOf));
  }

  /** All of the section; where they are marked already, all there are. */
  markAll(): void {
    const { focused } = this;
    const section = this.sections.find(({ key }) => key === focused?.section);
    const of = (some: readonly Section[]): Task[] => some.flatMap(({ rows }) => rows.flatMap(tasksOf));
    const here = of(section === undefined ? [] : [section]);
    const isDone = here.every(({ key }) => this.memory.marks.includes(key));
    this.mark(isDone ? of(this.sections) : here);
  }

  /** All of the kind of the task with the focus; gives its word. */
  markKind(): string | undefined {
    const { task } = this;
    if (task === null) return undefined;
    this.mark([...this.tasks.values()].filter(({ kind }) => kind === task.kind));
    return task.kind;
  }

  clearMarks(): boolean {
    const had = this.memory.marks.length > 0;
    this.change({ marks: [] });
    return had;
  }

  // Ways and boxes

  wayOf(task: Task): Way {
    return task.ways[this.memory.ways[task.key] ?? 0] ?? task.ways[0]!;
  }

  wayAt(task: Task): number {
    return task.ways.indexOf(this.wayOf(task));
  }

  /** Another of the usual ways; false where there is but one. */
  turnWay(task: Task, step: 1 | -1): boolean {
    const { length } = task.ways;
    if (length < 2) return false;
    const at = (this.wayAt(task) + step + length) % length;
    this.change({ ways: { ...this.memory.ways, [task.key]: at } });
    return true;
  }

  isOpen(task: Task): boolean {
    return this.memory.batch.includes(task.key) && this.wayOf(task).blanks.length > 0;
  }

  typedOf(task: Task): readonly string[] {
    return this.memory.typed[this.boxesOf(task)] ?? [];
  }

  setTyped(task: Task, at: number, value: string): void {
    const typed = this.wayOf(task).blanks.map((_, index) => this.typedOf(task)[index] ?? "");
    typed[at] = value;
    this.change({ typed: { ...this.memory.typed, [this.boxesOf(task)]: typed } });
  }

  private boxesOf(task: Task): string {
    return `${this.wayAt(task)} ${task.key}`;
  }

  closeBoxes(): boolean {
    const had = this.memory.batch.length > 0;
    for (const key of this.memory.batch) this.refused.delete(key);
    this.change({ batch: [] });
    return had;
  }

  // Logging

  isPending(task: Task): boolean {
    return this.pending.has(task.key);
  }

  /** Logs what is marked, else the tasks given: those of the row with the focus. */
  log(row: Row | undefined = this.focused): Wish {
    const marked = [...this.tasks.values()].filter(({ key }) => this.memory.marks.includes(key));
    const task = row === undefined ? null : taskOf(row);
    const meant = marked.length > 0 ? marked : task === null ? [] : [task];
    return this.logTasks(meant);
  }

  /** Logs tasks, or opens the boxes that they need. */
  logTasks(meant: readonly Task[]): Wish {
    const tasks = meant.filter((task) => !this.isPending(task));
    if (tasks.length === 0)
      return {
        is: "nothing",
        why: meant.length > 0 ? "That is being logged." : "There is nothing to log here.",
      };
    if (tasks.every((task) => this.wayOf(task).blanks.length === 0)) return this.send(tasks);
    if (tasks.every((task) => this.isOpen(task))) return this.logBoxes();
    const keys = tasks.map(({ key }) => key);
    this.change({ batch: keys });
    return { is: "boxes" };
  }

  /** Logs what waits for boxes; what was left empty stays as it is. */
  logBoxes(): Wish {
    const filled = this.batch().filter((task) => this.lineOf(task) !== undefined);
    if (!filled.some((task) => this.isOpen(task)))
      return { is: "nothing", why: "Type a value first; Escape closes the boxes." };
    return this.send(filled);
  }

  /** Tasks that wait for values, or are to be logged with those. */
  batch(): Task[] {
    return [...this.tasks.values()].filter(({ key }) => this.memory.batch.includes(key));
  }

  private send(tasks: readonly Task[]): Wish {
    const lines = tasks.flatMap((task) => {
      const line = this.lineOf(task);
      return line === undefined ? [] : [{ key: task.key, line }];
    });
    const { marks, batch } = this.memory;
    const keys = lines.map(({ key }) => key);
    this.sent.set(++this.asks, { keys, marks: marks.filter((key) => keys.includes(key)), batch });
    for (const key of keys) {
      this.pending.add(key);
      this.refused.delete(key);
    }
    this.change({ marks: marks.filter((key) => !keys.includes(key)), batch: [] });
    return { is: "send", lines };
  }

  /** The number of the asking that was made last. */
  get ask(): number {
    return this.asks;
  }

  private lineOf(task: Task): string | undefined {
    return lineWith(task, this.wayOf(task), this.typedOf(task));
  }

  /** The focus goes on to the next task that is still to be done; it stays on one that is. */
  moveOn(): void {
    const here = this.indexOf(this.memory.focus);
    const isOpen = (row: Row): boolean => row.is === "task" && !this.isPending(row.task);
    const { rows } = this;
    const next = rows.slice(here).find(isOpen) ?? rows.slice(0, Math.max(0, here)).findLast(isOpen);
    if (next !== undefined) this.focus(next.key);
  }

  /** Written: what it was of is not shown any more until a card knows of it. */
  logged(ask: number, edition: number): void {
    const keys = this.answered(ask)?.keys ?? [];
    for (const key of keys) this.gone.set(key, edition);
    const left = Object.entries(this.memory.typed).filter(
      ([key]) => !keys.includes(key.slice(key.indexOf(" ") + 1)),
    );
    this.change({ typed: Object.fromEntries(left) });
    this.lay();
  }

  /** Not written. Marks, boxes and what was typed are as they were, each reason stands at its row, and the focus goes to the first. */
  refuse(ask: number, reasons: readonly { readonly key: string; readonly message: string }[]): void {
    const sent = this.answered(ask);
    const { marks, batch } = this.memory;
    if (sent !== undefined)
      this.change({
        marks: [...new Set([...marks, ...sent.marks])],
        batch: [...new Set([...batch, ...sent.batch])],
      });
    for (const { key, message } of reasons) this.refused.set(key, message);
    const first = this.rowOf(reasons[0]?.key ?? sent?.keys[0] ?? "");
    if (first !== undefined) this.focus(first.key);
  }

  private answered(ask: number): Sent | undefined {
    const sent = this.sent.get(ask);
    for (const key of sent?.keys ?? []) this.pending.delete(key);
    this.sent.delete(ask);
    return sent;
  }

  rowOf(task: string): Row | undefined {
    return this.rows.find((row) => taskOf(row)?.key === task);
  }

  /** `dam change 30 %`. */
  wordsOf(task: Task): string {
    return shownWords(task, this.wayOf(task));
  }

  change(some: Partial<Memory>): void {
    this.memory = { ...this.memory, ...some };
  }
}
