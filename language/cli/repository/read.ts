import { lstatSync, readFileSync, realpathSync } from "node:fs";
import { posix } from "node:path";
import { extension, slashed, textOf, type Unread } from "../files.ts";
import { Trouble, troubleWith } from "../world.ts";
import { gitOut } from "./git.ts";
import { indexOf, objectsOf, parts, type TreeEntry, treeOf } from "./parse.ts";
import { absolute, isInside, type Repository, type Revision } from "./repository.ts";

/** The logs of a revision: the text of each `.tank` file by its path from the root of the repository. */
export interface Texts {
  readonly texts: ReadonlyMap<string, string>;
  readonly unread: readonly Unread[];
}

/** @param shown how a path of the repository is told */
export function textsAt(
  repository: Repository,
  revision: Revision,
  shown: (path: string) => string,
  objects = new Objects(repository),
): Texts {
  switch (revision.is) {
    case "nothing":
      return { texts: new Map(), unread: [] };
    case "files":
      return filesNow(repository, shown);
    case "index":
      return textsOf(indexed(repository), objects, shown);
    case "commit":
      return textsOf(committed(repository, revision.id), objects, shown);
  }
}

/** Contents by their ids, each read once. */
export class Objects {
  private readonly repository: Repository;
  private readonly known = new Map<string, Buffer>();

  constructor(repository: Repository) {
    this.repository = repository;
  }

  /** Reads what is not known yet, all in one call. */
  fetch(ids: Iterable<string>): void {
    const wanted = [...new Set(ids)].filter((id) => id !== "" && !this.known.has(id));
    if (wanted.length === 0) return;
    const { world, root } = this.repository;
    const out = gitOut(world, root, ["cat-file", "--batch"], `${wanted.join("\n")}\n`);
    for (const [id, bytes] of objectsOf(out)) this.known.set(id, bytes);
  }

  bytes(id: string): Buffer | undefined {
    return this.known.get(id);
  }

  /** Throws `Trouble` for what is no UTF-8 text, or is not there. */
  text(id: string, name: string): string {
    const bytes = this.known.get(id);
    if (bytes === undefined)
      throw new Trouble(`${name}: its content is not in this clone; git fetch --refetch brings it`);
    return textOf(bytes, name);
  }
}

/** What a commit holds, below the folder that was asked for. */
function committed({ world, root, below }: Repository, id: string): TreeEntry[] {
  const where = below === "" ? [] : [below];
  const words = ["--literal-pathspecs", "ls-tree", "-r", "-z", "--full-tree", id, "--", ...where];
  return treeOf(gitOut(world, root, words).toString("utf8"));
}

/** What is staged; of a merge that is not settled, our side. */
function indexed({ world, root, below }: Repository): TreeEntry[] {
  const words = ["--literal-pathspecs", "ls-files", "-s", "-z", "--", ...(below === "" ? [] : [below])];
  const entries = indexOf(gitOut(world, root, words).toString("utf8"));
  const settled = new Set(entries.filter(({ stage }) => stage === 2).map(({ path }) => path));
  return entries.filter(
    ({ stage, path }) => stage === 0 || stage === 2 || (stage === 3 && !settled.has(path)),
  );
}

function textsOf(entries: readonly TreeEntry[], objects: Objects, shown: (path: string) => string): Texts {
  const logs = entries.filter(({ path, kind }) => isLog(path) && kind !== "submodule");
  const links = logs.filter(({ kind }) => kind === "link");
  objects.fetch(logs.map(({ id }) => id));
  const texts = new Map<string, string>();
  const unread: Unread[] = [];
  const read = (id: string, path: string): void => {
    try {
      texts.set(path, objects.text(id, shown(path)));
    } catch (error) {
      if (!(error instanceof Trouble)) throw error;
      unread.push({ file: shown(path), message: error.message });
    }
  };
  for (const { id, path, kind } of logs) if (kind === "file") read(id, path);
  // A link counts where it leads to a file of the same commit that is not found without it, as on the disk.
  const files = new Map(entries.filter(({ kind }) => kind === "file").map((each) => [each.path, each]));
  for (const { id, path } of links) {
    const target = objects.bytes(id)?.toString("utf8") ?? "";
    const leads = target.startsWith("/") ? "" : posix.normalize(posix.join(posix.dirname(path), target));
    const meant = files.get(leads);
    if (meant === undefined || texts.has(leads)) continue;
    objects.fetch([meant.id]);
    read(meant.id, path);
  }
  return { texts, unread };
}

/** Files that git knows or would take: what it is told to ignore, and repositories inside this one, are not of it. */
function filesNow(repository: Repository, shown: (path: string) => string): Texts {
  const { world, root, below } = repository;
  const where = ["--", ...(below === "" ? [] : [below])];
  const words = ["--literal-pathspecs", "ls-files", "-z", "--cached", "--others", "--exclude-standard"];
  const listed = parts(gitOut(world, root, [...words, ...where]).toString("utf8"));
  const paths = [...new Set(listed)].filter(isLog).sort();
  const texts = new Map<string, string>();
  const unread: Unread[] = [];
  const links: string[] = [];
  const read = (path: string): void => {
    try {
      texts.set(path, textOf(readFileSync(absolute(repository, path)), shown(path)));
    } catch (error) {
      const message = error instanceof Trouble ? error.message : troubleWith(shown(path), error);
      unread.push({ file: shown(path), message });
    }
  };
  const seen = new Set<string>();
  for (const path of paths) {
    const at = absolute(repository, path);
    const stat = lstatSync(at, { throwIfNoEntry: false });
    if (stat?.isSymbolicLink() === true) links.push(path);
    // A folder of the path may have become a link to elsewhere.
    else if (stat?.isFile() === true && isInside(root, at)) {
      seen.add(slashed(realpathSync(at)));
      read(path);
    }
  }
  for (const path of links) {
    const at = absolute(repository, path);
    if (!isInside(root, at)) continue;
    const real = slashed(realpathSync(at));
    if (seen.has(real) || !lstatSync(real).isFile()) continue;
    seen.add(real);
    read(path);
  }
  return { texts, unread };
}

/** As the commands find them: folders that begin with a dot and `node_modules` are left out. */
export function isLog(path: string): boolean {
  const folders = path.split("/");
  return (
    path.endsWith(extension) &&
    folders.slice(0, -1).every((folder) => !folder.startsWith(".") && folder !== "node_modules")
  );
}
