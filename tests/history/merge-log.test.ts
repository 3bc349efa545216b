import { describe, expect, test } from "vitest";
import { type MergedLog, mergeLogs } from "../../language/history/merge/merge-log.ts";

/** Two versions of a log and what comes of them; `|` is a line end. */
const merged = (base: string, ours: string, theirs: string): MergedLog | undefined => {
  const [a, b, c] = [base, ours, theirs].map((text) => text.replaceAll("|", "\n"));
  return mergeLogs(a!, b!, c!);
};
const joined = (base: string, ours: string, theirs: string): string => {
  const result = merged(base, ours, theirs);
  expect(result?.conflicts).toBe(0);
  return result!.text.replaceAll("\n", "|");
};

const day = "2026-03-01|  dam change 30 %|";

describe("entries of one day", () => {
  test("of both sides stand in the result, ours first where no time tells", () => {
    expect(joined(day, `${day}  dam clean|`, `${day}  r4 clean|`)).toBe(`${day}  dam clean|  r4 clean|`);
  });

  test("stand in the order of their times, and what has none keeps the time at which it counts", () => {
    const ours = `${day}  09:00 dam feed flake|  dam clean|`;
    const theirs = `${day}  r4 clean|  08:00 r4 feed flake|`;
    const both = `${day}  r4 clean|  08:00 r4 feed flake|  09:00 dam feed flake|  dam clean|`;
    expect(joined(day, ours, theirs)).toBe(both);
    expect(joined(day, theirs, ours)).toBe(both);
  });

  test("stand at the time that one side stated, though the other put a later one above them", () => {
    const [stated, later] = [day.replace("dam", "06:00 dam"), day.replace("  dam", "  07:00 r4 clean|  dam")];
    const both = "2026-03-01|  06:00 dam change 30 %|  07:00 r4 clean|";
    expect(joined(day, stated, later)).toBe(both);
    expect(joined(day, later, stated)).toBe(both);
  });

  test("that both sides added stand once, and twice where each had them twice", () => {
    const one = "  dam feed flake|";
    expect(joined(day, day + one, `${day}  dam   feed  flake|  r4 clean|`)).toBe(`${day}${one}  r4 clean|`);
    expect(joined(day, day + one + one, `${day}${one}${one}  r4 clean|`)).toBe(
      `${day}${one}${one}  r4 clean|`,
    );
    expect(joined(day, day + one, `${day}${one}${one}`)).toBe(day + one + one);
    expect(joined(day + one + one, day + one, `${day}${one}  r4 clean|`)).toBe(`${day}${one}  r4 clean|`);
  });

  test("that both put right at different things are put right at both", () => {
    const base = "2026-03-01|  dam test nitrate 18, pH 7.2|";
    expect(joined(base, base.replace("18", "20"), base.replace("7.2", "7.4"))).toBe(
      "2026-03-01|  dam test nitrate 20, pH 7.4|",
    );
    expect(joined(base, base.replace("  dam", "  08:00 dam"), base.replace("18", "20"))).toBe(
      "2026-03-01|  08:00 dam test nitrate 20, pH 7.2|",
    );
    expect(joined(base, base.replace("7.2", "7.2, KH 4"), base.replace("7.2", '7.2 "drops"'))).toBe(
      '2026-03-01|  dam test nitrate 18, pH 7.2, KH 4 "drops"|',
    );
  });

  test("keep the comments above and behind them", () => {
    const ours = `${day}  # after the holiday|  dam clean|`;
    expect(joined(day, ours, "2026-03-01|  dam change 30 %  # by siphon|  r4 clean|")).toBe(
      "2026-03-01|  dam change 30 %  # by siphon|  # after the holiday|  dam clean|  r4 clean|",
    );
  });

  test("stay below their head where the other side took the day away", () => {
    expect(
      joined(
        `${day}|2026-03-02|  r4 clean|`,
        "2026-03-02|  r4 clean|",
        `${day}  dam clean||2026-03-02|  r4 clean|`,
      ),
    ).toBe("2026-03-01|  dam clean||2026-03-02|  r4 clean|");
  });
});

