import { h } from "../shared/dom.ts";
import { Completing } from "./completing.ts";
import type { Desk } from "./desk.ts";

/** What is done with the cursor when a cell is left. */
export type Leave = "stay" | "down" | "up" | "right" | "left";

/**
 * The input in a cell. It keeps its own undo until it is left: then what was typed becomes one edit of the text. Typed over, the arrows leave it;
 * opened with F2 they move in it.
 */
export class CellInput {
  private readonly desk: Desk;
  private open:
    | { readonly input: HTMLInputElement; readonly row: string; readonly close: () => void }
    | undefined;

  constructor(desk: Desk) {
    this.desk = desk;
  }

  get isOpen(): boolean {
    return this.open !== undefined;
  }

  /** @param typed what the cell is typed over with; undefined where it is edited */
  start(
    cell: HTMLElement,
    about: { row: string; column: string; title: string; text: string; was: string; isFigure: boolean },
    typed?: string,
  ): void {
    this.finish();
    const { desk } = this;
    const input = h("input", {
      type: "text",
      class: about.isFigure ? "figure" : "",
      spellcheck: "false",
      autocomplete: "off",
      "aria-label": about.title,
      "aria-describedby": "about",
    });
    input.value = typed ?? about.text;
    const completing = new Completing(desk, input, about);
    let isLeft = false;
    const leave = (move: Leave, isKept: boolean): void => {
      if (isLeft) return;
      isLeft = true;
      completing.stop();
      const { value } = input;
      this.open = undefined;
      const hadFocus = document.activeElement === input;
      input.remove();
      desk.changes.afterInput(about, isKept ? value : undefined, move, hadFocus);
    };
    this.open = { input, row: about.row, close: () => leave("stay", true) };
    input.addEventListener("keydown", (event) => {
      if (event.isComposing) {
        event.stopPropagation();
        return;
      }
      if (completing.press(event)) {
        event.preventDefault();
        event.stopPropagation();
        return;
      }
      const move = moveOf(event, typed !== undefined);
      if (event.key === "Escape") {
        event.preventDefault();
        event.stopPropagation();
        leave("stay", false);
      } else if (move !== undefined) {
        event.preventDefault();
        event.stopPropagation();
        leave(move, true);
      } else if (event.key === "F2") {
        event.preventDefault();
        event.stopPropagation();
        typed = undefined;
      } else if (isOwn(event)) event.stopPropagation();
    });
    for (const name of ["copy", "cut", "paste", "pointerdown", "dblclick"] as const)
      input.addEventListener(name, (event) => event.stopPropagation());
    input.addEventListener("blur", () => leave("stay", true));
    cell.replaceChildren(input);
    cell.classList.add("editing");
    input.focus({ preventScroll: true });
    input.setSelectionRange(input.value.length, input.value.length);
    if (typed !== undefined && typed !== "") completing.soon();
  }

  /** Takes what was typed, as if the cell were left. */
  finish(): void {
    this.open?.close();
  }
}

function moveOf(event: KeyboardEvent, isTypedOver: boolean): Leave | undefined {
  const { key, shiftKey, ctrlKey, metaKey, altKey } = event;
  if (ctrlKey || metaKey || altKey) return undefined;
  if (key === "Enter") return shiftKey ? "up" : "down";
  if (key === "Tab") return shiftKey ? "left" : "right";
  if (key === "ArrowDown") return "down";
  if (key === "ArrowUp") return "up";
  if (!isTypedOver || shiftKey) return undefined;
  return key === "ArrowLeft" ? "left" : key === "ArrowRight" ? "right" : undefined;
}

/** Keys that are the input's, and would be the editor's outside: its undo would reach into the text. */
function isOwn({ key, ctrlKey, metaKey, altKey }: KeyboardEvent): boolean {
  if (altKey) return false;
  if (!ctrlKey && !metaKey) return key.length === 1 || /^(?:Arrow|Home|End|Backspace|Delete)/.test(key);
  return /^(?:[zyacvxZY]|Arrow\w+|Home|End|Backspace|Delete)$/.test(key);
}
