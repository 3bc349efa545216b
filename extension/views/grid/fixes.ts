import { wordsOf } from "./asking.ts";
import type { Desk } from "./desk.ts";
import { doneShape, fixesShape } from "./messages.ts";

/** What mends the findings of a cell, from a list below it. */
export class Fixes {
  private readonly desk: Desk;

  constructor(desk: Desk) {
    this.desk = desk;
  }

  async showFixes(): Promise<void> {
    const { row, col } = this.desk.cursor;
    const found = this.desk.saidAt(row, col);
    const cell = this.desk.table.cellAt(row, col);
    if (found === undefined || cell === undefined) return;
    if (this.desk.isReadOnly) return this.desk.refuse("This file cannot be written.");
    try {
      const fixes = await this.desk.asking.ask(
        { is: "fixes", face: this.desk.face, cell: { row: found.row.id, column: found.column } },
        fixesShape,
      );
      if (fixes.length === 0) return this.desk.refuse("There is no fix here.");
      this.desk.tip.hide();
      this.desk.offers.show(
        cell,
        fixes.map((label) => ({ label, detail: "" })),
        (at) => void this.fix(at),
        0,
      );
      this.desk.say(`${fixes.length === 1 ? "1 fix" : `${fixes.length} fixes`}: ${fixes[0]}`);
    } catch (error) {
      this.desk.refuse(wordsOf(error));
    }
  }

  /** Keys of the list of fixes, while the focus stays on the cell. @returns whether the key was the list's */
  pressOffers(event: KeyboardEvent): boolean {
    const { key } = event;
    if (key === "ArrowDown" || key === "ArrowUp") this.desk.offers.move(key === "ArrowDown" ? 1 : -1);
    else if (key === "Enter" || key === "Tab") this.desk.offers.accept();
    else {
      this.desk.offers.hide();
      if (key !== "Escape") return false;
    }
    event.preventDefault();
    event.stopPropagation();
    return true;
  }

  private async fix(number: number): Promise<void> {
    try {
      const isDone = await this.desk.asking.ask({ is: "fix", number }, doneShape);
      this.desk.takeFocus();
      this.desk.say(isDone ? "Fixed" : "This could not be fixed");
      this.desk.stale();
    } catch (error) {
      this.desk.refuse(wordsOf(error));
    }
  }
}
