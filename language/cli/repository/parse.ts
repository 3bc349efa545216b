/** What git prints, read: plain functions over its output, in its forms for programs (`-z`), so that a name may hold anything. */

/** A file as a commit or the index has it. */
export interface TreeEntry {
  readonly kind: "file" | "link" | "submodule";
  /** The id of its content. */
  readonly id: string;
  /** From the root of the repository. */
  readonly path: string;
  /** 0; of a merge with conflicts in the index 1 for the base, 2 for ours, 3 for theirs. */
  readonly stage: number;
}

const kinds: Readonly<Record<string, TreeEntry["kind"]>> = {
  "120000": "link",
  "160000": "submodule",
};

/** `ls-tree -r -z`: `mode type id TAB path NUL`. */
export function treeOf(text: string): TreeEntry[] {
  return parts(text).flatMap((each) => {
    const match = /^(\d{6}) \w+ ([0-9a-f]+)\t(.*)$/s.exec(each);
    return match === null ? [] : [entry(match[1]!, match[2]!, match[3]!, 0)];
  });
}

/** `ls-files -s -z`: `mode id stage TAB path NUL`. */
export function indexOf(text: string): TreeEntry[] {
  return parts(text).flatMap((each) => {
    const match = /^(\d{6}) ([0-9a-f]+) ([0-3])\t(.*)$/s.exec(each);
    return match === null ? [] : [entry(match[1]!, match[2]!, match[4]!, Number(match[3]))];
  });
}

const entry = (mode: string, id: string, path: string, stage: number): TreeEntry => ({
  kind: kinds[mode] ?? "file",
  id,
  path,
  stage,
});

/** The parts of what ends each of them in NUL. */
export const parts = (text: string): string[] => text.split("\0").filter((part) => part !== "");

/** What `cat-file --batch` prints, by id: `id type size LF bytes LF`. What is missing is not there. */
export function objectsOf(bytes: Buffer): Map<string, Buffer> {
  const objects = new Map<string, Buffer>();
  for (let at = 0; at < bytes.length; ) {
    const end = bytes.indexOf(0x0a, at);
    if (end < 0) break;
    const [id = "", type, size] = bytes.toString("latin1", at, end).split(" ");
    at = end + 1;
    // `id missing`, or another word without a size: nothing follows.
    if (size === undefined || type === undefined) continue;
    objects.set(id, bytes.subarray(at, at + Number(size)));
    at += Number(size) + 1;
  }
  return objects;
}

/** A commit and what it did to files. */
export interface Commit {
  readonly id: string;
  readonly parents: readonly string[];
  /** Seconds since 1970, as its author says. */
  readonly time: number;
  /** Minutes east of Greenwich, where it was written. */
  readonly zone: number;
  readonly author: string;
  readonly subject: string;
  /** Beside each of its parents, in their order; of a first commit one list, beside nothing. */
  readonly files: readonly (readonly FileChange[])[];
}

export interface FileChange {
  readonly path: string;
  /** Empty where there is no file. */
  readonly before: string;
  readonly after: string;
}

/** What `log` is asked for: NUL can stand in none of it, and the first part tells a commit from a file. */
export const logFormat = "commit%x00%H%x00%P%x00%ad%x00%an%x00%s%x00";

/** `log -z --raw --no-abbrev --date=raw --format=<logFormat>`. Of a merge it tells no files: they are in `mergesOf`. */
export function commitsOf(text: string): Commit[] {
  const commits: Commit[] = [];
  const words = text.split("\0");
  for (let at = 0; at < words.length; ) {
    if (words[at] !== "commit") {
      at++;
      continue;
    }
    const [id = "", parents = "", date = "", author = "", subject = ""] = words.slice(at + 1, at + 6);
    const { files, end } = changesAt(words, at + 6);
    const [seconds = "", zone = "+0000"] = date.split(" ");
    const minutes = Number(zone.slice(1, 3)) * 60 + Number(zone.slice(3));
    commits.push({
      id,
      parents: parents === "" ? [] : parents.split(" "),
      time: Number(seconds),
      zone: zone.startsWith("-") ? -minutes : minutes,
      author,
      subject,
      files: [files],
    });
    at = end;
  }
  return commits;
}

/** `diff-tree --stdin -m -r -z --raw --no-abbrev --always`: for each line that was asked the id of the commit and what it did. */
export function mergesOf(text: string): FileChange[][] {
  const asked: FileChange[][] = [];
  const words = text.split("\0");
  for (let at = 0; at < words.length; ) {
    if (!/^[0-9a-f]{40,64}$/.test(words[at]!)) {
      at++;
      continue;
    }
    const { files, end } = changesAt(words, at + 1);
    asked.push(files);
    at = end;
  }
  return asked;
}

/** `:mode mode id id status NUL path NUL`, one after the other; what git puts before the first is passed over. */
function changesAt(words: readonly string[], from: number): { files: FileChange[]; end: number } {
  const files: FileChange[] = [];
  let at = from;
  for (; at < words.length; at += 2) {
    if (words[at] === "" || words[at] === "\n") at++;
    const match = /^\n?:(\d{6}) (\d{6}) ([0-9a-f]+) ([0-9a-f]+) [A-Z]\d*$/.exec(words[at] ?? "");
    if (match === null) break;
    const path = words[at + 1] ?? "";
    files.push({ path, before: idOf(match[1]!, match[3]!), after: idOf(match[2]!, match[4]!) });
  }
  return { files, end: at };
}

/** What is a link or a repository of its own is no file of the log. */
const idOf = (mode: string, id: string): string => (/^100/.test(mode) ? id : "");
