import { placeOfSlot } from "../book/entry.ts";
import type { Block } from "../book/source.ts";
import type { Station } from "../book/stations.ts";
import type { Moment, Observer } from "../room/observer.ts";
import type { Why } from "../room/why.ts";
import type { Code } from "./codes.ts";
import type { Finding, Fix, Severity } from "./finding.ts";

/** A finding at a row, before its place is looked up and its words are made: most are never shown. */
export interface RowFinding {
  readonly code: Code;
  readonly block: Block;
  /** The number by which the row is referred to. */
  readonly row: number;
  /** The slots of the entry to mark, the first that is filled; none for the whole entry. */
  readonly slots: readonly string[];
  readonly severity: () => Severity;
  readonly message: () => string;
  readonly related?: () => Finding["related"];
  readonly fixes?: (place: { start: number; end: number }) => readonly Fix[];
  readonly why?: () => Why | undefined;
  readonly about?: Station;
}

/** Gathers the findings of one ledger; each check family listens through it. */
export class FindingObserver implements Observer {
  readonly found: RowFinding[] = [];
  private readonly listeners: readonly Observer[];

  /** @param families make listeners that add what they find */
  constructor(families: readonly ((add: (finding: RowFinding) => void) => Observer)[]) {
    const add = (finding: RowFinding): void => {
      this.found.push(finding);
    };
    this.listeners = families.map((family) => family(add));
    // One listener a kind of event is the usual case: it is called without a loop.
    for (const event of events) {
      const hearing = this.listeners.filter((listener) => listener[event] !== undefined);
      const only = hearing[0];
      if (only === undefined) continue;
      const hear =
        hearing.length === 1
          ? (at: Moment, ...rest: unknown[]) => (only[event] as (...all: unknown[]) => void)(at, ...rest)
          : (at: Moment, ...rest: unknown[]) => {
              for (const listener of hearing) (listener[event] as (...all: unknown[]) => void)(at, ...rest);
            };
      Object.assign(this, { [event]: hear });
    }
  }

  mark(): number {
    return this.found.length;
  }

  reset(mark: number): void {
    this.found.length = mark;
  }

  behind(mark: number): readonly RowFinding[] {
    return this.found.slice(mark);
  }

  addBehind(told: unknown, without: number): void {
    const found = told as readonly RowFinding[];
    for (let at = without; at < found.length; at++) this.found.push(found[at]!);
  }
}

const events = [
  "reading",
  "change",
  "topUp",
  "dose",
  "courseCut",
  "count",
  "leave",
  "enter",
  "duty",
] as const;

/** The finding itself; undefined if its row is gone. */
export function settleFinding(found: RowFinding): Finding | undefined {
  const { block, row, code } = found;
  const place = placeOfSlot(block, row, ...found.slots);
  if (place.end === 0) return undefined;
  return {
    code,
    severity: found.severity(),
    block,
    start: place.start,
    end: place.end,
    message: found.message(),
    ...(found.about === undefined ? {} : { about: found.about }),
    // Looked up when they are asked for: of a long list only a few are.
    get fixes() {
      return found.fixes?.(place) ?? [];
    },
    get related() {
      return found.related?.() ?? [];
    },
    get why() {
      return found.why?.();
    },
  };
}
