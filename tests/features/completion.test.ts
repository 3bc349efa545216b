import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { doseCaution } from "../../language/checks/doses.ts";
import { type Completion, completions, resolveCompletion } from "../../language/features/completion.ts";
import { applySpaces, formatText } from "../../language/features/format.ts";
import { atCursor, viewOf } from "../support/cursor.ts";
import { findingsOf, logbookOf } from "../support/marked.ts";

const room = `room "Cellar"
  units  gallon US
water tap
water soft
species praecox "Dwarf rainbowfish"
species horn
  kind  snail
food cyclops
  kind  frozen
food flake
  kind  dry
remedy prazi
  target         2 mg/L
  repeat         3 times every 7 d
  change-before  25 %
tank dam "Rainbowfish dam"
  volume  310 L
  every   7 d change 25..35 %
  every   7 d test nitrate, pH
  at least 2 per 7 d feed frozen
tank q1
  volume  50 L
tank r1
  volume  24 L
tank r2
  volume  24 L
group rack = r1, r2
  every  2 d clean
gear canister
  kind   filter
  on     dam
  every  28 d service
`;
const past = `2026-03-01
  dam   change 30 % from soft
  dam   change 30 % from soft
  dam   test nitrate 18, pH 7.2
  dam   service canister rinsed
  dam   feed cyclops 2 cubes
  dam   arrive praecox 14
  @rack clean glass
  q1    arrive horn 3 from "river nursery" lot a17
  q1    sick horn 1 case snails-1
  dam   sick praecox 1 case tuft
  q1    dose prazi 100 mg
2026-03-03
  dam   move praecox 2 -> q1
  dam   close tuft recovered
  @rack clean glass
  sheet  temperature  nitrate
    q1   24           10
    dam  24           15
`;

interface Offered {
  readonly labels: string[];
  readonly items: readonly Completion[];
  readonly isIncomplete: boolean;
}

/** What is offered at the cursor behind the past. */
function offered(line: string, before = past): Offered {
  const { view, offset } = atCursor(`${room}${before}${line.includes("¦") ? line : `${line}¦`}`);
  const { items, isIncomplete } = completions(view, offset);
  return { labels: items.map((each) => each.label), items, isIncomplete };
}

/** The line after something offered was taken, with \`‹›\` where something is to be filled in. */
function taken(line: string, label: string, before = past): string {
  const { view, offset } = atCursor(`${room}${before}${line.includes("¦") ? line : `${line}¦`}`);
  const item = completions(view, offset).items.find((each) => each.label === label);
  if (item === undefined) throw new Error(`“${label}” is not offered`);
  const put = item.isSnippet
    ? item.insertText
        .replace(/(?<!\\)\$\{?\d+(?::((?:[^}\\]|\\.)*))?\}?/g, (_, word?: string) => `‹${word ?? ""}›`)
        .replace(/\\([\\$}])/g, "$1")
    : item.insertText;
  const { text } = view.source;
  return (text.slice(0, item.replace.start) + put + text.slice(item.replace.end)).slice(
    room.length + before.length,
  );
}

describe("in column 0", () => {
  test("today comes first, then what defines", () => {
    const { view, offset } = atCursor(`${room}2026-03-01\n  dam clean\n¦`, "2026-03-05");
    const { items } = completions(view, offset);
    expect(items.slice(0, 3).map((each) => `${each.label} ${each.detail}`)).toEqual([
      "2026-03-05 today",
      "2026-03-04 yesterday",
      "water Source water",
    ]);
    expect(items[0]!.insertText).toBe("2026-03-05\n  ");
    expect(items[0]!.goesOn).toBe(true);
    expect(items.map((each) => each.label)).not.toContain("room");
  });

  test("a day that has its block gives way to the next", () => {
    const { items } = completions(...args(atCursor(`${room}${past}¦`, "2026-03-03")));
    expect(items.slice(0, 2).map((each) => `${each.label} ${each.detail}`)).toEqual([
      "2026-03-04 the day after the last entry",
      "2026-03-03 today; it has a block already",
    ]);
  });

  test("an empty log begins with a day or a room", () => {
    const { items } = completions(...args(atCursor("¦", "2026-03-05")));
    expect(items.map((each) => each.label)).toEqual([
      "2026-03-05",
      "room",
      "water",
      "system",
      "tank",
      "group",
      "species",
      "food",
      "remedy",
      "gear",
      "lot",
      "order",
    ]);
  });

  test("what is put in is laid out and can be read", () => {
    for (const word of ["water", "system", "tank", "species", "food", "remedy", "gear"]) {
      const text = taken(word.slice(0, 2), word).replace(/‹([^›]*)›/g, (_, said: string) => said);
      expect(applySpaces(text, formatText(text)), word).toBe(text);
      expect(
        findingsOf(text).filter((each) => each.severity === "error"),
        word,
      ).toEqual([]);
    }
  });

  test("the tanks of a group", () => {
    expect(offered("group x = r1, ").labels).toEqual(["dam", "q1", "r2"]);
  });
});

