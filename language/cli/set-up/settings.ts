import { definitionWords } from "../../syntax/blocks.ts";
import { git, gitOut } from "../repository/git.ts";
import { Trouble, type World } from "../world.ts";
import type { Part, PartName } from "./part.ts";
import { toolLine } from "./tool.ts";

/** Drivers in the settings of this clone: how logs are merged, and what stands at the head of a hunk. */

export function mergePart(world: World, root: string): Part {
  return settingsPart(world, root, "merge", "merge.standpipe", {
    name: "entries of a log of fish tanks",
    driver: mergeDriver(world),
  });
}

export function diffPart(world: World, root: string): Part {
  return settingsPart(world, root, "diff", "diff.standpipe", { xfuncname: hunkHead });
}

/**
 * The nearest head above a hunk: the day with its text, or the definition with its title. An entry names its tank itself, and git can show
 * one line only.
 */
const hunkHead = `^([0-9]{4}-[0-9]{2}-[0-9]{2}.*|(${definitionWords.join("|")})([ \t].*)?)$`;

/**
 * Git runs this in a shell, with the three files; it ends with 0, or 1 where marks were left. Where the tool is missing or fails, git's own
 * merge by lines takes its place: it leaves marks where both sides touched the same lines, and loses nothing. The names of the two versions
 * (%X, %Y, and %S of their base) are known to git from 2.44 on; before, they stay as they are written.
 */
function mergeDriver(world: World): string {
  const args =
    "merge %O %A %B --marker-size=%L --path=%P --base=%S --ours=%X --theirs=%Y " +
    '--conflict-style="$(git config merge.conflictStyle)"';
  const tool = toolLine(world, "\0", "(exit 127)").replaceAll("%", "%%").replaceAll("\0", args);
  const byLines =
    's=%S; x=%X; y=%Y; if test "$x" = %%X; then s=base; x=ours; y=theirs; fi; ' +
    'exec git merge-file --marker-size=%L -L "$x" -L "$s" -L "$y" %A %O %B';
  return `${tool}; r=$?; test $r -le 1 && exit $r; echo "standpipe: merging by lines instead" >&2; ${byLines}`;
}

function settingsPart(
  world: World,
  root: string,
  name: PartName,
  section: string,
  wanted: Readonly<Record<string, string>>,
): Part {
  const key = (word: string): string => `${section}.${word}`;
  const lines = Object.entries(wanted).map(([word, value]) => `${key(word)} = ${value}`);
  const there = valuesIn(world, root, section);
  const isSame = Object.entries(wanted).every(([word, value]) => there.get(key(word)) === value);
  const isOurs = there.size === Object.keys(wanted).length && (isSame || looksOurs(there, name));
  const state = there.size === 0 ? "missing" : isSame && isOurs ? "set" : isOurs ? "old" : "foreign";
  const found = [...there].map(([word, value]) => `${word} = ${value}`).join("; ");
  return {
    name,
    where: section,
    state,
    lines,
    ...(state === "foreign"
      ? {
          refused: `it is set already, by somebody else: ${found}; git config --remove-section ${section} makes room`,
        }
      : {}),
    put() {
      for (const [word, value] of Object.entries(wanted))
        gitOut(world, root, ["config", "--local", key(word), value]);
    },
    take() {
      if (there.size === 0) return undefined;
      if (state === "foreign") return `${section} was set by somebody else, and is left alone`;
      gitOut(world, root, ["config", "--local", "--remove-section", section]);
      return undefined;
    },
  };
}

function looksOurs(there: ReadonlyMap<string, string>, name: PartName): boolean {
  if (name === "diff") return there.get("diff.standpipe.xfuncname")?.startsWith("^([0-9]{4}-") === true;
  return there.get("merge.standpipe.driver")?.includes("standpipe merge %O %A %B") === true;
}

function valuesIn(world: World, root: string, section: string): Map<string, string> {
  const words = ["config", "--local", "-z", "--get-regexp", `^${section.replace(".", "\\.")}\\.`];
  const { status, out, complaint } = git(world, root, words);
  if (status > 1) throw new Trouble(`git config: ${complaint}`);
  const found = new Map<string, string>();
  for (const each of out.toString("utf8").split("\0")) {
    const feed = each.indexOf("\n");
    if (feed > 0) found.set(each.slice(0, feed), each.slice(feed + 1));
  }
  return found;
}
