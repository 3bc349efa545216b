import type { LineFact, LogLine } from "../log-lines.ts";

/**
 * One line that both sides changed, put together from its parts: two readings of one test, or the time and the amount, may each be put right
 * on a side of its own. Undefined where both changed the same.
 */

/** The text that comes of three versions of a line. @param base undefined for a line that both added */
export function mergeLine(base: LogLine | undefined, ours: LogLine, theirs: LogLine): string | undefined {
  if (ours.text === theirs.text || theirs.text === base?.text) return ours.text;
  if (ours.text === base?.text) return theirs.text;
  const said = saidOf(ours);
  if (said === saidOf(theirs)) return ours.text;
  // White space alone is no change of what is said.
  if (base !== undefined && said === saidOf(base)) return theirs.text;
  if (base !== undefined && saidOf(theirs) === saidOf(base)) return ours.text;
  if (ours.kind !== theirs.kind || (base !== undefined && base.kind !== ours.kind)) return undefined;
  if (!hasParts(ours) || !hasParts(theirs) || (base !== undefined && !hasParts(base))) return undefined;
  return new PartMerge(base, ours, theirs).run();
}

/** The heads of a round as they are written in ours, with the time, the text and the comment that come of three versions. */
export function mergeParts(base: LogLine | undefined, ours: LogLine, theirs: LogLine): string | undefined {
  return new PartMerge(base, ours, theirs).run();
}

/** All a line says, its comment included. */
export function saidOf(line: LogLine): string {
  return line.kind === "comment" || line.kind === "blank"
    ? line.content
    : `${line.time} ${line.kind} ${line.content} ${line.comment}`;
}

/** Whether the parts of a line are all that it says: not so of the heads of columns, and of a head of a block that says more than it may. */
function hasParts({ kind, facts, note, content }: LogLine): boolean {
  if (kind === "entry" || kind === "row") return true;
  if (kind === "property") return facts.length > 0;
  if (kind !== "head") return false;
  return (
    facts.length > 0 ||
    /^(?:[\d-]{10}|room|[a-z]+ \S+)$/.test(content.slice(0, content.length - note.length).trim())
  );
}

interface Edit {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** Writes what theirs changed into the text of ours. */
class PartMerge {
  private readonly base: LogLine | undefined;
  private readonly ours: LogLine;
  private readonly theirs: LogLine;
  private readonly edits: Edit[] = [];
  private isBroken = false;

  constructor(base: LogLine | undefined, ours: LogLine, theirs: LogLine) {
    this.base = base;
    this.ours = ours;
    this.theirs = theirs;
  }

  run(): string | undefined {
    for (const about of ["station", "word"]) this.one(about);
    this.time();
    this.list();
    this.note();
    this.comment();
    if (this.isBroken) return undefined;
    let { text } = this.ours;
    // From the end on; of what goes to one place what comes last goes first.
    for (const { start, end, text: written } of this.edits
      .reverse()
      .sort((a, b) => b.start - a.start || b.end - a.end))
      text = text.slice(0, start) + written + text.slice(end);
    return text;
  }

  /** The values of a part in the three versions, undefined where it is missing, and which of the sides to take. */
  private choose(base: string | undefined, ours: string | undefined, theirs: string | undefined): boolean {
    if (ours === theirs || theirs === base) return false;
    if (ours !== base) this.isBroken = true;
    return true;
  }

  private one(about: string): void {
    const [base, ours, theirs] = this.partsOf(about);
    if (!this.choose(base?.value, ours?.value, theirs?.value)) return;
    if (ours === undefined || theirs === undefined) this.isBroken = true;
    else this.replace(ours, this.slice(theirs));
  }

  private time(): void {
    const [base, ours, theirs] = this.partsOf("time");
    if (!this.choose(base?.value, ours?.value, theirs?.value)) return;
    const first = this.ours.text.search(/\S/);
    if (ours !== undefined && theirs !== undefined) this.replace(ours, this.slice(theirs));
    else if (theirs !== undefined) this.edit(first, first, `${this.slice(theirs)} `);
    else {
      const behind = this.ours.text.slice(first).search(/\s/);
      const rest = this.ours.text.slice(first + behind).search(/\S/);
      this.edit(first, first + behind + rest, "");
    }
  }