describe("on a new line of a day", () => {
  test("what is due comes first as whole entries: doses with the change owed before, then the most overdue", () => {
    const due = offered("2026-03-10\n  ").items.filter((each) => each.sort === "due");
    expect(due.map((each) => `${each.label} | ${each.detail}`)).toEqual([
      "q1 change 25 % | owed before dose 2 of prazi",
      "q1 dose prazi 25 mg | 2 days late, a change of 25 % is owed first",
      "@rack clean glass | 5 days late",
      "dam change 30 % from soft | 2 days late",
      "dam test nitrate, pH | 2 days late",
      "dam feed cyclops 2 cubes | 0 of 2 times in 7 days",
    ]);
  });

  test("an entry in the columns of its block", () => {
    expect(taken("2026-03-10\n  ", "dam change 30 % from soft")).toBe(
      "2026-03-10\n  dam   change 30 % from soft",
    );
    expect(taken("2026-03-10\n  @rack-of-all clean\n  ", "q1")).toBe(
      "2026-03-10\n  @rack-of-all clean\n  q1           ",
    );
  });

  test("a test leaves open what has to be measured", () => {
    expect(taken("2026-03-10\n  da", "dam test nitrate, pH")).toBe(
      "2026-03-10\n  dam   test nitrate ‹›, pH ‹›",
    );
  });

  test("a dose makes up what is missing to the target in the water as it is", () => {
    const changed = `${past}2026-03-08\n  q1 change 50 %\n`;
    expect(taken("2026-03-08\n  ", "q1 dose prazi 50 mg", changed)).toBe(
      "2026-03-08\n  q1    dose prazi 50 mg",
    );
    expect(
      offered("2026-03-08\n  ", changed).items.find((each) => each.label.startsWith("q1 dose"))!.detail,
    ).toBe("due today");
  });

  test("what was done on the day is not due", () => {
    const { labels } = offered("2026-03-10\n  dam change 30 %\n  r1 clean\n  ");
    expect(labels).not.toContain("dam change 30 % from soft");
    // One of the rack is done: the other has an entry of its own.
    expect(labels).not.toContain("@rack clean glass");
    expect(labels).toContain("r2 clean glass");
  });

  test("nothing is due on the first days", () => {
    expect(offered("  dam clean\n  ¦\n", "2026-03-01\n").items.filter((each) => each.sort === "due")).toEqual(
      [],
    );
  });

  test("targets with something due first, then tanks, groups and the rest", () => {
    const targets = offered("2026-03-10\n  ").items.filter(
      (each) => each.sort !== "due" && each.sort !== "sheet",
    );
    expect(targets.map((each) => each.label)).toEqual(["dam", "q1", "r1", "r2", "@rack", "room", "canister"]);
    expect(targets[0]!.detail).toBe("change 30 % from soft; test; feed cyclops 2 cubes");
  });

  test("behind a time as well, and a group behind its mark", () => {
    expect(offered("2026-03-10\n  08:40 ").labels).toContain("dam change 30 % from soft");
    expect(taken("2026-03-10\n  @ra", "@rack")).toBe("2026-03-10\n  @rack ");
  });

  test("a word in the middle of a line is replaced, nothing is put behind it", () => {
    expect(taken("2026-03-10\n  d¦mm change 30 %", "dam")).toBe("2026-03-10\n  dam change 30 %");
    expect(offered("2026-03-10\n  d¦mm change 30 %").items.some((each) => each.sort === "due")).toBe(false);
  });

  test("CRLF", () => {
    const log = `${room}${past}2026-03-10\n  dam   cha`.replaceAll("\n", "\r\n");
    const view = viewOf(log);
    const { items } = completions(view, log.length);
    expect(items[0]!.label).toBe("change 30 % from soft");
    expect(items[0]!.replace).toEqual({ start: log.length - 3, end: log.length });
  });
});

