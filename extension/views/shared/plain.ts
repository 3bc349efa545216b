/**
 * Text of the log as it may be shown. A log is anybody's text: characters that turn the direction of what follows, that have no width
 * or no shape are shown by their number, so that no line can look like another.
 */

/** A stretch that is shown as it is, or one character that is shown by its number. */
export interface Stretch {
  readonly text: string;
  readonly isHidden: boolean;
}

/**
 * Controls (tab and line feed are spaces), soft hyphen, marks and embeddings of direction, separators, zero-width space, invisible
 * operators, byte order mark, tags, unpaired surrogates. The two joiners stay: scripts need them.
 */
const hidden =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for.
  /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u00ad\u061c\u180e\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/gu;

export function stretches(text: string): Stretch[] {
  const found: Stretch[] = [];
  let from = 0;
  for (const match of text.matchAll(hidden)) {
    if (match.index > from) found.push({ text: text.slice(from, match.index), isHidden: false });
    found.push({ text: codePoint(match[0]), isHidden: true });
    from = match.index + match[0].length;
  }
  if (from < text.length) found.push({ text: text.slice(from), isHidden: false });
  return found;
}

/** The same as one string, for names and titles that take no markup. */
export function plain(text: string): string {
  return stretches(text)
    .map((each) => (each.isHidden ? `[${each.text}]` : each.text))
    .join("");
}

function codePoint(character: string): string {
  return `U+${character.codePointAt(0)!.toString(16).toUpperCase().padStart(4, "0")}`;
}
