import {
  accessSync,
  chmodSync,
  constants,
  existsSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmdirSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import type { Shown } from "../files.ts";
import { gitOut } from "../repository/git.ts";
import { Trouble, troubleWith, type World } from "../world.ts";
import { begin, end, marked, type Part } from "./part.ts";
import { toolLine } from "./tool.ts";

/** How a hook begins that nobody had. */
const made = "#!/bin/sh\n# made by standpipe git\n";

/** The hook before a commit: checks what is staged. A hook that is there stays as it is, with our part at its top. */
export function hookPart(world: World, root: string, common: string, shown: Shown): Part {
  const note = join(common, "standpipe-made-hooks");
  const asked = gitOut(world, root, ["rev-parse", "--git-path", "hooks"]).toString("utf8").replace(/\n$/, "");
  const folder = resolve(root, asked);
  const path = join(folder, "pre-commit");
  const missing = 'echo "standpipe is not here: the logs were not checked" >&2';
  const stopped = `echo "standpipe: the commit was stopped; mend and stage these lines, or git commit --no-verify" >&2`;
  const check = toolLine(world, "check --staged --severity error", missing);
  const lines = [begin, `${check} || { ${stopped}; exit 1; }`, end];
  const own = lines.join("\n");
  const stat = lstatSync(path, { throwIfNoEntry: false });
  const text = stat?.isFile() === true ? readFileSync(path, "utf8") : "";
  const ours = marked(text);
  const why = ours === undefined ? reason(path, folder, root, common, text, shown) : undefined;
  return {
    name: "hook",
    where: shown(path),
    state: ours === own ? "set" : ours !== undefined ? "old" : why === undefined ? "missing" : "foreign",
    lines,
    ...(why === undefined
      ? {}
      : { refused: `${why}; this line, added by hand, does the same`, byHand: lines[1]! }),
    put() {
      try {
        if (ours !== undefined)
          writeFileSync(
            path,
            text.replace(ours, () => own),
          );
        else if (stat === undefined) {
          const first = mkdirSync(folder, { recursive: true });
          // What only undoing has to know stands beside the settings.
          if (first !== undefined) writeFileSync(note, `${relative(common, first)}\n`);
          writeFileSync(path, `${made}${own}\n`, { flag: "wx" });
          chmodSync(path, 0o755);
        } else
          writeFileSync(
            path,
            text.replace(/^[^\n]*\n/, (first) => `${first}${own}\n`),
          );
      } catch (error) {
        throw new Trouble(troubleWith(shown(path), error));
      }
    },
    take() {
      if (ours === undefined) return undefined;
      const left = text.replace(`${ours}\n`, "");
      try {
        if (left === made) rmSync(path);
        else writeFileSync(path, left);
        takeFolders(folder, note, common);
      } catch (error) {
        throw new Trouble(troubleWith(shown(path), error));
      }
      return undefined;
    },
  };
}

/** Takes away the folders that were made for the hook, those that are empty. */
function takeFolders(folder: string, note: string, common: string): void {
  if (!existsSync(note)) return;
  const first = resolve(common, readFileSync(note, "utf8").replace(/\n$/, ""));
  for (let each = folder; isBelow(first, each) && readdirSync(each).length === 0; each = dirname(each))
    rmdirSync(each);
  rmSync(note);
}

/** Why our part cannot be put into a hook. */
function reason(
  path: string,
  folder: string,
  root: string,
  common: string,
  text: string,
  shown: Shown,
): string | undefined {
  if (!isBelow(common, folder) && !isBelow(root, folder))
    return `hooks are at ${shown(folder)}, outside of this repository (core.hooksPath), where others may use them`;
  const stat = lstatSync(path, { throwIfNoEntry: false });
  if (stat === undefined) return undefined;
  if (stat.isSymbolicLink()) return "the hook is a link, and what it leads to may serve others";
  if (!stat.isFile()) return "the hook is no file";
  try {
    accessSync(path, constants.X_OK);
  } catch {
    return "the hook that is there may not be run, so git leaves it out";
  }
  if (
    !/^#!\s*(?:\/usr\/bin\/env\s+)?\S*\b(?:sh|bash|dash|ksh|zsh)\b[^\n]*\n/.test(text) ||
    text.includes("\r")
  )
    return "the hook that is there is no script of a shell";
  return undefined;
}

function isBelow(folder: string, path: string): boolean {
  const from = relative(folder, path);
  return from === "" || (!from.startsWith("..") && resolve(folder, from) === path);
}