describe("behind a target", () => {
  test("what is due for it, then kinds by how often they are written for it", () => {
    const { items } = offered("2026-03-10\n  dam ");
    expect(
      items
        .filter((each) => each.sort === "due")
        .map((each) => each.label)
        .sort(),
    ).toEqual(["change 30 % from soft", "feed cyclops 2 cubes", "test nitrate, pH"]);
    const kinds = items.filter((each) => each.sort === "kind").map((each) => each.label);
    expect(kinds.slice(0, 2).sort()).toEqual(["change", "test"]);
    expect(kinds).toHaveLength(40);
  });

  test("a kind is followed by a space where something follows it, and goes on", () => {
    expect(taken("2026-03-10\n  dam   no", "note")).toBe("2026-03-10\n  dam   note ");
    expect(offered("2026-03-10\n  dam   no").items.find((each) => each.label === "note")!.goesOn).toBe(true);
  });

  test("gear is serviced and cleaned", () => {
    const { labels } = offered("2026-04-10\n  canister ");
    expect(labels).toEqual(["service canister rinsed", "clean", "service", "note"]);
  });
});

describe("arguments", () => {
  test("what is usual for the target first, then what the kind takes", () => {
    expect(offered("2026-03-10\n  dam change ").items.map((each) => `${each.sort} ${each.label}`)).toEqual([
      "due 30 % from soft",
    ]);
    expect(offered("2026-03-10\n  dam change 30 % ").labels).toEqual([
      "batch",
      "flow",
      "from",
      "at",
      "barrel",
      "with",
    ]);
    expect(offered("2026-03-10\n  dam change 30 % flow ").labels).toEqual(["from", "at", "barrel", "with"]);
    expect(offered("2026-03-10\n  dam change 30 % ¦ from tap").labels).toEqual([
      "batch",
      "flow",
      "at",
      "barrel",
      "with",
    ]);
  });

  test("behind a word that leads something, that alone", () => {
    expect(offered("2026-03-10\n  dam change 30 % from ").labels).toEqual(["soft", "tap", "q1", "r1", "r2"]);
    expect(offered("2026-03-10\n  q1 sick horn 1 case ").labels).toEqual(["snails-1", "tuft"]);
    expect(offered("2026-03-10\n  q1 lose horn 1 lot ").labels).toEqual(["a17"]);
    expect(offered("2026-03-10\n  q1 arrive horn 1 from ").labels).toEqual(['"river nursery"']);
    expect(offered("2026-03-10\n  q1 sample gill 1 kept ").labels).toEqual([
      "live",
      "chilled",
      "frozen",
      "formalin",
      "ethanol",
    ]);
  });

  test("units that fit behind a number", () => {
    expect(offered("2026-03-10\n  dam change 30 ").labels.slice(0, 5)).toEqual([
      "%",
      "L",
      "mL",
      "US gal",
      "imp gal",
    ]);
    expect(offered("2026-03-10\n  dam test nitrate 18 ").labels.slice(0, 2)).toEqual(["mg/L", "g/L"]);
    expect(offered("2026-03-10\n  dam test temperature 24 ").labels).toEqual(["C", "F"]);
    expect(offered("2026-03-10\n  dam count praecox 14 ").labels).toEqual(["of", "lot"]);
  });

  test("the species that live there first, with what the book says", () => {
    const { items } = offered("2026-03-10\n  q1 lose ");
    expect(items.map((each) => `${each.label} ${each.detail}`)).toEqual([
      "horn 3 by the book",
      "praecox 2 by the book",
    ]);
    expect(offered("2026-03-10\n  q1 count horn 3, ").labels).toEqual(["praecox"]);
  });

  test("foods with their amount as it was, those it never got after", () => {
    expect(offered("2026-03-10\n  dam feed ").labels).toEqual([
      "cyclops 2 cubes",
      "cyclops",
      "flake",
      "none",
    ]);
    expect(offered("2026-03-10\n  r1 feed ").labels).toEqual(["cyclops", "flake", "none"]);
  });

  test("where animals went before first, with the arrow or behind it", () => {
    expect(offered("2026-03-10\n  dam move praecox 1 ").labels).toEqual(["-> q1", "-> r1", "-> r2"]);
    expect(taken("2026-03-10\n  dam move praecox 1 -> r", "r2")).toBe(
      "2026-03-10\n  dam move praecox 1 -> r2",
    );
    expect(taken("2026-03-10\n  dam move praecox 1 ->r", "-> r2")).toBe(
      "2026-03-10\n  dam move praecox 1 -> r2",
    );
  });

  test("of a dose what makes the target stated, with what is in the water already", () => {
    const labels = (text: string): string[] =>
      offered(text).items.map(({ label, detail }) => `${label} | ${detail}`);
    expect(labels("2026-03-04\n  dam dose prazi ")[0]).toBe(
      "620 mg | makes 2 mg/L, the target stated, in 310 L",
    );
    // Of the 100 mg of the 1st all is there still.
    expect(labels("2026-03-04\n  q1 dose prazi ").join()).not.toMatch(/makes/);
    const changed = `${past}2026-03-03\n  q1 change 50 %\n`;
    expect(offered("2026-03-04\n  q1 dose prazi ", changed).items[0]).toMatchObject({
      label: "50 mg",
      detail: "makes 2 mg/L, the target stated, in 50 L; 1 mg/L is there",
      about: { is: "text", text: doseCaution },
    });
    expect(labels("2026-03-04\n  @rack dose prazi ").join()).not.toMatch(/makes/);
  });

  test("tests that are due first, none twice", () => {
    expect(offered("2026-03-10\n  dam test ").labels.slice(0, 2)).toEqual(["nitrate", "pH"]);
    expect(offered("2026-03-10\n  dam test no3 18, ").labels.slice(0, 1)).toEqual(["pH"]);
    expect(offered("2026-03-10\n  dam test no3 18, ").labels).not.toContain("nitrate");
  });

  test("cases that are open, those of the tank first", () => {
    const log = `${past}  dam sick praecox 1 case fin\n`;
    expect(offered("2026-03-10\n  q1 close ", log).labels).toEqual(["snails-1", "fin"]);
    expect(offered("2026-03-10\n  dam close ", log).labels).toEqual(["fin", "snails-1"]);
    expect(offered("2026-03-10\n  dam close fin ", log).labels).toEqual([
      "recovered",
      "died",
      "euthanised",
      "unresolved",
    ]);
  });

  test("gear of the tank, plants, origins", () => {
    expect(offered("2026-03-10\n  dam service ").labels.slice(0, 2)).toEqual(["canister rinsed", "canister"]);
    expect(offered("2026-03-10\n  r1 service ").labels).not.toContain("canister rinsed");
    expect(offered("2026-03-10\n  r1 plant horn 1 from ").labels).toEqual(["dam", "q1", "r2"]);
  });
});

