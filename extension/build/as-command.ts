/**
 * Runs a script's work. A failure is told in its own words, without a stack, and is exit status 1. The script ends with
 * what started it: `npm` passes a signal on to a shell only, and the shell to nobody.
 */
export async function runAsCommand(work: (flags: ReadonlySet<string>) => Promise<void>): Promise<void> {
  const parent = process.ppid;
  const watch = setInterval(() => {
    if (process.ppid !== parent) process.kill(process.pid, "SIGTERM");
  }, 300);
  watch.unref();
  try {
    await work(new Set(process.argv.slice(2)));
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    process.exit(1);
  }
}
