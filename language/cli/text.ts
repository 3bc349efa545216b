/** Text as it is laid out on a terminal: how wide it is, where it wraps, and nothing in it that a terminal would obey. */

/** Columns a text takes. Wide East Asian letters and pictures take two, marks that sit on a letter none. */
export function widthOf(text: string): number {
  if (/^[\x20-\x7e]*$/.test(text)) return text.length;
  let width = 0;
  for (const letter of text) width += letterWidth(letter);
  return width;
}

function letterWidth(letter: string): number {
  if (/^[\p{M}\p{Cf}]$/u.test(letter)) return 0;
  return wide.test(letter) ? 2 : 1;
}

const wide =
  /^[\p{Emoji_Presentation}\p{Script=Han}\p{Script=Hangul}\p{Script=Hiragana}\p{Script=Katakana}\u3000-\u303e\uff01-\uff60\uffe0-\uffe6]$/u;

/** A text with spaces after it, or before it, to a width. */
export function padEnd(text: string, width: number): string {
  return text + " ".repeat(Math.max(0, width - widthOf(text)));
}

export function padStart(text: string, width: number): string {
  return " ".repeat(Math.max(0, width - widthOf(text))) + text;
}

/** A text cut to a width, with a mark where something is missing. */
export function cut(text: string, width: number, mark = "…"): string {
  if (widthOf(text) <= width) return text;
  let kept = "";
  let room = width - widthOf(mark);
  for (const letter of text) {
    room -= letterWidth(letter);
    if (room < 0) break;
    kept += letter;
  }
  return width < widthOf(mark) ? "" : kept + mark;
}

/**
 * The lines of a text at a width: broken at spaces, and inside a word only where it alone is wider than a line.
 * @param rest what stands before every line but the first
 */
export function wrap(text: string, width: number, first = "", rest = first): string[] {
  const lines: string[] = [];
  let line = first;
  let isEmpty = true;
  const next = (): void => {
    lines.push(line.trimEnd());
    line = rest;
    isEmpty = true;
  };
  for (const word of text.split(" ")) {
    let left = word;
    if (!isEmpty && widthOf(line) + 1 + widthOf(left) > width) next();
    while (widthOf(line) + widthOf(left) + (isEmpty ? 0 : 1) > width && widthOf(left) > 1) {
      const room = Math.max(1, width - widthOf(line));
      const part = cut(left, room, "");
      if (part === "") break;
      line += part;
      left = left.slice(part.length);
      next();
    }
    line += (isEmpty ? "" : " ") + left;
    isEmpty = false;
  }
  lines.push(line.trimEnd());
  return lines;
}

// Control characters, and those that turn the direction of what follows: a log must not be able to write over the terminal. The two
// that join letters are part of some scripts.
const commands = /(?![\u200c\u200d])[\p{Cc}\p{Cf}\u2028\u2029]/gu;

/** A text without anything that a terminal obeys: what it would is written out. */
export function plain(text: string): string {
  return text.replace(commands, (letter) => {
    if (letter === "\n") return "\\n";
    if (letter === "\r") return "\\r";
    if (letter === "\t") return "\\t";
    return `\\u${(letter.codePointAt(0) ?? 0).toString(16).padStart(4, "0")}`;
  });
}

/** The same for a line of a log, letter for letter, so that marks below it stay where they are. */
export function plainLine(text: string): string {
  return text.replace(commands, (letter) => (letter === "\t" ? " " : "�".repeat(letter.length)));
}

/** `1 tank`, `24 tanks`, `6,044 entries`. */
export function plural(count: number, one: string, many = `${one}s`): string {
  return `${String(count).replace(/\B(?=(\d{3})+$)/g, ",")} ${count === 1 ? one : many}`;
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}