describe("rounds", () => {
  const round = "2026-03-01|  sheet  pH   KH|    dam  7.2  5|";
  test("take rows of both sides below the same heads, and no entry comes between", () => {
    expect(joined(round, `${round}    r4   7.0  4|`, `${round}    q1   7.1  4|  r4 clean|`)).toBe(
      `${round}    r4   7.0  4|    q1   7.1  4|  r4 clean|`,
    );
  });

  test("of which one side changed the heads are joined cell by cell", () => {
    const widened = "2026-03-01|  sheet  pH   KH  nitrate|    dam  7.2  5   18|";
    expect(joined(round, widened, `${round}    r4   7.0  4|`)).toBe(`${widened}    r4   7.0  4|`);
    expect(joined(round, widened, round.replace("7.2", "7.4"))).toBe(widened.replace("7.2", "7.4"));
    expect(
      joined(
        round,
        widened,
        "2026-03-01|  sheet  pH   iron  KH|    dam  7.2  0.1   5|    r4   7.0  0.2   4|",
      ),
    ).toBe("2026-03-01|  sheet  pH   iron  KH  nitrate|    dam  7.2  0.1   5   18|    r4   7.0  0.2   4|");
    expect(joined(round, "2026-03-01|  sheet  pH|    dam  7.2|", `${round}    r4   7.0  -|`)).toBe(
      "2026-03-01|  sheet  pH|    dam  7.2|    r4   7.0|",
    );
  });

  test("keep what was written under a head that is another now under its own", () => {
    expect(joined(round, round.replace("KH", "GH"), `${round}    r4   7.0  4|`)).toBe(
      "2026-03-01|  sheet  pH   GH  KH|    dam  7.2  5|    r4   7.0  -   4|",
    );
    // A cell may have its unit with it.
    const warm = "2026-03-01|  sheet  temperature (F)  pH|    dam  76               7.2|";
    const metric = "2026-03-01|  sheet  temperature (C)  pH|    dam  24.4             7.2|";
    expect(joined(warm, metric, `${warm}    r4   77               7.1|`)).toBe(
      `${metric}    r4   77 F             7.1|`,
    );
    // Which unit a head without one means only the room says.
    const bare = warm.replace(" (F)", "");
    expect(joined(bare, metric, `${bare}    r4   77               7.1|`)).toBe(
      "2026-03-01|  sheet  temperature (C)  temperature  pH|    dam  24.4             -            7.2|    r4   -                77           7.1|",
    );
  });

  test("have a conflict where the reading and its head were changed, around the row alone", () => {
    for (const [ours, theirs] of [[round.replace("KH", "GH"), round.replace("  5", "  6")]]) {
      const result = merged(round, ours!, theirs!);
      expect(result?.conflicts).toBe(1);
      expect(result?.text).toBe(
        "2026-03-01\n  sheet  pH   GH  KH\n<<<<<<< ours\n    dam  7.2  5\n=======\n    dam  7.2  -   6\n>>>>>>> theirs\n",
      );
    }
  });

  test("may be short: what is missing was not measured", () => {
    const short = round.replace("  5", "");
    expect(joined(short, round, short.replace("7.2", "7.4"))).toBe(round.replace("7.2", "7.4"));
    expect(joined(short, short.replace("7.2", "7.4"), round)).toBe(round.replace("7.2", "7.4"));
  });

  test("that both added are one where they share a reading", () => {
    const [ours, theirs] = [
      "|  sheet  pH   KH|    dam  7.2  5|",
      "|  sheet  pH   GH|    dam  7.2  9|    r4   7.0  4|",
    ];
    expect(joined("2026-03-01|", `2026-03-01${ours}`, `2026-03-01${theirs}`)).toBe(
      "2026-03-01|  sheet  pH   KH  GH|    dam  7.2  5   9|    r4   7.0  -   4|",
    );
    expect(
      merged("2026-03-01|", `2026-03-01${ours}`, `2026-03-01${theirs.replace("GH", "KH")}`)?.conflicts,
    ).toBe(1);
    const other = ours.replaceAll("dam", "q1");
    expect(joined("2026-03-01|", `2026-03-01${ours}`, `2026-03-01${other.replace("KH", "GH")}`)).toBe(
      `2026-03-01${ours.slice(0, -1)}${other.replace("KH", "GH")}`,
    );
  });

  test("of one day have a row once that each side added in another of them, and two where the heads are others", () => {
    const heads = "2026-03-01|  sheet pH nitrate|";
    const ours = `${heads}    dam 7.2 18|    r5 7.1 3|`;
    const theirs = `${heads}    r5 7.1 3|  sheet pH nitrate|    dam 7.2 18|    q1 - 4|`;
    const both = `${ours}  sheet pH nitrate|    q1 - 4|`;
    expect(joined("", ours, theirs)).toBe(both);
    expect(joined("", theirs, ours)).toBe(both);
    const other = "2026-03-01|  sheet KH|    dam 7|";
    const pH = "2026-03-01|  sheet pH|    dam 7|";
    expect(joined("", pH, other)).toBe(`${pH}  sheet KH|    dam 7|`);
  });

  test("that one side took away keep the rows that are new", () => {
    expect(joined(round, "2026-03-01|", `${round}    r4   7.0  4|`)).toBe(
      "2026-03-01|  sheet  pH   KH|    r4   7.0  4|",
    );
    expect(merged(round, "2026-03-01|", round.replace("7.2", "7.3"))?.conflicts).toBe(1);
  });

  test("have their marks around the row alone", () => {
    const result = merged(round, round.replace("7.2", "7.3"), round.replace("7.2", "7.4"));
    expect(result?.text).toBe(
      "2026-03-01\n  sheet  pH   KH\n<<<<<<< ours\n    dam  7.3  5\n=======\n    dam  7.4  5\n>>>>>>> theirs\n",
    );
  });
});

