/** Writes the sample room: `node samples/simulate.ts`. The files in the repository are what this writes. */
import { mkdirSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { simulateCellar } from "./simulation/run.ts";

const folder = fileURLToPath(new URL("./cellar/", import.meta.url));
const { files, entries, entriesOfDay } = simulateCellar();
mkdirSync(folder, { recursive: true });
for (const [name, text] of files) writeFileSync(`${folder}${name}`, text);
console.log(`${files.size} files, ${entries} entries on ${entriesOfDay.size} days`);
