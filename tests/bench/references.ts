import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/**
 * What the same facts cost by the plainest means: run as `references.ts json FILE`, `references.ts lines DIR`, `references.ts scan DIR`.
 */
const [what, path] = process.argv.slice(2);
if (path === undefined) throw new Error("references.ts json|lines|scan PATH");

const logs = (): string[] =>
  readdirSync(path)
    .filter((name) => name.endsWith(".tank"))
    .map((name) => readFileSync(join(path, name), "utf8"));

let sum = 0;
if (what === "json") {
  for (const fact of JSON.parse(readFileSync(path, "utf8")) as { value: number }[]) sum += fact.value;
} else if (what === "lines") {
  for (const text of logs()) sum += text.split("\n").length;
} else if (what === "scan") {
  const entry = /^ {2}(\S+) +(\S+)(?: +([a-z][\w-]*))?(?: +([\d.]+))?(?: +([A-Za-z%/]+))?(?: +"([^"]*)")?$/;
  for (const text of logs()) {
    for (const line of text.split("\n")) {
      const match = entry.exec(line);
      if (match !== null) sum += Number(match[4] ?? 0);
    }
  }
} else throw new Error(`no reference is called ${what}`);
process.stdout.write(`${sum}\n`);