describe("a date that heads several blocks", () => {
  const cut = `${day}|2026-03-01|  dam test pH 7|`;
  test("has what both added once, in whichever of them each put it", () => {
    const first = cut.replace("30 %|", "30 %|  r4 clean|");
    const second = `${cut}  r4 clean|`;
    expect(joined(cut, first, second)).toBe(first);
    expect(joined(cut, second, first)).toBe(first);
    expect(joined(day, `${day}  r4 clean|`, `${day}|2026-03-01|  r4 clean|`).trimEnd()).toMatch(
      /^2026-03-01\| {2}dam change 30 %\| {2}r4 clean\|+$/,
    );
    const round = "  sheet  pH|    dam  7.2|";
    expect(joined(cut, cut.replace("30 %|", `30 %|${round}`), cut + round)).toBe(
      cut.replace("30 %|", `30 %|${round}`),
    );
  });

  test("keeps nothing that one side carried to another block and the other took away", () => {
    const feed = "  dam feed flake|";
    const base = `2026-03-01|${feed}|2026-03-01|${feed}`;
    const [carried, bare] = [`2026-03-01||2026-03-01|${feed}${feed}`, "2026-03-01||2026-03-01|"];
    expect(joined(base, carried, bare)).toBe(bare);
    expect(joined(base, bare, carried)).toBe(bare);
  });

  test("is joined alike whichever side is ours", () => {
    const base = "2026-03-01||2026-03-01|  dam change 30 %|  dam change 30 %|";
    const below = "2026-03-01||2026-03-01|  dam change 1 %|  dam change 30 %|";
    const above = "2026-03-01|  dam change 1 %||2026-03-01|  dam change 30 %|";
    expect(joined(base, below, above)).toBe(above);
    expect(joined(base, above, below)).toBe(above);
  });

  test("loses nothing that one side carried from one to the other", () => {
    const carried = "2026-03-01||2026-03-01|  dam test pH 7|  dam change 30 %|";
    expect(joined(cut, carried, `${cut}  r4 clean|`)).toBe(
      "2026-03-01||2026-03-01|  dam test pH 7|  dam change 30 %|  r4 clean|",
    );
    expect(joined(cut, carried, cut.replace("  dam change 30 %|", ""))).not.toContain("change");
  });

  test("has each block as what it has most in common with", () => {
    const lone = "2026-03-01|  dam test pH 7|";
    expect(joined(cut, lone, cut.replace("pH 7", "pH 8"))).toBe(lone.replace("pH 7", "pH 8"));
  });
});

