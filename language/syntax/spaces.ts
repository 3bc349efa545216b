/**
 * What parts the pieces of a line: the space bar, tabs, and the spaces that come along with text from web pages and telephones. In the
 * form of a character class.
 */
export const spaces = " \\t\\f\\v\\u00a0\\u2000-\\u200a\\u202f\\u205f\\u3000\\ufeff";

const isSpace = new RegExp(`[${spaces}]`);

/** Whether the character at an offset is a space or another that is not seen. */
export function isUnseen(text: string, offset: number): boolean {
  const code = text.charCodeAt(offset);
  return code <= 0x20 || (code >= 0xa0 && isSpace.test(text[offset]!));
}
