/**
 * `npm run test:desktop`: the host suite in a desktop VS Code. For machines that have a screen and can download one (or
 * have it: `-- --code PROGRAM`); on all others `npm test` runs the same suite in a served one.
 */

import { cpSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { runTests } from "@vscode/test-electron";
import { runAsCommand } from "../../extension/build/as-command.ts";
import { bundle } from "../../extension/build/bundle.ts";
import { built, keptFolder } from "../../extension/build/places.ts";
import { bundleSuite } from "./hosts.ts";

await runAsCommand(async () => {
  const { values } = parseArgs({ options: { code: { type: "string" }, only: { type: "string" } } });
  const temporary = mkdtempSync(join(tmpdir(), "standpipe-desktop-"));
  process.once("exit", () => rmSync(temporary, { recursive: true, force: true }));
  await bundle({ into: temporary });
  const { extension } = built(temporary);
  const room = join(temporary, "room");
  cpSync(join(import.meta.dirname, "room"), room, { recursive: true });
  await runTests({
    ...(values.code ? { vscodeExecutablePath: values.code } : { cachePath: join(keptFolder, "desktop") }),
    extensionDevelopmentPath: extension,
    extensionTestsPath: await bundleSuite(extension, "desktop", values.only ?? ""),
    launchArgs: [
      ...[room, "--disable-workspace-trust", "--disable-extensions", "--disable-telemetry"],
      ...["--user-data-dir", join(temporary, "profile")],
    ],
  });
});
