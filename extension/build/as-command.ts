/** Runs a script's work; a failure is told in its own words, without a stack, and is exit status 1. */
export async function runAsCommand(work: (flags: ReadonlySet<string>) => Promise<void>): Promise<void> {
  try {
    await work(new Set(process.argv.slice(2)));
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    process.exit(1);
  }
}
