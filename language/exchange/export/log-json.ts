import type { LogItem } from "./log-items.ts";

/** Items as JSON, one a line, part by part: an array, or without anything around them (NDJSON). */
export function* jsonOf(items: Iterable<LogItem>): Generator<string> {
  let before = "[\n";
  for (const item of items) {
    yield before + JSON.stringify(item);
    before = ",\n";
  }
  yield "\n]\n";
}

export function* ndjsonOf(items: Iterable<LogItem>): Generator<string> {
  for (const item of items) yield `${JSON.stringify(item)}\n`;
}

/** The items of a text in either form, not yet looked at, with their lines or places. Throws a `SyntaxError`, of NDJSON with the line. */
export function* parsedItems(text: string): Generator<{ readonly where: string; readonly item: unknown }> {
  const bare = text.replace(/^\uFEFF/, "");
  if (bare.trimStart().startsWith("[")) {
    for (const [at, item] of (JSON.parse(bare) as unknown[]).entries())
      yield { where: `item ${at + 1}`, item };
    return;
  }
  let line = 0;
  for (let start = 0; start < bare.length; ) {
    const found = bare.indexOf("\n", start);
    const end = found < 0 ? bare.length : found;
    line++;
    const part = bare.slice(start, end).trim();
    start = end + 1;
    if (part !== "") yield { where: `line ${line}`, item: parsed(part, line) };
  }
}

function parsed(part: string, line: number): unknown {
  try {
    return JSON.parse(part);
  } catch (error) {
    throw new SyntaxError(`line ${line}: ${error instanceof Error ? error.message : String(error)}`);
  }
}
