import type { Cellar } from "../cellar.ts";
import { moved } from "../lots.ts";
import type { WaterName } from "../pantry.ts";
import { change } from "../routines/cleaning.ts";
import type { Entry, Item } from "../writing.ts";

/** Something that happens on one day of the year because the story wants it. */
export interface Scene {
  readonly on: string;
  readonly at: string;
  /** The keeper writes the time. */
  readonly timed?: boolean;
  /** The tank whose water is changed: the rotation leaves it out on this day and the days beside it. */
  readonly changes?: string;
  readonly perform: (cellar: Cellar, now: number) => readonly Item[];
}

/** A line with nothing behind it. */
export function says(on: string, at: string, target: string, words: string, text?: string): Scene {
  return { on, at, perform: () => [line(target, words, text)] };
}

export function notes(on: string, at: string, target: string, text: string): Scene {
  return says(on, at, target, "note", text);
}

/** A dose is written with its time. The remedy does nothing to the water of this simulation. */
export function doses(
  on: string,
  at: string,
  target: string,
  remedy: string,
  amount: string,
  text?: string,
): Scene {
  return { ...says(on, at, target, `dose ${remedy} ${amount}`, text), timed: true };
}

export function changes(
  on: string,
  at: string,
  target: string,
  words: string,
  source: WaterName = "tap",
  text?: string,
): Scene {
  return {
    on,
    at,
    changes: target,
    perform: (cellar, now) => {
      change(cellar, target, words, source, now);
      return [line(target, `change ${words}`, text)];
    },
  };
}

/** Moves so many, or all that are there. */
export function moves(
  on: string,
  at: string,
  species: string,
  animals: number | "all",
  from: string,
  to: string,
  text?: string,
  tool?: string,
): Scene {
  return {
    on,
    at,
    perform: ({ stock }) => {
      const number = animals === "all" ? stock.there(from, species) : animals;
      if (number === 0) return [];
      return moved(stock.move(species, number, from, to), species, from, to, text, tool);
    },
  };
}

export function line(target: string, words: string, text?: string): Entry {
  return { target, words, text };
}
