const mostLetters = 60;

/** A line ends in a few words; what is cut off stands in the reasons. */
export function inShort(label: string): string {
  if (label.length <= mostLetters) return label;
  const cut = label.slice(0, mostLetters - 1);
  return `${cut.slice(0, Math.max(cut.lastIndexOf(","), cut.lastIndexOf(";"), cut.lastIndexOf(" ·")))} …`;
}
