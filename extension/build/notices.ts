/** The licences of the libraries that are bundled into the package, as they ask to be passed on. */

import { globSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { checkout } from "./places.ts";

/** The text of a notices file for the libraries among a bundle's sources, named as esbuild names them. */
export function notices(sources: Iterable<string>): string {
  const folders = new Set<string>();
  for (const source of sources) {
    const folder = /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(source)?.[0];
    if (folder) folders.add(folder);
  }
  const parts = [...folders].sort().map((folder) => {
    const { name, version, license } = JSON.parse(
      readFileSync(join(checkout, folder, "package.json"), "utf8"),
    );
    const files = globSync("{licen[cs]e,LICEN[CS]E,License,COPYING}{,.md,.txt,-MIT}", {
      cwd: join(checkout, folder),
    });
    const text = files[0] ? readFileSync(join(checkout, folder, files[0]), "utf8").trim() : "";
    return `${name} ${version} (${license})\n\n${text}`;
  });
  const head = "This package holds code of the following libraries, under their own licences.";
  return `${[head, ...parts].join(`\n\n${"-".repeat(80)}\n\n`)}\n`;
}
