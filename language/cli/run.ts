import { didYouMean, nearest } from "../quantity/nearest.ts";
import type { Call, Command } from "./command.ts";
import { commands } from "./commands.ts";
import { helpOf, overview } from "./help.ts";
import { asOfDay, readWords } from "./options.ts";
import { type ColourChoice, terminalOf } from "./terminal.ts";
import { plain } from "./text.ts";
import { version } from "./version.ts";
import { Status, Trouble, type World } from "./world.ts";

/** Runs what the words of a call ask for. Never throws for what a reader can mend. */
export async function run(args: readonly string[], world: World): Promise<Status> {
  try {
    return await runWords(args, world);
  } catch (error) {
    if (!(error instanceof Trouble)) throw error;
    world.err.write(`standpipe: ${plain(error.message)}\n`);
    return Status.couldNotRun;
  }
}

async function runWords(args: readonly string[], world: World): Promise<Status> {
  const [first, ...rest] = args;
  if (first === undefined || first === "--help" || first === "-h") return printOverview(world);
  if (first === "--version" || first === "-v") {
    world.out.write(`${version}\n`);
    return Status.clean;
  }
  if (first === "help") {
    if (rest[0] === undefined) return printOverview(world);
    world.out.write(helpOf(commandOf(rest[0]), terminalOf(world, "auto", false)));
    return Status.clean;
  }
  const command = commandOf(first);
  const { words, values } = readWords(rest, command);
  const terminal = terminalOf(world, (values.get("color") ?? "auto") as ColourChoice, values.has("ascii"));
  if (values.has("help")) {
    world.out.write(helpOf(command, terminal));
    return Status.clean;
  }
  const call: Call = {
    words,
    has: (option) => values.has(option),
    value: (option) => values.get(option),
    asOf: asOfDay(values.get("as-of")),
    terminal,
    world,
  };
  return command.run(call);
}

function printOverview(world: World): Status {
  world.out.write(overview(commands, terminalOf(world, "auto", false)));
  return Status.clean;
}

function commandOf(word: string): Command {
  const found = commands.find((command) => command.word === word);
  if (found !== undefined) return found;
  const words = commands.map((command) => command.word);
  const near = didYouMean(nearest(word, words));
  const what = word.startsWith("-")
    ? `a command comes first: ${words.join(", ")}`
    : `there is no command “${word}”${near === "" ? `; there are ${words.join(", ")}` : near}`;
  throw new Trouble(what);
}
