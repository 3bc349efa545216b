import { boxCommandOf } from "./box-keys.ts";
import { type Command, commandOf } from "./keys.ts";
import { leading } from "./leading.ts";
import type { Memory, ToBoard, ToHost } from "./messages.ts";
import { Model, type Wish } from "./model.ts";
import { Page } from "./page.ts";
import type { Hands } from "./row.ts";
import { type Row, taskOf } from "./sections.ts";
import type { Task } from "./shown.ts";

type CardMessage = Extract<ToBoard, { say: "card" }>;
type Answer = Exclude<ToBoard, { say: "card" | "nothing" | "failed" }>;

const storeMs = 200;

/** Keys and clicks become what the model does, and what the host is told. */
export class Desk implements Hands {
  readonly model: Model;
  readonly page: Page;
  private readonly tell: (message: ToHost) => void;
  private readonly store: (memory: Memory) => void;
  /** How many loggings can be taken back. */
  private back = 0;
  private marksTold = 0;
  private storing: ReturnType<typeof setTimeout> | undefined;
  /** The task that is to have the focus once it is there again. */
  private awaited: string | undefined;

  constructor(
    root: HTMLElement,
    memory: Memory,
    tell: (message: ToHost) => void,
    store: (memory: Memory) => void,
  ) {
    this.model = new Model(memory);
    this.tell = tell;
    this.store = store;
    this.page = new Page(root, this, (command) => this.act(command));
    this.page.grid.element.addEventListener("keydown", (event) => this.key(event));
    window.addEventListener("scroll", () => this.keep({ scroll: window.scrollY }));
    // A page that is come to by a key has its row at hand.
    window.addEventListener("focus", () => {
      if (document.activeElement === document.body) this.page.grid.focusRow(false);
    });
  }

  // From the host

  take({ card, uri, edition, back }: CardMessage): void {
    const { model } = this;
    const isFirst = model.card === undefined;
    const { scroll } = model.memory;
    this.back = back;
    model.change({ uri });
    model.take(card, edition);
    const awaited = this.awaited === undefined ? undefined : model.rowOf(this.awaited);
    if (awaited !== undefined) {
      this.awaited = undefined;
      model.focus(awaited.key);
    }
    this.draw(this.holdsFocus() || (isFirst && document.hasFocus()));
    if (isFirst) window.scrollTo(0, scroll);
  }

  hear(message: Answer): void {
    const { model, page } = this;
    switch (message.say) {
      case "logged":
        this.back = message.back;
        model.logged(message.ask, message.edition);
        page.say(`Logged ${some(message.lines)}`);
        this.draw(this.holdsFocus());
        return;
      case "refused": {
        model.refuse(message.ask, message.reasons);
        const { why, reasons } = message;
        const words = reasons.map(({ key, message: reason }) => {
          const row = model.rowOf(key);
          const task = row === undefined ? null : taskOf(row);
          return task === null ? reason : `${model.wordsOf(task)}: ${reason}`;
        });
        page.say([why === "" ? "Nothing was logged." : why, ...words].join(" "));
        this.draw(false);
        if (!this.focusFirstRefused()) page.grid.focusRow();
        return;
      }
      case "takenBack": {
        this.back = message.back;
        this.awaited = message.keys[0];
        const { lines, left } = message;
        const taken = lines.length > 0 ? `Taken back: ${some(lines)}` : "Nothing was taken back";
        page.say(left.length === 0 ? taken : `${taken}; changed since and left: ${some(left)}`);
        this.draw(false);
        return;
      }
      case "press":
        this.act(message.pressed);
    }
  }

  private focusFirstRefused(): boolean {
    const task = this.model.batch().find(({ key }) => this.model.refused.has(key));
    return task !== undefined && this.page.grid.focusBox(task);
  }

  // Keys

