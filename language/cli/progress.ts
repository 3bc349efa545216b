import type { Stream } from "./world.ts";

/** Work shorter than this shows no bar. */
const patienceMs = 500;
const betweenMs = 80;
const barColumns = 24;

/** A bar on standard error while something takes long; nothing where that is no terminal. */
export class Progress {
  private readonly stream: Stream;
  private readonly isShown: boolean;
  private readonly clock: () => number;
  private readonly began: number;
  private last = 0;
  private isDrawn = false;

  /** @param clock in milliseconds */
  constructor(stream: Stream, isDumb = false, clock: () => number = () => performance.now()) {
    this.stream = stream;
    this.isShown = stream.isTTY && !isDumb;
    this.clock = clock;
    this.began = clock();
  }

  /** @param what `reading` */
  step(what: string, done: number, of: number): void {
    if (!this.isShown) return;
    const now = this.clock();
    if (now - this.began < patienceMs || (now - this.last < betweenMs && done < of)) return;
    this.last = now;
    this.isDrawn = true;
    const filled = of === 0 ? barColumns : Math.round((done / of) * barColumns);
    const bar = "#".repeat(filled) + ".".repeat(barColumns - filled);
    const text = `${bar} ${what} ${done} of ${of}`;
    this.stream.write(`\r\u001b[K${text.slice(0, (this.stream.columns || 80) - 1)}`);
  }

  /** Takes the bar away. */
  end(): void {
    if (this.isDrawn) this.stream.write("\r\u001b[K");
    this.isDrawn = false;
  }
}
