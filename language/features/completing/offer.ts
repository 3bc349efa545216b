import type { DefinitionWord } from "../../syntax/blocks.ts";
import type { Span } from "../view.ts";

/** What is offered at the cursor. */

export type CompletionSort =
  | DefinitionWord
  | "case"
  | "lot"
  | "order"
  | "parameter"
  /** A whole entry that is due, or is usual. */
  | "due"
  | "usual"
  | "kind"
  | "sheet"
  | "date"
  | "lead"
  | "word"
  | "unit"
  | "property";

/** What the documentation is made from when it is asked for: plain data, so that it goes over a wire and comes back. */
export type About =
  | { readonly is: "name"; readonly name: string }
  | { readonly is: "kind"; readonly word: string }
  | { readonly is: "definition"; readonly word: string }
  | { readonly is: "property"; readonly of: string; readonly word: string }
  | { readonly is: "parameter"; readonly name: string }
  | { readonly is: "due"; readonly day: number; readonly target: string; readonly words: string }
  | { readonly is: "text"; readonly text: string };

export interface Completion {
  readonly label: string;
  /** Beside the label. */
  readonly detail: string;
  readonly sort: CompletionSort;
  /** What is put in. In a snippet `${1:word}` are places to fill in, and `$`, `}` and `\` are escaped. */
  readonly insertText: string;
  readonly isSnippet: boolean;
  /** What is replaced: the word at the cursor, all of it, or up to the cursor only. */
  readonly replace: Span;
  readonly insert: Span;
  readonly filterText: string;
  readonly sortText: string;
  /** More is to be offered at once, as an argument follows. */
  readonly goesOn: boolean;
  readonly about: About | undefined;
}

export interface CompletionList {
  readonly items: readonly Completion[];
  /** More would fit: ask again when more is typed. */
  readonly isIncomplete: boolean;
}

export interface Offer {
  readonly label: string;
  readonly sort: CompletionSort;
  readonly detail?: string;
  /** The label, if nothing else is said. */
  readonly text?: string;
  readonly isSnippet?: boolean;
  readonly goesOn?: boolean;
  readonly about?: About;
  readonly filterText?: string;
}

/** So many at most, in the order in which they were offered. */
const mostOffered = 80;

/** Gathers what is offered, best first; what was offered already is not offered again. */
export class Offers {
  private readonly list: Offer[] = [];
  private readonly seen = new Set<string>();

  add(...offers: readonly Offer[]): void {
    for (const offer of offers) {
      if (this.seen.has(offer.label)) continue;
      this.seen.add(offer.label);
      this.list.push(offer);
    }
  }

  get isEmpty(): boolean {
    return this.list.length === 0;
  }

  /** @param partial what is typed of the word: what does not have its letters in order is left out before the list is cut */
  finish(insert: Span, replace: Span, partial: string): CompletionList {
    const wanted = partial.toLowerCase();
    const fitting = this.list.filter((offer) => hasLetters(offer.filterText ?? offer.label, wanted));
    const items = fitting.slice(0, mostOffered).map((offer, at) => ({
      label: offer.label,
      detail: offer.detail ?? "",
      sort: offer.sort,
      insertText: offer.text ?? offer.label,
      isSnippet: offer.isSnippet ?? false,
      replace,
      insert,
      filterText: offer.filterText ?? offer.label,
      sortText: String(at).padStart(4, "0"),
      goesOn: offer.goesOn ?? false,
      about: offer.about,
    }));
    return { items, isIncomplete: fitting.length > mostOffered };
  }
}

/** Whether a text has some letters in their order, as the editor filters. */
function hasLetters(text: string, letters: string): boolean {
  const lower = text.toLowerCase();
  let at = 0;
  for (const letter of letters) {
    at = lower.indexOf(letter, at) + 1;
    if (at === 0) return false;
  }
  return true;
}

/** A text within a snippet, as it stands. */
export const literal = (text: string): string => text.replace(/[\\$}]/g, "\\$&");
