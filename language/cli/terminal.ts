import { styleText } from "node:util";
import type { World } from "./world.ts";

/** What something is painted for; the colours are one table. */
export type Tone = "error" | "warning" | "information" | "hint" | "strong" | "faint" | "good";

/** What the terminal can show. */
export interface Terminal {
  /** Columns; undefined where the output goes elsewhere and nobody said. */
  readonly columns: number | undefined;
  /** Shows lines, dots and blocks that are not ASCII. */
  readonly hasSigns: boolean;
  paint(tone: Tone, text: string): string;
}

const colours: Readonly<Record<Tone, Parameters<typeof styleText>[0]>> = {
  error: ["bold", "red"],
  warning: "yellow",
  information: "cyan",
  hint: "gray",
  strong: "bold",
  faint: "gray",
  good: "green",
};

export type ColourChoice = "auto" | "always" | "never";

/** @param isAscii nothing but ASCII was asked for */
export function terminalOf({ out, env }: World, colour: ColourChoice, isAscii: boolean): Terminal {
  const isOn =
    colour === "always" || (colour === "auto" && out.isTTY && !env.NO_COLOR && env.TERM !== "dumb");
  return {
    columns: columnsOf(out.columns, env.COLUMNS),
    hasSigns: !isAscii && showsSigns(env),
    // The stream was looked at above; on its own the function would look at the process.
    paint: isOn
      ? (tone, text) => (text === "" ? "" : styleText(colours[tone], text, { validateStream: false }))
      : (_, text) => text,
  };
}

/** A terminal narrower than this is taken as so wide: nothing reads well below. */
const leastColumns = 24;

function columnsOf(actual: number | undefined, stated: string | undefined): number | undefined {
  const columns = actual ?? (stated !== undefined && /^\d{1,4}$/.test(stated) ? Number(stated) : undefined);
  return columns === undefined || columns === 0 ? undefined : Math.max(leastColumns, columns);
}

/** A locale that names another encoding than UTF-8, or a console that has few letters. */
function showsSigns(env: World["env"]): boolean {
  if (env.TERM === "linux" || env.TERM === "dumb") return false;
  const locale = env.LC_ALL || env.LC_CTYPE || env.LANG;
  return !locale || /utf-?8/i.test(locale);
}
