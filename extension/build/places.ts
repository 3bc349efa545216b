/** Where things are in the checkout, as absolute paths. */

import { readFileSync } from "node:fs";
import { join } from "node:path";

export const checkout = join(import.meta.dirname, "..", "..");
export const dist = join(checkout, "dist");
export const sampleRoom = join(checkout, "samples", "cellar");

/** Kept over runs: the editor and the browser fetched on first use, and the profile of `npm start`. */
export const keptFolder = process.env.STANDPIPE_HOST ?? join(checkout, ".standpipe-host");

export const version: string = JSON.parse(readFileSync(join(checkout, "package.json"), "utf8")).version;

/** What a build makes in its folder, which is `dist` unless a run wants one of its own. */
export const built = (into = dist) => ({
  /** The clean folder the extension is packed from; also what a development window loads. */
  extension: join(into, "extension"),
  /** The terminal command, one file. */
  command: join(into, "standpipe.mjs"),
});
export const vsix = join(dist, `standpipe-${version}.vsix`);
