import type { Desk } from "./desk.ts";
import { type Completed, completedShape } from "./messages.ts";

/** So long a key rests before offers are asked for. */
const restMs = 60;
const mostOffers = 40;

/** Offers for an input: those of the text at the place that the cell has there. */
export class Completing {
  private readonly desk: Desk;
  private readonly input: HTMLInputElement;
  private readonly of: { readonly column: string; readonly row?: string; fresh?(): Record<string, string> };
  private resting: ReturnType<typeof setTimeout> | undefined;
  private turn = 0;

  constructor(
    desk: Desk,
    input: HTMLInputElement,
    of: { readonly column: string; readonly row?: string; fresh?(): Record<string, string> },
  ) {
    this.desk = desk;
    this.input = input;
    this.of = of;
    input.setAttribute("role", "combobox");
    input.setAttribute("aria-autocomplete", "list");
    input.setAttribute("aria-expanded", "false");
    input.addEventListener("input", () => this.soon());
    input.addEventListener("blur", () => this.stop());
  }

  soon(): void {
    clearTimeout(this.resting);
    this.resting = setTimeout(() => void this.ask(), restMs);
  }

  stop(): void {
    this.turn++;
    clearTimeout(this.resting);
    this.desk.offers.hide();
  }

  /** @returns whether the key was the list's */
  press(event: KeyboardEvent): boolean {
    const { offers } = this.desk;
    if (event.key === " " && event.ctrlKey) {
      void this.ask();
      return true;
    }
    if (!offers.isOpen) return false;
    if (event.key === "ArrowDown" || event.key === "ArrowUp") {
      offers.move(event.key === "ArrowDown" ? 1 : -1);
      return true;
    }
    if (event.key === "Escape") {
      this.stop();
      return true;
    }
    return (event.key === "Enter" || event.key === "Tab") && offers.accept();
  }

  private async ask(): Promise<void> {
    const { desk, input, of } = this;
    const turn = ++this.turn;
    const typed = input.value;
    const caret = input.selectionStart ?? typed.length;
    const { column, row } = of;
    try {
      const made = await desk.asking.ask(
        {
          is: "complete",
          face: desk.face,
          column,
          typed,
          caret,
          ...(row === undefined ? { fresh: of.fresh?.() ?? {} } : { row }),
        },
        completedShape,
      );
      if (turn !== this.turn || input.value !== typed || document.activeElement !== input) return;
      const offered = fitting(made, typed, caret);
      desk.offers.show(input, offered, (at) => this.put(offered[at]!));
    } catch {
      // Without offers one can type as well.
      desk.offers.hide();
    }
  }

  private put({ text, replace }: Completed): void {
    const { input } = this;
    const { value } = input;
    const start = Math.max(0, Math.min(replace.start, value.length));
    const end = Math.max(start, Math.min(replace.end, value.length));
    input.setRangeText(text, start, end, "end");
    input.focus();
  }
}

/** Those that go on with what stands before the caret; alone what is there already is no offer. */
function fitting(made: readonly Completed[], typed: string, caret: number): Completed[] {
  const found = made.filter(({ label, text, replace }) => {
    const begun = typed.slice(Math.max(0, replace.start), caret).toLowerCase();
    return label.toLowerCase().includes(begun) || text.toLowerCase().startsWith(begun);
  });
  const [only] = found;
  if (found.length === 1 && only!.text === typed.slice(Math.max(0, only!.replace.start), only!.replace.end))
    return [];
  return found.slice(0, mostOffers);
}
