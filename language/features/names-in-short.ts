/** `r1 .. r4, q1`: names that count become ranges, as a group is written. */
export function namesInShort(names: readonly string[]): string {
  const parts: string[] = [];
  for (let at = 0; at < names.length; ) {
    let end = at;
    while (end + 1 < names.length && follows(names[end]!, names[end + 1]!)) end++;
    if (end - at >= 2) {
      parts.push(`${names[at]} .. ${names[end]}`);
      at = end + 1;
    } else parts.push(names[at++]!);
  }
  return parts.join(", ");
}

function follows(name: string, next: string): boolean {
  const [, stem, number] = /^(.*?)(\d+)$/.exec(name) ?? [];
  if (stem === undefined || number === undefined) return false;
  return next === stem + String(Number(number) + 1).padStart(number.startsWith("0") ? number.length : 0, "0");
}