describe("a sheet", () => {
  test("the heads of the last round, one by one or all that are missing", () => {
    expect(offered("2026-03-10\n  sheet ").labels.slice(0, 3)).toEqual([
      "temperature  nitrate",
      "temperature",
      "nitrate",
    ]);
    expect(offered("2026-03-10\n  sheet  temperature  ").labels.slice(0, 2)).toEqual(["nitrate", "pH"]);
    expect(offered("2026-03-10\n  sheet  temperature (").labels).toEqual(["C", "F"]);
  });

  test("the tanks of the last round in its order, up to the first cell", () => {
    expect(offered("2026-03-10\n  sheet      pH  nitrate\n    ").labels).toEqual(["q1", "dam", "r1", "r2"]);
    expect(taken("2026-03-10\n  sheet      pH  nitrate\n    ", "q1")).toBe(
      "2026-03-10\n  sheet      pH  nitrate\n    q1       ",
    );
    expect(offered("2026-03-10\n  sheet  pH\n    q1  7\n    ").labels[0]).toBe("dam");
  });

  test("in a cell that it was not measured", () => {
    expect(
      offered("2026-03-10\n  sheet  pH  nitrate\n    q1  7  ").items.map(
        (each) => `${each.label} ${each.detail}`,
      ),
    ).toEqual(["- nitrate: not measured"]);
    expect(offered("2026-03-10\n  sheet  pH\n    q1  7  ").labels).toEqual([]);
  });

  test("a whole sheet as in the last round", () => {
    expect(taken("2026-03-10\n  sh", "sheet temperature nitrate")).toBe(
      "2026-03-10\n  sheet  temperature  nitrate\n    ",
    );
  });
});

