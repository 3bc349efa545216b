import type { Station } from "../book/stations.ts";
import type { Calculation } from "../calculations/calculation.ts";
import { type Answer, type Answered, evaluate, type Problem } from "../calculations/evaluate.ts";
import { measured } from "../calculations/page.ts";
import { calculations } from "../calculations/registry.ts";
import { stationAt } from "./card-at.ts";
import { literal } from "./completing/offer.ts";
import { prefilled } from "./prefill.ts";
import type { View } from "./view.ts";

/** A calculation in the editor: filled from a tank, worked out, and what of it may be written into the log. */

/** A calculation for a list to choose from. */
export interface CalculationItem {
  readonly name: string;
  readonly title: string;
  readonly group: string;
  readonly answers: string;
}

export function calculationItems(): CalculationItem[] {
  return calculations.map(({ name, title, group, answers }) => ({ name, title, group, answers }));
}

/** JSON knows no NaN: where there is no number it is null. */
export interface WorkedOut {
  readonly title: string;
  readonly answers: string;
  /** The tank or system that filled inputs; empty if none did. */
  readonly tank: string;
  readonly inputs: readonly WorkInput[];
  readonly problems: readonly Problem[];
  readonly figures: readonly { readonly name: string; readonly title: string; readonly text: string }[];
  /** Why there are no figures; empty where there are. */
  readonly outside: string;
  readonly caution: string;
  /** What may be written into today, as snippets for `dayRequest`: a note of the result, and the entry that follows. */
  readonly lines: readonly {
    readonly is: "note" | "entry";
    readonly shown: string;
    readonly snippet: string;
  }[];
}

export interface WorkInput {
  readonly name: string;
  readonly title: string;
  /** In what it is measured. */
  readonly measured: string;
  /** What it may be, where there are only some words. */
  readonly choices: readonly string[];
  /** As it stands for the calculation: typed, filled or taken; empty where there is none. */
  readonly text: string;
  /** Where that is from: `test of 3 March`; empty where it was typed. */
  readonly from: string;
  readonly isNeeded: boolean;
}

/** Where a calculation is asked for. */
export interface WorkPlace {
  readonly view: View;
  readonly offset: number | undefined;
  readonly tank: string | undefined;
}

/** @param given what was typed; an empty text is nothing */
export function workOut(
  of: Calculation,
  given: Readonly<Record<string, string>>,
  place: WorkPlace | undefined,
): WorkedOut {
  const station = place === undefined ? undefined : stationOf(place);
  const view = place?.view;
  const fills =
    station === undefined || view === undefined ? {} : prefilled(view.checked, station, of, view.worldDay);
  const typed = Object.fromEntries(Object.entries(given).filter(([, text]) => text.trim() !== ""));
  const filled = Object.fromEntries(Object.entries(fills).map(([name, { text }]) => [name, text]));
  const answer = evaluate(of, { ...filled, ...typed }, view?.checked.book.units.declared);
  const inputs = Object.entries(of.inputs).map(([name, input]): WorkInput => {
    const text = typed[name] ?? filled[name] ?? input.otherwise ?? "";
    const from =
      typed[name] !== undefined ? "" : (fills[name]?.from ?? (text === "" ? "" : "where nothing is given"));
    return {
      name,
      title: input.title,
      measured: measured(input),
      choices: input.is === "choice" ? input.choices : [],
      text,
      from,
      isNeeded: input.otherwise === undefined && input.optional !== true,
    };
  });
  return {
    title: of.title,
    answers: of.answers,
    tank: station?.name ?? "",
    inputs,
    problems: answer.problems,
    figures: answer.figures.map(({ name, title, text }) => ({ name, title, text })),
    outside: answer.outside ?? "",
    caution: of.caution ?? "",
    lines: view === undefined ? [] : linesOf(station, of, answer),
  };
}

/** The station that fills the inputs: the one that is named, else the one at the place, of a gear the water it serves. */
function stationOf({ view, offset, tank }: WorkPlace): Station | undefined {
  const { stations } = view.checked.book;
  const found =
    tank === undefined
      ? offset === undefined
        ? undefined
        : stationAt(view, offset)
      : stations.find(({ name }) => name === tank);
  const served =
    found?.kind === "gear" && "on" in found ? stations.find(({ name }) => name === found.on) : found;
  return served?.kind === "tank" || served?.kind === "system" ? served : undefined;
}

/** A note goes to the room where no tank is meant; an entry that follows needs its tank. */
function linesOf(station: Station | undefined, of: Calculation, answer: Answer): WorkedOut["lines"] {
  const { figures, inputs, entry, problems, outside } = answer;
  if (problems.length > 0 || outside !== undefined) return [];
  const shown = figures.filter(({ outside: reason }) => reason === undefined);
  const said = (each: Pick<Answered, "title" | "text">): string => `${each.title} ${each.text}`;
  const note = `${of.title}: ${shown.map(said).join(", ")}; from ${inputs.map(said).join(", ")}`;
  const quoted = note.replaceAll("\\", "\\\\").replaceAll('"', '\\"');
  const line = (is: "note" | "entry", text: string) => ({ is, shown: text, snippet: literal(text) });
  return [
    ...(entry === undefined || station === undefined ? [] : [line("entry", `${station.name} ${entry}`)]),
    line("note", `${station?.name ?? "room"} note "${quoted}"`),
  ];
}
