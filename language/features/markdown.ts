/**
 * Markdown for hovers and tooltips. What comes from a log is text and nothing else: no link, no picture, no HTML, no heading can be
 * made with it, and it cannot reach beyond its line.
 */

/**
 * Text as it is, for the running text of Markdown. Every punctuation mark of ASCII is escaped, as CommonMark 0.31 (section 2.4)
 * allows: marks of emphasis, brackets of links, angle brackets of HTML, the dots and colons of bare addresses alike. Line ends become
 * spaces; control characters and those that turn the direction of writing are left out.
 */
export function plain(text: string): string {
  return tamed(text).replace(/[!-/:-@[-`{-~]/g, "\\$&");
}

/** Text in the letters of code: for lines of a log. */
export function code(text: string): string {
  const inside = tamed(text);
  if (inside === "") return "";
  const longest = Math.max(0, ...[...inside.matchAll(/`+/g)].map(([run]) => run.length));
  const fence = "`".repeat(longest + 1);
  const pad = inside.startsWith("`") || inside.endsWith("`") ? " " : "";
  return `${fence}${pad}${inside}${pad}${fence}`;
}

/** A sentence of a declaration (`book/`): words of the format stand in backticks there, and nothing else is markup. */
export function declared(doc: string): string {
  return doc
    .split("`")
    .map((part, at) => (at % 2 === 1 ? code(part) : part.replace(/\S(?:[\s\S]*\S)?/, plain)))
    .join("");
}

export const bold = (text: string): string => (text.trim() === "" ? "" : `**${plain(text)}**`);

/** Small print; the text is escaped. */
export const emphasis = (text: string): string => (text.trim() === "" ? "" : `*${plain(text)}*`);

/** A link to an address that this program made. */
export function link(text: string, address: string): string {
  return `[${plain(text)}](${address.replace(/[\s()<>\\]/g, (sign) => `%${hex(sign)}`)})`;
}

/** A picture from an SVG text; `alt` says in words what it shows. */
export function picture(svg: string, alt: string): string {
  const bytes = new TextEncoder().encode(svg);
  let binary = "";
  for (const byte of bytes) binary += String.fromCharCode(byte);
  return `![${plain(alt)}](data:image/svg+xml;base64,${btoa(binary)})`;
}

/** Paragraphs, one below the other; empty ones are left out. */
export function paragraphs(...parts: readonly string[]): string {
  return parts.filter((part) => part !== "").join("\n\n");
}

export function list(items: readonly string[], depth = 0): string {
  return items.map((item) => `${"    ".repeat(depth)}- ${item}`).join("\n");
}

/** One line, without what cannot be seen. */
function tamed(text: string): string {
  return text
    .replace(/\s+/g, " ")
    .replace(/[\p{Cc}\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu, "")
    .trim();
}

const hex = (sign: string): string => sign.charCodeAt(0).toString(16).toUpperCase().padStart(2, "0");
