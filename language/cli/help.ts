import { type Command, commonOptions, type Option } from "./command.ts";
import type { Terminal } from "./terminal.ts";
import { padEnd, wrap } from "./text.ts";

/** Longer lines than this are hard to read, however wide the terminal is. */
const mostColumns = 88;

const columnsOf = (terminal: Terminal): number => Math.min(terminal.columns ?? 80, mostColumns);

/** What there is. */
export function overview(commands: readonly Command[], terminal: Terminal): string {
  return [
    ...wrap("standpipe: the logbook of a fish room, in the terminal", columnsOf(terminal)),
    "",
    ...table(
      commands.map((each) => [`standpipe ${each.word} ${each.takes}`, each.summary] as const),
      terminal,
    ),
    "",
    ...wrap(
      "Without DIR the folder of the call. standpipe COMMAND --help says more, with examples; standpipe --version says which this is. " +
        "A command ends with 0 if all is well, 1 if it found errors, 2 if it could not do its work.",
      columnsOf(terminal),
    ),
    "",
  ].join("\n");
}

/** The help of one command. */
export function helpOf(command: Command, terminal: Terminal): string {
  const title = (text: string): string => terminal.paint("strong", text);
  return [
    ...wrap(`standpipe ${command.word} ${command.takes}`, columnsOf(terminal), "", "  ").map(title),
    "",
    ...wrap(command.about, columnsOf(terminal)),
    "",
    title("Options"),
    ...table(
      [...command.options, ...commonOptions].map((each) => [optionText(each), each.doc] as const),
      terminal,
    ),
    "",
    title("Examples"),
    ...command.examples.flatMap(([line, does]) => [
      `  ${line}`,
      ...wrap(does, columnsOf(terminal), "      ").map((each) => terminal.paint("faint", each)),
    ]),
    "",
  ].join("\n");
}

function optionText({ name, short, value }: Option): string {
  return `${short === undefined ? "" : `-${short}, `}--${name}${value === undefined ? "" : ` ${value}`}`;
}

/** Two columns; below each other where the terminal is narrow. */
function table(rows: readonly (readonly [left: string, right: string])[], terminal: Terminal): string[] {
  const columns = columnsOf(terminal);
  const widest = Math.max(...rows.map(([left]) => left.length)) + 4;
  const isNarrow = columns - widest < 30;
  return rows.flatMap(([left, right]) => {
    if (isNarrow) return [...wrap(left, columns, "  ", "    "), ...wrap(right, columns, "      ")];
    return wrap(right, columns, padEnd(`  ${left}`, widest), " ".repeat(widest));
  });
}
