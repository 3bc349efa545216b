/**
 * A test runner small enough to run everywhere the suite does: in the extension host on Node, in the one in a web
 * worker, and beside a browser. Names are sentences; a test that does not end is a failure, not a wait.
 */

export interface Outcome {
  readonly name: string;
  /** Absent when it passed. */
  readonly failure?: string;
  readonly durationMs: number;
}

interface Case<Fixture> {
  readonly name: string;
  readonly body: (fixture: Fixture) => unknown;
  readonly limitMs: number | undefined;
}

export interface RunOptions {
  /** Runs only tests with this in their name. */
  readonly only?: string;
  /** A test that takes longer has failed. */
  readonly limitMs?: number;
  /** Clears up after each test, however it went. */
  readonly after?: () => Promise<void>;
}

export class Suite<Fixture = void> {
  readonly #cases: Case<Fixture>[] = [];

  /** Adds a test; bound, so that it can be handed out as a plain function. @param limitMs for one that types a whole day */
  readonly test = (name: string, body: (fixture: Fixture) => unknown, limitMs?: number): void => {
    this.#cases.push({ name, body, limitMs });
  };

  /** How many tests have `only` in their name; all if it is empty. */
  count(only = ""): number {
    return this.#cases.filter(({ name }) => name.includes(only)).length;
  }

  /** Runs the tests one after another, in the order they were added; `report` hears of each as it ends. */
  async run(
    fixture: Fixture,
    report: (outcome: Outcome) => void,
    { only = "", limitMs = 60_000, after }: RunOptions = {},
  ): Promise<void> {
    for (const { name, body, limitMs: own = limitMs } of this.#cases) {
      if (!name.includes(only)) continue;
      const begun = Date.now();
      let timer: ReturnType<typeof setTimeout> | undefined;
      try {
        await Promise.race([
          (async () => body(fixture))(),
          new Promise((_, reject) => {
            timer = setTimeout(() => reject(new Error(`did not end within ${own / 1000} s`)), own);
          }),
        ]);
        report({ name, durationMs: Date.now() - begun });
      } catch (error) {
        report({ name, failure: words(error), durationMs: Date.now() - begun });
      } finally {
        clearTimeout(timer);
        await after?.();
      }
    }
  }
}

function words(error: unknown): string {
  return error instanceof Error ? (error.stack ?? error.message) : String(error);
}