  private list(): void {
    const [base, ours, theirs] = [this.old(), this.ours, this.theirs].map((line) => factsOf(line));
    if (base === undefined || ours === undefined || theirs === undefined) {
      // A thing that is named twice on a line cannot be told from the other.
      if (sameFacts(this.ours, this.theirs)) return;
      if (this.base !== undefined && sameFacts(this.theirs, this.base)) return;
      this.isBroken = true;
      return;
    }
    const hasList = !/;/.test(this.ours.text) && !/;/.test(this.theirs.text) && this.ours.kind !== "row";
    let hasRemoved = false;
    for (const [about, was] of base) {
      const [own, other] = [ours.get(about), theirs.get(about)];
      if (!this.choose(was.value, own?.value, other?.value)) continue;
      if (own === undefined) this.isBroken = true;
      else if (other !== undefined) this.replaceCell(own, this.slice(other));
      else if (hasList && ours.size > 1 && !hasRemoved) {
        this.remove(own);
        hasRemoved = true;
      } else this.isBroken = true;
    }
    for (const [about, other] of theirs) {
      if (base.has(about)) continue;
      const own = ours.get(about);
      if (own !== undefined) {
        if (own.value !== other.value) this.isBroken = true;
      } else if (hasList && about !== "" && ours.size > 0) this.append(this.slice(other));
      else this.isBroken = true;
    }
  }

  /** Of a row that both added nothing was measured before. */
  private old(): LogLine | undefined {
    if (this.base !== undefined || this.ours.kind !== "row") return this.base;
    return { ...this.ours, facts: this.ours.facts.map((fact) => ({ ...fact, value: "-" })) };
  }

  /** Behind the last of the list. */
  private append(written: string): void {
    const last = this.ours.facts.at(-1)!;
    const at = last.end - this.ours.start;
    const before = this.edits.findIndex(({ start, end }) => start === at && end === at);
    const text = `, ${written}`;
    if (before < 0) this.edit(at, at, text);
    else this.edits[before] = { start: at, end: at, text: this.edits[before]!.text + text };
  }

  /** With the comma before it, or of the first that behind it. */
  private remove(fact: LineFact): void {
    const at = this.ours.facts.indexOf(fact);
    const { facts } = this.ours;
    const from = at === 0 ? fact.start : facts[at - 1]!.end;
    const to = at === 0 ? facts[1]!.start : fact.end;
    this.edit(from - this.ours.start, to - this.ours.start, "");
  }

  private note(): void {
    const [base, ours, theirs] = this.partsOf("note");
    if (!this.choose(base?.value, ours?.value, theirs?.value)) return;
    if (ours !== undefined && theirs !== undefined) this.replace(ours, this.slice(theirs));
    else if (ours !== undefined) {
      const end = ours.end - this.ours.start;
      const before = this.ours.text.slice(0, ours.start - this.ours.start).trimEnd().length;
      this.edit(before, end, "");
    } else if (theirs !== undefined) {
      const said = this.ours.comment === "" ? this.ours.text : this.beforeComment();
      const at = said.trimEnd().length;
      this.edit(at, at, ` ${this.slice(theirs)}`);
    }
  }

  private comment(): void {
    const [base, ours, theirs] = [this.base?.comment ?? "", this.ours.comment, this.theirs.comment];
    if (!this.choose(base, ours, theirs)) return;
    const at = this.beforeComment().length;
    const end = this.ours.text.length;
    if (theirs === "") this.edit(this.beforeComment().trimEnd().length, end, "");
    else this.edit(at, end, ours === "" ? `  ${theirs}` : theirs);
  }

  private beforeComment(): string {
    const { text, comment } = this.ours;
    return comment === "" ? text.trimEnd() : text.slice(0, text.lastIndexOf(comment));
  }

  private partsOf(about: string): [LineFact | undefined, LineFact | undefined, LineFact | undefined] {
    const find = (line: LogLine | undefined) => line?.parts.find((part) => part.about === about);
    return [find(this.base), find(this.ours), find(this.theirs)];
  }

  private slice({ start, end }: LineFact): string {
    return this.theirs.text.slice(start - this.theirs.start, end - this.theirs.start);
  }

  private replace({ start, end }: LineFact, text: string): void {
    this.edit(start - this.ours.start, end - this.ours.start, text);
  }

  /** What stands behind it in a row stays in its column, where there is room. */
  private replaceCell(fact: LineFact, text: string): void {
    const end = fact.end - this.ours.start;
    const isLast = this.ours.facts.at(-1) === fact;
    if (this.ours.kind !== "row" || isLast) {
      this.replace(fact, text);
      return;
    }
    const blanks = /^ */.exec(this.ours.text.slice(end))![0].length;
    const more = text.length - (fact.end - fact.start);
    const eaten = Math.max(0, Math.min(more, blanks - 2));
    this.edit(fact.start - this.ours.start, end + eaten, text.padEnd(fact.end - fact.start));
  }

  private edit(start: number, end: number, text: string): void {
    this.edits.push({ start, end, text });
  }
}

/** By what they are about; undefined if two are about the same. */
function factsOf(line: LogLine | undefined): Map<string, LineFact> | undefined {
  const found = new Map<string, LineFact>();
  for (const fact of line?.facts ?? []) {
    if (found.has(fact.about)) return undefined;
    found.set(fact.about, fact);
  }
  return found;
}

function sameFacts(a: LogLine, b: LogLine): boolean {
  const said = (line: LogLine): string => line.facts.map(({ about, value }) => `${about} ${value}`).join(",");
  return said(a) === said(b);
}
