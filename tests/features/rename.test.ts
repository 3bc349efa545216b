import { readdirSync, readFileSync } from "node:fs";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { usesIn } from "../../language/features/names.ts";
import { prepareRename, rename } from "../../language/features/rename.ts";
import type { Edit, View } from "../../language/features/view.ts";
import { atCursor, edited, viewOf } from "../support/cursor.ts";
import { logbookOf } from "../support/marked.ts";

/** All files after a rename, parted by their names; or why it is refused. */
function renamed(marked: string, newName: string): string {
  const { view, offset } = atCursor(marked);
  const made = rename(view, offset, newName);
  return "refused" in made ? made.refused : shown(view, made.edits);
}

function shown(view: View, edits: readonly Edit[]): string {
  const files = [...view.checked.logbook.sources].map(([path, { text }]) => {
    const own = edits.filter((edit) => edit.path === path);
    return own.length === 0 ? "" : `--- ${path} ---\n${edited(text, own)}`;
  });
  return files.filter((file) => file !== "").join("\n");
}

const room = `--- room.tank ---
tank dam
  volume  310 L
tank r1
  volume  24 L
tank r2
  volume  24 L
tank r3
  volume  24 L
tank r4
  volume  24 L
group rack = r1 .. r4, dam
species praecox
  needs  flake at most 2 per 7 d
species horn
  kind  snail
food flake
remedy prazi
  harms  snail, praecox
gear canister
  on  dam
`;

describe("rename", () => {
  test("a tank, in definitions, targets, sheets, moves, origins and what serves it", () => {
    const log = `${room}--- log.tank ---
2026-03-01
  dam   change 30 %
  sheet  pH
    dam  7.2
  r1    move horn 1 -> d¦am
  r1    plant fern 1 from dam "from the dam"
`;
    expect(renamed(log, "river")).toBe(
      `--- room.tank ---
${room.slice(18).replace("tank dam", "tank river").replace(", dam", ", river").replace("on  dam", "on  river")}`.replace(
        /\n$/,
        "",
      ) +
        `
--- log.tank ---
2026-03-01
  river   change 30 %
  sheet  pH
    river  7.2
  r1    move horn 1 -> river
  r1    plant fern 1 from river "from the dam"
`,
    );
  });

  test("a member of a range of names spells the range out", () => {
    const groups = (marked: string, newName: string) => /group.*/.exec(renamed(marked, newName))![0];
    expect(groups(room.replace("tank r1", "tank ¦r1"), "top")).toBe("group rack = top, r2 .. r4, dam");
    expect(groups(room.replace("tank r2", "tank ¦r2"), "top")).toBe("group rack = r1, top, r3, r4, dam");
    expect(groups(room.replace("tank r4", "tank ¦r4"), "r5")).toBe("group rack = r1 .. r3, r5, dam");
  });

  test("a tank that would fall into a range is refused", () => {
    const log = `tank d¦am\n  volume 3 L\ntank r1\n  volume 3 L\ntank r3\n  volume 3 L\ngroup rack = r1 .. r3\n`;
    expect(renamed(log, "r2")).toBe("“r2” lies within “r1 .. r3” of the group rack: the tank would join it");
  });

  test("a group, behind its mark", () => {
    expect(
      renamed(`${room.replace("group rack", "group ra¦ck")}2026-03-01\n  @rack clean\n`, "shelf"),
    ).toContain("group shelf = r1 .. r4, dam");
    expect(renamed(`${room}2026-03-01\n  @ra¦ck clean\n`, "shelf")).toContain("  @shelf clean");
  });

  test("a species, in counts, the heads of sheets, and what harms it", () => {
    const made = renamed(
      `${room}2026-03-01\n  dam count pra¦ecox 14, horn 2\n  sheet  pH  praecox\n`,
      "dwarf",
    );
    expect(made).toContain("species dwarf");
    expect(made).toContain("harms  snail, dwarf");
    expect(made).toContain("count dwarf 14, horn 2\n  sheet  pH  dwarf");
  });

  test("a food, a remedy, a gear, a case, a lot, an order", () => {
    expect(renamed(`${room}2026-03-01\n  dam feed fl¦ake 1 pinch\n`, "crumble")).toMatch(
      /needs {2}crumble at most[\s\S]*food crumble[\s\S]*feed crumble 1 pinch/,
    );
    expect(renamed(`${room}2026-03-01\n  dam dose pr¦azi 9 mg\n`, "wormer")).toMatch(
      /remedy wormer[\s\S]*dose wormer 9 mg/,
    );
    expect(renamed(`${room}2026-03-01\n  dam service can¦ister\n`, "barrel")).toMatch(
      /gear barrel[\s\S]*service barrel/,
    );
    expect(
      renamed(
        `${room}2026-03-01\n  dam sick horn 1 case tu¦ft\n2026-03-02\n  dam close tuft recovered\n`,
        "tuft-1",
      ),
    ).toMatch(/case tuft-1[\s\S]*close tuft-1/);
    const lots = `${room}2026-03-01\n  dam arrive horn 3 lot a¦7\n  dam lose horn 1 lot "a7"\n`;
    expect(renamed(lots, "b 8")).toMatch(/arrive horn 3 lot "b 8"\n {2}dam lose horn 1 lot "b 8"/);
    expect(renamed(`${room}2026-03-01\n  dam sell horn 3 order o¦-1\n`, "o-2")).toContain("order o-2");
  });

  test("CRLF, and a name that is not defined", () => {
    expect(renamed('2026-03-01\r\n  d¦mm clean\r\n  dmm note "dmm"\r\n', "dam")).toBe(
      '--- log.tank ---\n2026-03-01\r\n  dam clean\r\n  dam note "dmm"\r\n',
    );
    expect(renamed(`${room}2026-03-01\n  d¦mm clean\n  dam clean\n`, "dam")).toContain(
      "\n  dam clean\n  dam clean\n",
    );
  });

  test("lines that cannot be read stay, and are told of", () => {
    const { view, offset } = atCursor(`tank d¦am\n  volume 3 L\n2026-03-01\n  dam clean ¤\n  dams ¤\n`);
    const made = rename(view, offset, "river");
    if ("refused" in made) throw new Error(made.refused);
    expect(shown(view, made.edits)).toContain("tank river\n  volume 3 L\n2026-03-01\n  dam clean ¤\n");
    expect(made.unread.map((each) => view.source.text.slice(each.start - 2, each.end + 1))).toEqual([
      "  dam ",
    ]);
  });
});

