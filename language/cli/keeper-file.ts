import { resolve } from "node:path";
import * as z from "zod/mini";
import { type Keeper, type KeeperKey, keeperKeys, noKeeper } from "../features/laboratory/keeper.ts";
import { didYouMean, nearest } from "../quantity/nearest.ts";
import type { Call, Option } from "./command.ts";
import { kindOfPath, readText, shownFrom } from "./files.ts";
import { Trouble } from "./world.ts";

/** The keeper's details from a file: they are personal and stand in no log. */

export const keeperOption: Option = {
  name: "keeper",
  value: "FILE",
  doc: `your details as JSON: ${keeperKeys.join(", ")}`,
};

const line = z.string().check(z.maxLength(500));
const keeperForm = z.partial(
  z.strictObject({
    name: line,
    address: line,
    telephone: line,
    email: line,
    veterinarian: line,
    registration: line,
  }),
);

/** Throws `Trouble` that names the field which is wrong. */
export function keeperOf(call: Call): Keeper {
  const asked = call.value("keeper");
  if (asked === undefined) return noKeeper;
  const path = resolve(call.world.cwd, asked);
  const shown = shownFrom(call.world.cwd, asked !== "" && path === asked);
  const name = shown(path);
  if (kindOfPath(path, shown) === "folder") throw new Trouble(`${name}: this is a folder, not a file`);
  let given: unknown;
  try {
    given = JSON.parse(readText(path, shown).replace(/^\ufeff/, ""));
  } catch (error) {
    if (error instanceof Trouble) throw error;
    throw new Trouble(`${name}: this is no JSON; it is written like {"name": "…", "telephone": "…"}`);
  }
  const read = keeperForm.safeParse(given);
  if (!read.success) throw new Trouble(`${name}: ${wrongWith(read.error.issues[0]!)}`);
  const { data } = read;
  const said = (key: KeeperKey): string => data[key] ?? "";
  return {
    name: said("name"),
    address: said("address"),
    telephone: said("telephone"),
    email: said("email"),
    veterinarian: said("veterinarian"),
    registration: said("registration"),
  };
}

function wrongWith(issue: z.core.$ZodIssue): string {
  if (issue.code === "unrecognized_keys") {
    const [key = ""] = issue.keys;
    const near = didYouMean(nearest(key, keeperKeys));
    return `there is no field “${key}”${near === "" ? `; there are ${keeperKeys.join(", ")}` : near}`;
  }
  const [key] = issue.path;
  if (key === undefined) return `it takes one object with ${keeperKeys.join(", ")}`;
  return issue.code === "too_big"
    ? `“${String(key)}” is longer than 500 letters`
    : `“${String(key)}” takes a text in quotes`;
}