describe("a conflict", () => {
  const [ours, theirs] = [day.replace("30", "40"), day.replace("30", "50")];
  test("shows what both were made of where git is set to do so, under the names that git gives", () => {
    const [base, own, other] = [day, ours, theirs].map((text) => text.replaceAll("|", "\n"));
    const names = { base: "empty tree", ours: "HEAD", theirs: "holiday" };
    expect(mergeLogs(base!, own!, other!, { showsBase: true, markSize: 9, ...names })?.text).toBe(
      `2026-03-01
<<<<<<<<< HEAD
  dam change 40 %
||||||||| empty tree
  dam change 30 %
=========
  dam change 50 %
>>>>>>>>> holiday
`,
    );
  });

  test("is not where a figure was corrected and a text and a comment were put behind it", () => {
    expect(joined(day, ours, day.replace("30 %", '30 % "slowly"  # by siphon'))).toBe(
      '2026-03-01|  dam change 40 % "slowly"  # by siphon|',
    );
  });
});

describe("definitions", () => {
  const tank = "tank dam|  volume  310 L|  limits  nitrate <= 25 mg/L, pH 6.8..7.8|";
  test("are joined property by property, and value by value", () => {
    expect(joined(tank, tank.replace("25", "20"), `${tank.replace("6.8", "6.5")}  role  show|`)).toBe(
      "tank dam|  volume  310 L|  limits  nitrate <= 20 mg/L, pH 6.5..7.8|  role  show|",
    );
    const group = "group rack = r1 .. r3|";
    expect(joined(group, "group rack = r1 .. r3, q1|", "group rack = r1 .. r3, q2|")).toBe(
      "group rack = r1 .. r3, q1, q2|",
    );
  });

  test("say one thing of each: two values that both sides added are left to a person", () => {
    expect(merged(tank, `${tank}  role  show|`, `${tank}  role  breeding|`)?.conflicts).toBe(1);
    expect(merged(tank, `${tank}  every 7 d change|`, `${tank}  every 10 d change|`)?.conflicts).toBe(1);
    expect(merged(tank, `${tank}  every 7 d change|`, `${tank}  every 9 d clean|`)?.conflicts).toBe(0);
    expect(merged("", 'tank dam "A"|  volume 1 L|', 'tank dam "B"|  volume 1 L|')?.conflicts).toBe(1);
    expect(joined("", "tank dam|  volume 1 L|", 'tank dam "B"|  role show|')).toBe(
      'tank dam "B"|  volume 1 L|  role show|',
    );
  });

  test("that one side took away and the other went on with are left to a person", () => {
    expect(merged(`${tank}|${day}`, day, `${tank.replace("310", "300")}|${day}`)?.conflicts).toBe(1);
  });
});

describe("days", () => {
  test("stand in their order, the latest on top where that is the custom", () => {
    const [first, third] = ["2026-03-01|  dam clean|", "2026-03-03|  dam clean|"];
    const [ours, theirs] = ["2026-03-04|  r4 clean|", "2026-03-02|  q1 clean|"];
    expect(joined(first, `${first}|${ours}`, `${first}|${theirs}`)).toBe(`${first}|${theirs}|${ours}`);
    expect(joined(`${third}|${first}`, `${ours}|${third}|${first}`, `${third}|${theirs}|${first}`)).toBe(
      `${ours}|${third}|${theirs}|${first}`,
    );
  });

  test("that got another date keep it, with what the other side wrote into them", () => {
    expect(joined(day, day.replace("03-01", "03-02"), `${day}  dam clean|`)).toBe(
      "2026-03-02|  dam change 30 %|  dam clean|",
    );
  });
});

