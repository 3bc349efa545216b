/**
 * A second reader of the sample's own lines, by regular expressions: it knows nothing of the tool's grammar, so that the two can
 * be held against each other. It reads what the sample writes and no more.
 */
export interface Line {
  readonly file: string;
  readonly date: string;
  readonly target: string;
  readonly kind: string;
  /** Arguments without the closing text. */
  readonly words: string;
  readonly text: string | undefined;
  /** The line as it stands. */
  readonly whole: string;
}

const entry = /^ {2}(?:\d\d:\d\d )?(@?[\w-]+) +([a-z-]+)(.*)$/;
const closing = / "((?:[^"\\]|\\.)*)"$/;

/** Entry lines and the rows of sheets (as counts or tests of one tank), in the order of the log. */
export function readLog(files: ReadonlyMap<string, string>): Line[] {
  const lines: Line[] = [];
  for (const [file, content] of [...files].sort(([a], [b]) => (a < b ? -1 : 1))) {
    if (!/^\d{4}-\d{2}\.tank$/.test(file)) continue;
    let date = "";
    let heads: string[] = [];
    for (const whole of content.split("\n")) {
      if (/^\d{4}-/.test(whole)) date = whole.slice(0, 10);
      else if (/^ {2}sheet /.test(whole))
        heads = whole
          .trim()
          .split(/ {2,}|(?<=^sheet) +/)
          .slice(1);
      else if (/^ {4}\S/.test(whole)) lines.push(row(file, date, heads, whole));
      else if (whole.startsWith("  ")) lines.push(line(file, date, whole));
      else if (whole !== "") throw new Error(`${file}: neither day nor entry: ${whole}`);
    }
  }
  return lines;
}

function line(file: string, date: string, whole: string): Line {
  const match = entry.exec(whole);
  if (match === null) throw new Error(`${file} ${date}: no entry: ${whole}`);
  const rest = match[3]!;
  const text = closing.exec(rest)?.[1];
  return {
    file,
    date,
    target: match[1]!,
    kind: match[2]!,
    words: rest.replace(closing, "").trim(),
    text,
    whole,
  };
}

function row(file: string, date: string, heads: readonly string[], whole: string): Line {
  const text = closing.exec(whole)?.[1];
  const [target, ...cells] = whole.replace(closing, "").trim().split(/ {2,}/);
  if (cells.length !== heads.length) throw new Error(`${file} ${date}: ${heads.length} heads over ${whole}`);
  const pairs = heads.flatMap((head, at) => (cells[at] === "-" ? [] : [`${head} ${cells[at]}`]));
  const kind = heads.includes("temperature") ? "test" : "count";
  return { file, date, target: target!, kind, words: pairs.join(", "), text, whole };
}

/** `cherry ~20, horn 4` as names with what stands behind them. */
export function items(words: string): [name: string, rest: string][] {
  return words.split(", ").map((item) => {
    const space = item.indexOf(" ");
    return [item.slice(0, space), item.slice(space + 1)];
  });
}

/** The number of `~20` or `3.5.0`. */
export function animals(written: string): number {
  return written
    .replace("~", "")
    .split(".")
    .reduce((sum, part) => sum + Number.parseInt(part, 10), 0);
}
