/**
 * What a spreadsheet would take for a formula (OWASP, CSV Injection: `=`, `+`, `-`, `@`, tab, CR, LF and the full-width forms of the first
 * four at the begin of a cell; and NUL, ASVS 1.2.10), also behind what a spreadsheet of another country may part cells by. A number is no
 * formula, be it in a column of texts: -0.5 stays -0.5. White space that parts no cells is looked at once, be the text as long as it may.
 */
export const formula =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: a NUL before a formula does not stop every spreadsheet.
  /^(?![+-]?\d+(?:\.\d+)?$)(?:|[\s\S]*[;,\t|\r\n"'])(?:[^\S\t\r\n]|\u0000)*[=+\-@\t\r\n\u0000\uff1d\uff0b\uff0d\uff20]/;

/** A text without the apostrophe that was put before a formula; one that stands before other words is its own. */
export const withoutGuard = (text: string): string =>
  text.replace(/^'(?='*\s*[=+\-@\uff1d\uff0b\uff0d\uff20])/, "");