describe("a date that one side joined of several blocks, or cut in several", () => {
  const [morning, evening] = ["2026-03-01|  dam change 30 %|", '2026-03-01 "power cut"|  r4 feed flake|'];
  const joinedDay = '2026-03-01 "power cut"|  r4 feed flake|  dam change 30 %|';

  test("takes what the other side put right or added", () => {
    expect(joined(`${morning}|${evening}`, joinedDay, `${morning.replace("30", "40")}|${evening}`)).toBe(
      joinedDay.replace("30", "40"),
    );
    expect(joined(`${morning}|${evening}`, joinedDay, `${morning}|${evening}  q1 clean|`)).toBe(
      '2026-03-01 "power cut"|  r4 feed flake|  q1 clean|  dam change 30 %|',
    );
  });

  test("lacks what the other side took away", () => {
    expect(joined(`${morning}|${evening}`, joinedDay, `2026-03-01|${evening}`)).toBe(evening);
  });

  test("has what the other put right where it stands now", () => {
    const day = "2026-03-01|  dam change 30 %|  r4 feed flake|";
    const cut = "2026-03-01|  dam change 30 %||2026-03-01|  r4 feed flake|";
    expect(joined(day, cut, day.replace("flake", "pellet"))).toBe(cut.replace("flake", "pellet"));
  });

  test("has a reading once that both sides added, in a round of its own or beside others", () => {
    const day = "2026-03-01|  dam clean|";
    const small = `${day}  sheet  nitrate|    r5  3|`;
    const large = `${day}|2026-03-01|  sheet  pH   nitrate|    r5   7.1  3|    r6   7.3  4|`;
    const both = joined(day, small, large);
    expect(both.match(/r5/g)).toHaveLength(1);
    expect(both).toContain("r5   7.1  3");
  });
});

describe("the text as it is written", () => {
  test("keeps CRLF, also where one side went over to it", () => {
    const windows = (text: string): string => text.replaceAll("|", "\r\n");
    expect(mergeLogs(windows(day), windows(`${day}  dam clean|`), windows(`${day}  r4 clean|`))?.text).toBe(
      windows(`${day}  dam clean|  r4 clean|`),
    );
    const plain = day.replaceAll("|", "\n");
    expect(mergeLogs(plain, windows(day), `${plain}  r4 clean\n`)?.text).toBe(windows(`${day}  r4 clean|`));
  });

  test("keeps a last line without an end, and parts what comes behind it", () => {
    const open = "2026-03-01\n  dam clean";
    expect(mergeLogs(open, `${open}\n  r4 clean`, `${open}\n  q1 clean`)?.text).toBe(
      `${open}\n  r4 clean\n  q1 clean`,
    );
  });

  test("keeps its byte order mark", () => {
    const text = "\ufeff2026-03-01\n  dam clean\n";
    expect(mergeLogs(text, `${text}  r4 clean\n`, `${text}  q1 clean\n`)?.text).toBe(
      `${text}  r4 clean\n  q1 clean\n`,
    );
  });

  test("takes over lines that nobody can read", () => {
    const base = "  loose|2026-03-01|  dam tset pH 7|junk here|  more|";
    expect(joined(base, `${base}  ours|`, base.replace("tset", "test"))).toBe(
      "  loose|2026-03-01|  dam test pH 7|junk here|  more|  ours|",
    );
  });
});

test("ten thousand entries on both sides are merged in no time to speak of", () => {
  const days = Array.from({ length: 400 }, (_, at) => {
    const date = new Date(Date.UTC(2026, 0, 1 + at)).toISOString().slice(0, 10);
    return `${date}\n${Array.from({ length: 25 }, (_, line) => `  r${line} test nitrate ${at % 40}\n`).join("")}\n`;
  });
  const with_ = (line: string): string =>
    days.map((each, at) => (at % 2 === 0 ? each.replace(/\n$/, `${line}\n`) : each)).join("");
  const result = mergeLogs(days.join(""), with_("  dam clean\n"), with_("  dam change 30 %\n"));
  expect(result?.conflicts).toBe(0);
  expect(result?.text.match(/dam/g)).toHaveLength(400);
});
