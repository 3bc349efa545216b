import { readdirSync, readFileSync } from "node:fs";
import { dayOf } from "../../language/book/dates.ts";
import { CheckedLogbook } from "../../language/checks/check.ts";
import type { View } from "../../language/features/view.ts";

let cellar: CheckedLogbook | undefined;

/** The sample room, from one of its files. It is read once for a test file: nobody edits it. */
export function cellarView(file: string): View {
  if (cellar === undefined) {
    cellar = new CheckedLogbook();
    const folder = new URL("../../samples/cellar/", import.meta.url);
    for (const name of readdirSync(folder))
      if (name.endsWith(".tank")) cellar.set(name, readFileSync(new URL(name, folder), "utf8"));
  }
  return { checked: cellar, source: cellar.logbook.sources.get(file)!, worldDay: dayOf("2031-01-01") };
}
