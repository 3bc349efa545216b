import { slashed } from "../files.ts";
import { Trouble, type World } from "../world.ts";

/**
 * The terminal command as a line of a shell. What set it up is called by its path, as git may run with another PATH; where that is gone it is
 * looked for by its name. Both lines stand in settings of this clone and its hooks only, which are never committed.
 */
export function toolLine(world: World, args: string, otherwise: string): string {
  const byName = `if command -v standpipe >/dev/null 2>&1; then standpipe ${args}; else ${otherwise}; fi`;
  if (world.self === undefined) return byName;
  const [node, script] = world.self.map(slashed);
  if (/[\r\n\0]/.test(`${node}${script}`))
    throw new Trouble(
      "the path of the terminal command holds a line break, which git's settings cannot hold",
    );
  return `if test -x ${quoted(node!)} && test -f ${quoted(script!)}; then ${quoted(node!)} ${quoted(script!)} ${args}; el${byName}`;
}

const quoted = (text: string): string => `'${text.replaceAll("'", "'\\''")}'`;
