import { type Seasonal, seasonal } from "./notes/notes.ts";
import { Stream } from "./random.ts";

/**
 * What the keeper says in words. Long sentences are said once in the year; short remarks may come again.
 */
const LONG_WORDS = 6;

export class Prose {
  readonly #random = new Stream("prose");
  readonly #decks = new Map<string, Seasonal[]>();
  readonly #said = new Set<string>();

  /** A sentence nobody has read yet, from the cards under this name that fit the day; undefined when there is none. */
  next(cards: string, day: number): string | undefined {
    const deck = this.#deck(cards);
    for (const [place, card] of deck.entries()) {
      if (!fits(card, day)) continue;
      deck.splice(place, 1);
      return this.once(card.text);
    }
    return undefined;
  }

  /** A remark of a few words: any of them, again and again. */
  remark(stream: Stream, probability: number, remarks: readonly string[]): string | undefined {
    return stream.chance(probability) ? this.once(stream.pick(remarks)) : undefined;
  }

  /** The text, unless it is long and was said before. */
  once(text: string): string | undefined {
    if (text.split(" ").length <= LONG_WORDS) return text;
    if (this.#said.has(text)) return undefined;
    this.#said.add(text);
    return text;
  }

  #deck(cards: string): Seasonal[] {
    const known = this.#decks.get(cards);
    if (known !== undefined) return known;
    const deck = this.#random.shuffled(seasonal(cards));
    this.#decks.set(cards, deck);
    return deck;
  }
}

function fits({ from, until, months }: Seasonal, day: number): boolean {
  const iso = new Date(day * 86_400_000).toISOString().slice(0, 10);
  if (from !== undefined && iso < from) return false;
  if (until !== undefined && iso > until) return false;
  return months === undefined || months.includes(Number(iso.slice(5, 7)));
}
