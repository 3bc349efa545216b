/**
 * The suite's entry in the extension host: VS Code calls `run`. The test files are bundled in beside this one. Each
 * outcome leaves the host as one line on its console, which tests/host/run.ts reads.
 */

import { MARK, type Message } from "./host.ts";
import { suite } from "./suite.ts";

/** Part of a test's name, to run only those that have it; set when the suite is bundled. */
declare const ONLY: string;

export async function run(): Promise<void> {
  const say = (message: Message) => console.log(MARK + JSON.stringify(message));
  let failed = 0;
  say({ begin: { tests: suite.count(ONLY) } });
  await suite.run(
    undefined,
    (outcome) => {
      if (outcome.failure) failed++;
      say({ outcome });
    },
    { only: ONLY },
  );
  if (failed > 0) throw new Error(`${failed} failed`);
}
