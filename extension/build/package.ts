/** `npm run package`: builds, and packs the extension's folder into dist/standpipe-VERSION.vsix. */

import { readFile, stat, writeFile } from "node:fs/promises";
import { join, relative } from "node:path";
import { createVSIX } from "@vscode/vsce";
import { runAsCommand } from "./as-command.ts";
import { bundle } from "./bundle.ts";
import { built, checkout, vsix } from "./places.ts";

export const VSIX_BUDGET_KIB = 2048;

/** Packs what was built last; everything is bundled, so no dependencies go along. */
export async function pack(): Promise<void> {
  const { extension } = built();
  // The folder holds what is meant and nothing else; without the file the packer warns that it cannot know.
  await writeFile(join(extension, ".vscodeignore"), "");
  const { repository } = JSON.parse(await readFile(join(extension, "package.json"), "utf8"));
  await createVSIX({
    cwd: extension,
    packagePath: vsix,
    dependencies: false,
    // Pictures and links of the README point into the repository, once the manifest names one.
    allowMissingRepository: true,
    rewriteRelativeLinks: repository !== undefined,
  });
  const sizeKiB = (await stat(vsix)).size / 1024;
  const over = sizeKiB > VSIX_BUDGET_KIB ? `  over its budget of ${VSIX_BUDGET_KIB} KiB` : "";
  console.log(`  ${relative(checkout, vsix)}: ${sizeKiB.toFixed(1)} KiB${over}`);
}

if (import.meta.main) {
  await runAsCommand(async () => {
    console.log("Building and packing the extension");
    await bundle();
    await pack();
  });
}