describe("a definition", () => {
  const inTank = (line: string) => offered(line, "tank x\n  volume  3 L\n").labels;

  test("properties that are not said yet, in their column", () => {
    expect(inTank("  ")).not.toContain("volume");
    expect(inTank("  ").slice(0, 3)).toEqual(["inside", "filled", "displaced"]);
    expect(taken("  ro", "role", "tank x\n  volume  3 L\n")).toBe("  role    ");
    expect(taken("  volume 3 L; ro", "role", "tank y\n")).toBe("  volume 3 L; role ");
  });

  test("what each takes", () => {
    expect(inTank("  role ").slice(0, 2)).toEqual(["show", "breeding"]);
    expect(offered("  system ", "system shared\ntank x\n").labels).toEqual(["shared"]);
    expect(offered("  on ", "gear x\n").labels).toEqual(["dam", "q1", "r1", "r2"]);
    expect(inTank("  limits ").slice(0, 2)).toEqual(["temperature", "pH"]);
    expect(inTank("  limits nitrate <= 25 ")[0]).toBe("mg/L");
    expect(offered("  harms ", "remedy x\n").labels).toEqual(
      expect.arrayContaining(["snail", "scaleless", "praecox"]),
    );
    expect(offered("  harms snail, ", "remedy x\n").labels).not.toContain("snail");
    expect(offered("  units ", "room\n").labels).toContain("temperature");
    expect(offered("  units temperature ", "room\n").labels).toEqual(["C", "F"]);
    expect(offered("  units temperature C, gallon ", "room\n").labels).toEqual(["US", "imperial"]);
  });

  test("duties step by step", () => {
    expect(inTank("  every ")).toContain("7 d");
    expect(inTank("  every 7 d ")).toEqual(expect.arrayContaining(["change", "test", "clean"]));
    expect(inTank("  every 7 d ")).not.toContain("note");
    expect(inTank("  every 7 d feed ").slice(0, 2)).toEqual(["dry", "frozen"]);
    expect(inTank("  at ")).toEqual(["least", "most"]);
    expect(inTank("  at least ")).toContain("3 per 7 d");
    expect(inTank("  at least 3 ")).toEqual(["per"]);
    expect(inTank("  at least 3 per ")).toContain("7 d");
    expect(offered("  needs ", "species x\n").labels).toEqual(expect.arrayContaining(["frozen", "cyclops"]));
    expect(offered("  needs frozen ", "species x\n").labels).toEqual([
      "at least 3 per 7 d",
      "at most 2 per 7 d",
    ]);
  });
});

describe("nothing is offered", () => {
  test.each([
    ["in a text", '2026-03-10\n  dam note "da¦m"'],
    ["right behind a text", '2026-03-10\n  dam sick praecox 1 signs "gasping"¦'],
    ["in a text that is open", '2026-03-10\n  dam note "d¦'],
    ["in a comment", "2026-03-10\n  dam clean # d¦"],
    ["in a line that is a comment", "2026-03-10\n  # d¦"],
    ["in a number", "2026-03-10\n  dam change 3¦"],
    ["behind what cannot be read", "2026-03-10\n  dam ¤ ¦"],
    ["behind a kind that is none", "2026-03-10\n  dam chnge ¦"],
    ["below a head that is broken", "tnak x\n  ¦"],
    ["below a day that is none", "2026-02-30\n  ¦"],
  ])("%s", (_, line) => {
    expect(offered(line).labels).toEqual([]);
  });
});

