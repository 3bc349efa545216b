/** A cell that holds several values: those parted by a sign outside of texts in quotes. */
export function partsOf(text: string, sign: "," | ";"): string[] {
  const parts: string[] = [];
  let begin = 0;
  let isQuoted = false;
  for (let at = 0; at < text.length; at++) {
    const letter = text[at];
    if (isQuoted && letter === "\\") at++;
    else if (letter === '"') isQuoted = !isQuoted;
    else if (letter === sign && !isQuoted) {
      parts.push(text.slice(begin, at).trim());
      begin = at + 1;
    }
  }
  parts.push(text.slice(begin).trim());
  return parts;
}
