import { dayOf } from "../book/dates.ts";
import { run } from "./run.ts";
import { Status, type Stream, type World } from "./world.ts";

/** The terminal command: `node dist/standpipe.mjs COMMAND`. */

// A reader that has seen enough, as `head` does, is no error.
for (const stream of [process.stdout, process.stderr]) {
  stream.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code === "EPIPE") process.exit(process.exitCode ?? Status.clean);
    throw error;
  });
}

const streamOf = (stream: NodeJS.WriteStream): Stream => ({
  isTTY: stream.isTTY === true,
  columns: stream.columns,
  write: (text) => void stream.write(text),
});

async function input(): Promise<Uint8Array> {
  const chunks: Buffer[] = [];
  for await (const chunk of process.stdin) chunks.push(chunk as Buffer);
  return Buffer.concat(chunks);
}

/** The day on the reader's own calendar. */
function localDay(now: Date): number {
  const two = (number: number): string => String(number).padStart(2, "0");
  return dayOf(`${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`);
}

const world: World = {
  cwd: process.cwd(),
  env: process.env,
  day: localDay(new Date()),
  ...(process.argv[1] === undefined ? {} : { self: [process.execPath, process.argv[1]] as const }),
  out: streamOf(process.stdout),
  err: streamOf(process.stderr),
  input,
};

try {
  process.exitCode = await run(process.argv.slice(2), world);
} catch (error) {
  // A fault of ours: the trace is what a report of it needs.
  process.stderr.write(
    `standpipe: a fault in the tool itself; please report it\n${(error as Error).stack}\n`,
  );
  process.exitCode = Status.couldNotRun;
}