  private key(event: KeyboardEvent): void {
    if (event.target instanceof HTMLInputElement) return;
    // A button within a row has its own Enter and Space.
    const isButton = event.target instanceof HTMLButtonElement;
    const command = isButton && (event.key === "Enter" || event.key === " ") ? undefined : commandOf(event);
    if (command === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    this.act(command);
  }

  boxKey(event: KeyboardEvent, task: Task): void {
    const command = boxCommandOf(event);
    const { target } = event;
    if (command === undefined || !(target instanceof HTMLElement)) return;
    const { grid } = this.page;
    // A value that is typed goes no further: its letters are no keys of the editor.
    event.stopPropagation();
    if (command === "type") return;
    // From the last box Tab goes on to the button that logs, as everywhere.
    if (command === "onward" && !grid.hasBox(target, 1)) return;
    event.preventDefault();
    const step = command === "before" || command === "backward" ? -1 : 1;
    if (command === "close") {
      this.model.closeBoxes();
      this.draw(true);
    } else if (!grid.stepBox(target, step)) {
      if (command === "nextOrLog") this.logBoxes();
      if (command === "backward") this.focusTask(task);
    }
  }

  private focusTask(task: Task): void {
    const row = this.model.rowOf(task.key);
    if (row !== undefined) this.focus(row);
  }

  act(command: Command): void {
    const { model, page } = this;
    const row = model.focused;
    switch (command) {
      case "up":
      case "down":
        model.move(command === "up" ? -1 : 1);
        break;
      case "first":
      case "last":
        model.move(command === "first" ? -model.rows.length : model.rows.length);
        break;
      case "sectionUp":
      case "sectionDown":
        model.moveSection(command === "sectionUp" ? -1 : 1);
        break;
      case "feeds":
        if (!model.moveTo("feeds")) page.say("There is nothing to feed.");
        break;
      case "notices":
        if (!model.moveTo("notice")) page.say("There is nothing else to know.");
        break;
      case "extendUp":
      case "extendDown":
        model.extend(command === "extendUp" ? -1 : 1);
        this.sayMarks();
        break;
      case "mark":
        if (row !== undefined) this.mark(row, false);
        return;
      case "markAll":
        model.markAll();
        this.sayMarks();
        break;
      case "markKind": {
        const kind = model.markKind();
        if (kind !== undefined) this.sayMarks(` of ${kind}`);
        break;
      }
      case "left":
      case "right":
        if (row !== undefined) this.turn(row, command === "left" ? -1 : 1);
        return;
      case "log":
        if (row?.is === "head" && model.memory.marks.length === 0) this.fold(row);
        else this.wish(model.log());
        return;
      case "takeBack":
        if (this.back > 0) this.tell({ say: "takeBack" });
        else page.say("There is nothing to take back.");
        return;
      case "help":
        page.help();
        return;
      case "leave":
        this.leave();
        return;
      default: {
        const lead = leading(command, model);
        if (typeof lead === "string") page.say(lead);
        else this.tell(lead);
        return;
      }
    }
    this.draw(true);
  }

  private leave(): void {
    const { model } = this;
    if (model.closeBoxes() || model.clearMarks()) this.draw(true);
    else this.tell({ say: "leave" });
  }

  // What rows ask

  focus(row: Row): void {
    this.model.focus(row.key);
    this.draw(true);
  }

  entered(row: Row): void {
    if (this.model.memory.focus === row.key) return;
    this.model.focus(row.key);
    this.draw(false);
  }

  mark(row: Row, isExtending: boolean): void {
    const { model } = this;
    if (isExtending) {
      const from = model.rows.findIndex(({ key }) => key === model.memory.focus);
      const to = model.rows.indexOf(row);
      for (let at = from; at !== to; at += Math.sign(to - from)) model.extend(to > from ? 1 : -1);
    } else {
      model.focus(row.key);
      model.toggle(row);
    }
    this.sayMarks();
    this.draw(true);
  }

  log(row: Row): void {
    const task = taskOf(row);
    this.model.focus(row.key);
    if (task !== null) this.wish(this.model.logTasks([task]));
  }

  logBoxes(): void {
    this.wish(this.model.logBoxes());
  }

  fold(row: Row): void {
    if (row.is !== "head") return;
    this.model.focus(row.key);
    this.model.fold(row.key, !this.model.isFolded(row.key));
    this.draw(true);
  }

  turnWay(row: Row): void {
    this.model.focus(row.key);
    this.turn(row, 1);
  }

  typed(task: Task, at: number, value: string): void {
    this.model.setTyped(task, at, value);
    this.keep();
  }

  private turn(row: Row, step: 1 | -1): void {
    const { model, page } = this;
    if (row.is === "head") model.fold(row.key, step < 0);
    const task = taskOf(row);
    if (task !== null && model.turnWay(task, step))
      page.say(`${model.wordsOf(task)}: ${model.wayAt(task) + 1} of ${task.ways.length}`);
    this.draw(true);
  }

  private wish(wish: Wish): void {
    const { model, page } = this;
    switch (wish.is) {
      case "nothing":
        page.say(wish.why);
        if (model.task !== null && model.isOpen(model.task)) page.grid.focusBox(model.task);
        return;
      case "boxes": {
        this.draw(false);
        const first = model.batch().find((task) => model.isOpen(task));
        if (first !== undefined) page.grid.focusBox(first);
        return;
      }
      case "send":
        this.tell({ say: "log", ask: model.ask, lines: [...wish.lines] });
        model.moveOn();
        this.draw(true);
    }
  }

  private sayMarks(of = ""): void {
    const { length } = this.model.memory.marks;
    this.page.say(length === 0 ? "Nothing is marked." : `${length} marked${of}`);
  }

  /** Whether the focus is within the rows: it is put back there, and never taken from elsewhere. */
  private holdsFocus(): boolean {
    const { activeElement } = document;
    const isInBox = activeElement instanceof HTMLInputElement;
    return (
      document.hasFocus() &&
      !isInBox &&
      (activeElement === document.body || this.page.grid.element.contains(activeElement))
    );
  }

  private draw(isFocusing: boolean): void {
    this.page.update(this.back);
    if (isFocusing) this.page.grid.focusRow();
    this.keep();
    const { length } = this.model.memory.marks;
    if (length === this.marksTold) return;
    this.marksTold = length;
    this.tell({ say: "marked", marks: length });
  }

  private keep(change: Partial<Memory> = {}): void {
    this.model.change(change);
    clearTimeout(this.storing);
    this.storing = setTimeout(() => this.store(this.model.memory), storeMs);
  }
}

/** The first few, and how many more. */
function some(lines: readonly string[]): string {
  const shown = lines.slice(0, 3).join("; ");
  return lines.length > 3 ? `${shown} and ${lines.length - 3} more` : shown;
}
