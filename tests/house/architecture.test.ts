import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

/** The house keeps its arrows: what is below knows nothing of what is above, and the core knows nothing of where it runs. */

const root = fileURLToPath(new URL("../..", import.meta.url));

/** What each folder of `language/` may import besides itself. */
const mayImport: Readonly<Record<string, readonly string[]>> = {
  quantity: [],
  science: [],
  calculations: ["quantity", "science"],
  syntax: ["quantity"],
  book: ["syntax", "quantity", "science"],
  room: ["book", "syntax", "calculations", "quantity", "science"],
  checks: ["room", "book", "syntax", "calculations", "quantity", "science"],
  features: ["checks", "room", "book", "syntax", "calculations", "quantity", "science"],
  exchange: ["features", "checks", "room", "book", "syntax", "calculations", "quantity", "science"],
  history: ["features", "checks", "room", "book", "syntax", "calculations", "quantity", "science"],
  server: [
    "exchange",
    "history",
    "features",
    "checks",
    "room",
    "book",
    "syntax",
    "calculations",
    "quantity",
    "science",
  ],
  cli: [
    "exchange",
    "history",
    "features",
    "checks",
    "room",
    "book",
    "syntax",
    "calculations",
    "quantity",
    "science",
  ],
};

interface Import {
  /** Path from the root. */
  readonly file: string;
  /** As it is written. */
  readonly from: string;
  /** Path from the root of what is imported; undefined for a package. */
  readonly to: string | undefined;
  readonly isTypeOnly: boolean;
}

function filesBelow(folder: string): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(".ts"))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)));
}

function importsOf(file: string): Import[] {
  const text = readFileSync(join(root, file), "utf8");
  const statements = text.matchAll(
    /^(?:import|export)\s+(type\s+)?(?:[\w*{][^;"]*?\sfrom\s+)?"([^"]+)"|import\("([^"]+)"\)/gm,
  );
  return [...statements].map(([, type, named, called]) => {
    const from = named ?? called!;
    const to = from.startsWith(".") ? relative(root, resolve(root, dirname(file), from)) : undefined;
    return { file, from, to, isTypeOnly: type !== undefined };
  });
}

const language = filesBelow("language");
/** The workspace's own manifest is data: the terminal command reads its version there. */
const imports = language.flatMap(importsOf).filter(({ to }) => to !== "package.json");
const folderOf = (file: string): string => file.split("/")[1]!;
const said = ({ file, from }: Import): string => `${file} imports ${from}`;

describe("the house", () => {
  it("has the folders that it says, and no other", () => {
    const folders = new Set(language.filter((file) => file.split("/").length > 2).map(folderOf));
    expect(Object.keys(mayImport)).toEqual(expect.arrayContaining([...folders]));
  });

  it("is read: imports are found", () => {
    expect(imports.length).toBeGreaterThan(200);
    expect(imports.filter(({ to }) => to !== undefined && !language.includes(to)).map(said)).toEqual([]);
  });

  it("keeps its arrows: a folder imports only what lies below it", () => {
    const wrong = imports.filter(({ file, to }) => {
      if (to === undefined) return false;
      const [from, into] = [folderOf(file), folderOf(to)];
      return from !== into && !mayImport[from]?.includes(into);
    });
    expect(wrong.map(said)).toEqual([]);
  });

  it("goes in no circle", () => {
    expect(circles(imports.filter(({ isTypeOnly }) => !isTypeOnly))).toEqual([]);
  });

  it("goes in no circle of types either, but for the table of codes: its pages live with their checks", () => {
    const others = imports.filter(({ to, isTypeOnly }) => !(isTypeOnly && to === "language/checks/codes.ts"));
    expect(circles(others)).toEqual([]);
  });
});

describe("the core is pure", () => {
  const core = imports.filter(({ file }) => !["server", "cli"].includes(folderOf(file)));

  it("imports no package but the parser's and the statistics'", () => {
    const packages = new Set(core.filter(({ to }) => to === undefined).map(({ from }) => from));
    expect([...packages].filter((name) => !corePackages.includes(name))).toEqual([]);
  });

  it("knows no editor, no protocol and no file system, also not in the text of a file", () => {
    const forbidden =
      /from "(?:node:|vscode)|\brequire\(|\bprocess\.(?:argv|cwd|env|exit|platform|stdin|stdout|stderr)\b|\bglobalThis\.(?:document|window)\b/;
    const files = language.filter((file) => !["server", "cli"].includes(folderOf(file)));
    expect(files.filter((file) => forbidden.test(readFileSync(join(root, file), "utf8")))).toEqual([]);
  });

  it("reads no clock: what day it is comes from outside", () => {
    const clock = /\bDate\.now\(|new Date\(\)|Temporal\.Now|performance\.now/;
    const files = language.filter((file) => !["server", "cli"].includes(folderOf(file)));
    expect(files.filter((file) => clock.test(readFileSync(join(root, file), "utf8")))).toEqual([]);
  });

  it("leaves the language server's protocol to the server", () => {
    const wrong = imports.filter(
      ({ file, from }) => from.startsWith("vscode-languageserver") && folderOf(file) !== "server",
    );
    expect(wrong.map(said)).toEqual([]);
  });
});

/** What the core may import that is not its own. */
const corePackages = [
  "chevrotain",
  "simple-statistics",
  "temporal-polyfill",
  "papaparse",
  "hyparquet-writer",
  "zod",
  "zod/mini",
];

/** The circles among files, each told once by its shortest way round. */
function circles(all: readonly Import[]): string[] {
  const next = new Map<string, string[]>();
  for (const { file, to } of all) if (to !== undefined) next.set(file, [...(next.get(file) ?? []), to]);
  const found = new Set<string>();
  for (const start of next.keys()) {
    const before = new Map<string, string>();
    const queue = [start];
    for (let file = queue.shift(); file !== undefined; file = queue.shift()) {
      for (const to of next.get(file) ?? []) {
        if (to === start) {
          const way = [file];
          while (way[0] !== start) way.unshift(before.get(way[0]!)!);
          found.add([...way].sort().join(" <-> "));
          queue.length = 0;
          break;
        }
        if (!before.has(to)) {
          before.set(to, file);
          queue.push(to);
        }
      }
    }
  }
  return [...found];
}
