import type { Terminal } from "./terminal.ts";
import type { Status, World } from "./world.ts";

/** An option of a command, as it is read and as it is explained. */
export interface Option {
  readonly name: string;
  readonly short?: string;
  /** What the help calls its value; absent for a flag. */
  readonly value?: string;
  /** It may be given more than once: its values are lines of one. */
  readonly isMany?: true;
  /** Its value may be empty, where a script has none. */
  readonly mayBeEmpty?: true;
  /** The only values there are. */
  readonly choices?: readonly string[];
  readonly doc: string;
}

/** A command: one file in `commands/`, listed in `commands.ts`. */
export interface Command {
  readonly word: string;
  /** Its arguments: `[DIR]`. */
  readonly takes: string;
  /** One line for the list of commands. */
  readonly summary: string;
  /** A few sentences for its own help. */
  readonly about: string;
  readonly options: readonly Option[];
  /** Whole lines with what they do. */
  readonly examples: readonly (readonly [line: string, does: string])[];
  run(call: Call): Status | Promise<Status>;
}

/** One call of a command. */
export interface Call {
  /** The arguments that are no options. */
  readonly words: readonly string[];
  has(option: string): boolean;
  /** The value of an option; undefined if it was not given. */
  value(option: string): string | undefined;
  /** The day that was asked for; NaN if none was. */
  readonly asOf: number;
  readonly terminal: Terminal;
  readonly world: World;
}

export const asOfOption: Option = {
  name: "as-of",
  value: "DATE",
  doc: "as if this were today: entries of later days do not count",
};
export const jsonOption: Option = { name: "json", doc: "as JSON, version 1 (its schema: explain --schema)" };
export const commonOptions: readonly Option[] = [
  { name: "color", value: "WHEN", choices: ["auto", "always", "never"], doc: "colours: auto, always, never" },
  { name: "ascii", doc: "no signs beyond ASCII in charts and lists" },
  { name: "help", short: "h", doc: "this help" },
];
