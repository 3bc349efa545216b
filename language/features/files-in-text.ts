/** How a file and a place in it are named to people. */

/** @param path a path or a URI */
export function nameOfFile(path: string): string {
  const name = path.slice(path.lastIndexOf("/") + 1);
  try {
    return decodeURIComponent(name);
  } catch {
    // A path that only looks like a URI.
    return name;
  }
}

/** From 1. */
export function lineNumber(text: string, offset: number): number {
  return text.slice(0, offset).split(/\r\n|\n|\r/).length;
}
