import { parseArgs } from "node:util";
import { dayOf } from "../book/dates.ts";
import { didYouMean, nearest } from "../quantity/nearest.ts";
import { type Command, commonOptions, type Option } from "./command.ts";
import { Trouble } from "./world.ts";

/** The words of a call, sorted into arguments, flags and values. */
export interface Words {
  readonly words: readonly string[];
  readonly values: ReadonlyMap<string, string>;
}

/** Reads what follows the word of a command. Throws `Trouble` for what the command does not know. */
export function readWords(args: readonly string[], command: Pick<Command, "word" | "options">): Words {
  const known = [...command.options, ...commonOptions];
  const { tokens } = parseArgs({
    args: [...args],
    options: Object.fromEntries(known.map((option) => [option.name, formOf(option)])),
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  const words: string[] = [];
  const values = new Map<string, string>();
  for (const token of tokens) {
    if (token.kind === "positional") words.push(token.value);
    if (token.kind !== "option") continue;
    const option = known.find(({ name }) => name === token.name);
    if (option === undefined) throw unknown(token.rawName, command.word, known);
    const value = readValue(option, token.value, token.inlineValue === true);
    const before = option.isMany === true ? values.get(option.name) : undefined;
    values.set(option.name, before === undefined ? value : `${before}\n${value}`);
  }
  return { words, values };
}

const formOf = ({ value, short }: Option) => ({
  type: value === undefined ? ("boolean" as const) : ("string" as const),
  ...(short === undefined ? {} : { short }),
});

function readValue(option: Option, value: string | undefined, isInline: boolean): string {
  const { name, choices } = option;
  if (option.value === undefined) {
    if (isInline) throw new Trouble(`--${name} takes no value`);
    return "";
  }
  if (value === "" && option.mayBeEmpty === true) return value;
  // What looks like the next option is no value, unless it was written with “=”.
  if (value === undefined || value === "" || (!isInline && value.startsWith("-") && value !== "-"))
    throw new Trouble(`--${name} needs a value: --${name} ${choices?.join("|") ?? option.value}`);
  if (choices !== undefined && !choices.includes(value)) {
    const near = didYouMean(nearest(value, choices));
    throw new Trouble(`--${name} takes ${choices.join(", ")}, not “${value}”${near}`);
  }
  return value;
}

function unknown(rawName: string, command: string, known: readonly Option[]): Trouble {
  const names = known.map(({ name }) => `--${name}`);
  const near = didYouMean(nearest(rawName, names));
  return new Trouble(
    `${command} has no option “${rawName}”${near === "" ? `; standpipe ${command} --help lists them` : near}`,
  );
}

/** The day that `--as-of` names; NaN where it is not given. */
export function asOfDay(text: string | undefined): number {
  if (text === undefined) return Number.NaN;
  const day = /^\d{4}-\d{2}-\d{2}$/.test(text) ? dayOf(text) : Number.NaN;
  if (Number.isNaN(day)) throw new Trouble(`“${text}” is no day; a day is written like 2026-03-01`);
  return day;
}
