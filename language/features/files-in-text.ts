/** How a file and a place in it are named to people. */

/** @param path a path or a URI */
export const nameOfFile = (path: string): string => decoded(path.slice(path.lastIndexOf("/") + 1));

/** A URI, or a part of one, in letters; what only looks like one stays as it is. */
export function decoded(uri: string): string {
  try {
    return decodeURIComponent(uri);
  } catch {
    return uri;
  }
}

/** From 1. */
export function lineNumber(text: string, offset: number): number {
  return text.slice(0, offset).split(/\r\n|\n|\r/).length;
}