describe("refused, with a reason", () => {
  const tank = room.replace("tank dam", "tank ¦dam");

  test.each([
    ["r1", "“r1” is the name of a tank already"],
    ["praecox", "“praecox” is the name of a species already"],
    ["none", "“none” is a word of the format and no name"],
    ["sheet", "“sheet” is a word of the format and no name"],
    ["change", "“change” is a word that entries begin with, and no name"],
    ["7up", "“7up” is no name: a name begins with a letter and goes on with letters, digits, - and _"],
    [
      "two words",
      "“two words” is no name: a name begins with a letter and goes on with letters, digits, - and _",
    ],
    ["a/b", "“a/b” is no name: a name begins with a letter and goes on with letters, digits, - and _"],
    ["", "“” is no name: a name begins with a letter and goes on with letters, digits, - and _"],
  ])("%s", (newName, reason) => {
    expect(renamed(tank, newName)).toBe(reason);
  });

  test("a species that would be a parameter", () => {
    expect(renamed(room.replace("species horn", "species ¦horn"), "KH")).toBe(
      "“KH” is a parameter of a test: the head of a sheet could not tell them apart",
    );
  });

  test("a case that would become one with another", () => {
    const log = `${room}--- log.tank ---\n2026-03-01\n  dam sick horn 1 case a¦1\n  dam sick horn 1 case b1\n`;
    expect(renamed(log, "b1")).toBe(
      "a case is called “b1” already (log.tank, line 3): the two would become one",
    );
  });

  test("a name that stands in the log and is not defined", () => {
    expect(renamed(`${tank}--- log.tank ---\n2026-03-01\n  river clean\n`, "river")).toBe(
      "“river” stands in the log already (log.tank, line 2): the two would become one",
    );
  });

  test("a name that would be read as something else in one of its places", () => {
    const log = `${room}--- log.tank ---\n2026-03-01\n  dam clean\n  dam close t¦uft recovered\n`;
    expect(renamed(log, "died")).toBe("“died” would be read as something else (log.tank, line 3)");
  });

  test("where no name stands", () => {
    const { view, offset } = atCursor(`${room}2026-03-01\n  dam note "d¦am"\n`);
    expect(prepareRename(view, offset)).toBeUndefined();
    expect(rename(view, offset, "x")).toEqual({ refused: "there is no name here" });
  });

  test("the room has no name", () => {
    const { view, offset } = atCursor(`${room}2026-03-01\n  ro¦om note "x"\n`);
    expect(prepareRename(view, offset)).toBeUndefined();
  });
});