describe("documentation, when it is asked for", () => {
  const doc = (line: string, label: string, before = past): string => {
    const { view, offset } = atCursor(`${room}${before}${line}¦`);
    return resolveCompletion(view, completions(view, offset).items.find((each) => each.label === label)!);
  };

  test("of a kind its examples, of a name its definition", () => {
    expect(doc("2026-03-10\n  dam ch", "change")).toContain("`change 100 L flow from tap at 24 C`");
    expect(doc("2026-03-10\n  da", "dam")).toContain("`every   7 d change 25..35 %`".replace(/ +/g, " "));
  });

  test("of a duty when it was last done", () => {
    expect(doc("2026-03-10\n  da", "dam change 30 % from soft")).toContain("last done on 1 March 2026");
  });

  test("of a dose what is in the water, and the caution", () => {
    const text = doc("2026-03-08\n  q1", "q1 dose prazi 50 mg", `${past}2026-03-08\n  q1 change 50 %\n`);
    expect(text).toContain("In the water now\\: 1 mg\\/L\\; target 2 mg\\/L");
    expect(text.replaceAll("\\", "")).toContain(doseCaution);
  });

  test("plain data goes over a wire and comes back", () => {
    const { view, offset } = atCursor(`${room}${past}2026-03-10\n  ¦`);
    for (const item of completions(view, offset).items) {
      const back = JSON.parse(JSON.stringify(item)) as Completion;
      expect(resolveCompletion(view, back)).toBe(resolveCompletion(view, item));
    }
  });
});

describe("always", () => {
  test("a list is short, and says when more would fit", () => {
    const many = Array.from({ length: 120 }, (_, at) => `tank t${at}\n  volume 3 L\n`).join("");
    const { view, offset } = atCursor(`${many}2026-03-01\n  t¦`);
    const { items, isIncomplete } = completions(view, offset);
    expect(items.length).toBe(80);
    expect(isIncomplete).toBe(true);
    expect(
      completions(...args(atCursor(`${many}2026-03-01\n  t117¦`))).items.map((each) => each.label),
    ).toEqual(["t117"]);
  });

  test("whatever stands there, nothing throws, and what is replaced is on the line of the cursor", () => {
    const words = fc.constantFrom(
      "dam",
      "change",
      "30 %",
      "30",
      "@rack",
      "->",
      "..",
      '"a',
      "sheet",
      "pH",
      "(",
      ")",
      ",",
      ";",
      "every",
      "at",
      "7 d",
      "limits",
      "nitrate",
      "=",
      "group",
      "tank",
      "2026-03-05",
      "from",
      "case",
      "prazi",
      "dose",
      "needs",
    );
    const line = fc
      .tuple(fc.constantFrom("", "  ", "    "), fc.array(words, { maxLength: 6 }))
      .map(([indent, parts]) => indent + parts.join(" "));
    fc.assert(
      fc.property(fc.array(line, { maxLength: 4 }), fc.nat(60), (lines, back) => {
        const text = `${room}2026-03-01\n${lines.join("\n")}`;
        const view = viewOf(text);
        const offset = Math.max(0, text.length - back);
        for (const item of completions(view, offset).items) {
          expect(item.insert.start).toBe(item.replace.start);
          expect(item.insert.end).toBe(offset);
          expect(text.slice(item.replace.start, item.replace.end)).not.toContain("\n");
        }
      }),
      { numRuns: 300 },
    );
  });

  test("a whole entry that is due can be read, and does what is due", () => {
    const { view, offset } = atCursor(`${room}${past}2026-03-10\n  ¦`);
    for (const item of completions(view, offset).items.filter((each) => each.sort === "due")) {
      const line = item.insertText.replace(/\$\{\d\}/g, "7");
      const after = logbookOf(`${room}${past}2026-03-10\n  ${line}\n  `);
      const source = after.logbook.sources.get("log.tank")!;
      after.refresh();
      expect(source.blocks.at(-1)!.facts.problems, line).toEqual([]);
      const still = completions(
        { checked: after, source, worldDay: view.worldDay },
        source.text.length,
      ).items;
      // A feeding is owed twice in the week.
      if (!line.includes("feed"))
        expect(
          still.map((each) => each.label),
          line,
        ).not.toContain(item.label);
    }
  });
});

const args = ({
  view,
  offset,
}: ReturnType<typeof atCursor>): [ReturnType<typeof atCursor>["view"], number] => [view, offset];

describe("animals", () => {
  test("as many as are there come with the species, of what leaves; lots that are there come first", () => {
    expect(offered("2026-04-10\n  dam lose praecox ").labels[0]).toBe("12");
    expect(offered("2026-04-10\n  dam arrive praecox ").labels).not.toContain("12");
    expect(offered("2026-04-10\n  q1 lose horn 1 lot ").labels[0]).toBe("a17");
  });
});