describe("prepare", () => {
  test("gives the name alone", () => {
    const { view, offset } = atCursor(`${room}2026-03-01\n  r1 move horn 1 -> r2¦\n`);
    const place = prepareRename(view, offset)!;
    expect(view.source.text.slice(place.start, place.end)).toBe("r2");
    expect(place.name).toBe("r2");
  });
});

describe("the sample cellar", () => {
  const folder = new URL("../../samples/cellar/", import.meta.url);
  const text = readdirSync(folder)
    .map((name) => `--- ${name} ---\n${readFileSync(new URL(name, folder), "utf8")}`)
    .join("\n");
  const view = viewOf(text, "tanks.tank");
  /** How often a word stands outside of texts and comments. */
  const count = (word: string): number =>
    [...view.checked.logbook.sources.values()]
      .map((source) => source.text.replace(/"[^"\n]*"/g, "").replace(/(?<!\S)#.*/g, ""))
      .join("\n")
      .split(/[^\w-]+/)
      .filter((each) => each === word).length;

  test("names of every sort, and the same is found after", () => {
    const before = view.checked.findings(view.worldDay).map((finding) => finding.code);
    // The first name of every sort, and every fifth.
    const sorts = new Set<string>();
    const isFirst = (sort: string): boolean => !sorts.has(sort) && sorts.add(sort) !== undefined;
    const names = view.checked.logbook
      .blocks()
      .flatMap((block) => usesIn(view.checked.book, block).filter((use) => use.is === "definition"))
      .filter((use, at) => isFirst(use.sort) || at % 5 === 0);
    expect(sorts).toEqual(
      new Set(["system", "tank", "group", "species", "remedy", "gear", "food", "water", "lot", "order"]),
    );
    for (const use of names) {
      const source = use.block.file;
      const there = rename({ ...view, source }, use.block.start + use.start, "renamed-here");
      if ("refused" in there) throw new Error(`${use.name}: ${there.refused}`);
      const between = [...view.checked.logbook.sources].map(
        ([path, file]) =>
          `--- ${path} ---\n${edited(
            file.text,
            there.edits.filter((edit) => edit.path === path),
          )}`,
      );
      const other = logbookOf(between.join("\n"));
      expect(
        other
          .findings(view.worldDay)
          .map((finding) => finding.code)
          .sort(),
        use.name,
      ).toEqual([...before].sort());
    }
  });

  test("as many places as a plain search finds outside of prose", () => {
    const found = (name: string): number => {
      const at = view.checked.book.names.get(name)!.place;
      const made = rename({ ...view, source: at.block.file }, at.block.start + at.start, "renamed-here");
      return "refused" in made ? -1 : made.edits.length;
    };
    for (const name of [
      "rack-water",
      "boesemani",
      "nauplii",
      "praziquantel",
      "soft",
      "canister",
      "breeders",
      "b7",
    ])
      expect(found(name), name).toBe(count(name));
  });
});

test("whatever the new name, a rename keeps what the log says or is refused", () => {
  const words = fc.oneof(
    fc.constantFrom(
      "r1",
      "died",
      "from",
      "at",
      "C",
      "L",
      "x",
      "KH",
      "praecox",
      "flow",
      "of",
      "cubes",
      "d",
      "é1",
      "水槽",
    ),
    fc.string({ unit: "grapheme", maxLength: 4 }),
  );
  const log = `${room}2026-03-01\n  ¦dam change 30 % flow\n  dam sick praecox 2 of 9 case t\n  dam close t recovered\n`;
  const { view } = atCursor(log);
  const places = ["dam change", "praecox 2", "t recovered"].map((part) => view.source.text.indexOf(part));
  fc.assert(
    fc.property(words, fc.constantFrom(...places), (word, place) => {
      const made = rename(view, place, word);
      if ("refused" in made) return;
      const after = logbookOf(shown(view, made.edits) || log.replace("¦", ""));
      expect(after.findings(view.worldDay).map((each) => each.code)).toEqual(
        view.checked.findings(view.worldDay).map((each) => each.code),
      );
    }),
    { numRuns: 300 },
  );
});
