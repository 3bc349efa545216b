import { describe, expect, test } from "vitest";
import { commands } from "../../language/cli/commands.ts";
import { asOfDay, readWords } from "../../language/cli/options.ts";
import { atDesk, cellar, folderOf, standpipe } from "./support.ts";

describe("help", () => {
  test("lists the commands, without a word and for --help", async () => {
    const bare = await standpipe([]);
    expect(bare.status).toBe(0);
    for (const { word, summary } of commands) {
      expect(bare.out).toContain(`standpipe ${word}`);
      expect(bare.out.replace(/\s+/g, " ")).toContain(summary);
    }
    expect((await standpipe(["--help"])).out).toBe(bare.out);
    expect((await standpipe(["help"])).out).toBe(bare.out);
  });

  test.each(commands.map((command) => [command.word, command] as const))(
    "of %s tells its options, with examples",
    async (word, command) => {
      const { status, out } = await atDesk([word, "--help"]);
      expect(status).toBe(0);
      for (const { name } of command.options) expect(out).toContain(`--${name}`);
      expect(command.examples.length).toBeGreaterThan(0);
      for (const [line] of command.examples) expect(out).toContain(line);
      expect((await atDesk(["help", word])).out).toBe(out);
    },
  );

  test.each([24, 40, 80, 200])(
    "fits %i columns, and no line is longer than the eye follows",
    async (columns) => {
      for (const words of [[], ...commands.map(({ word }) => [word, "-h"])]) {
        const { out } = await atDesk(words, { columns, env: { NO_COLOR: "1" } });
        const said = out.split("\n").filter((line) => !/^ {2}(standpipe|git) /.test(line));
        expect(Math.max(...said.map((line) => line.length))).toBeLessThanOrEqual(Math.min(columns, 88));
      }
    },
  );

  test("--version says which this is", async () => {
    expect((await standpipe(["--version"])).out).toMatch(/^\d+\.\d+\.\d+\n$/);
  });

  test("every example of a command is one that it takes", () => {
    for (const command of commands) {
      for (const [line] of command.examples) {
        const words = /standpipe \w+ ?([^>|<]*)/.exec(line)![1]!.trim();
        expect(() => readWords(words === "" ? [] : words.split(/\s+/), command)).not.toThrow();
      }
    }
  });
});

const words = commands.map(({ word }) => word).join(", ");

describe("a word that is not known", () => {
  test.each([
    [["chek"], "there is no command “chek”; did you mean “check”?"],
    [["prune"], `there is no command “prune”; there are ${words}`],
    [["--json"], `a command comes first: ${words}`],
    [["check", "--sverity", "error"], "check has no option “--sverity”; did you mean “--severity”?"],
    [["check", "--stdin"], "check has no option “--stdin”; standpipe check --help lists them"],
    [["check", "-x"], "check has no option “-x”; standpipe check --help lists them"],
    [["check", "--severity"], "--severity needs a value: --severity error|warning|information|hint"],
    [
      ["check", "--severity", "warnings"],
      "--severity takes error, warning, information, hint, not “warnings”; did you mean “warning”?",
    ],
    [
      ["check", "--severity", "--json"],
      "--severity needs a value: --severity error|warning|information|hint",
    ],
    [["check", "--json=yes"], "--json takes no value"],
    [["check", "--as-of", "1 March"], "“1 March” is no day; a day is written like 2026-03-01"],
    [["today", "--as-of", "2026-02-30"], "“2026-02-30” is no day; a day is written like 2026-03-01"],
    [["today", "--color", "pink"], "--color takes auto, always, never, not “pink”"],
    [["tank"], "which tank? standpipe tank NAME [DIR]"],
    [["tank", "dam", "a", "b"], "one tank and one folder: standpipe tank dam a"],
    [["why"], "why what? standpipe why TANK FIGURE [DIR], as in: standpipe why dam nitrate"],
    [["explain", "dose/above"], "no finding has the code “dose/above”; standpipe explain lists them"],
    [["explain", "limit/abov"], "no finding has the code “limit/abov”; did you mean “limit/above”?"],
  ] as const)("%j", async (call, message) => {
    expect(await atDesk(call)).toEqual({ status: 2, out: "", err: `standpipe: ${message}\n` });
  });

  test("ends the process with 2", async () => {
    expect((await standpipe(["chek"])).status).toBe(2);
  });
});

describe("options", () => {
  const words = (args: string[]) => {
    const { words: rest, values } = readWords(args, commands[0]!);
    return [rest, Object.fromEntries(values)];
  };

  test("stand before or behind the arguments", () => {
    expect(words(["--json", "a", "--severity", "hint", "b"])).toEqual([
      ["a", "b"],
      { json: "", severity: "hint" },
    ]);
    expect(words(["a", "b", "--severity=hint"])).toEqual([["a", "b"], { severity: "hint" }]);
  });

  test("end at two dashes", () => {
    expect(words(["--strict", "--", "--json"])).toEqual([["--json"], { strict: "" }]);
  });

  test("leave a dash alone", () => {
    expect(words(["-"])).toEqual([["-"], {}]);
  });

  test("a day is a day of the calendar", () => {
    expect(asOfDay("1970-01-02")).toBe(1);
    expect(asOfDay(undefined)).toBeNaN();
  });
});

describe("an empty folder", () => {
  test.each([["check"], ["today"], ["tank", "dam"], ["why", "dam", "nitrate"], ["format"]])(
    "%s ends with 2 and says what is missing",
    async (...words) => {
      const cwd = folderOf({ "notes.txt": "" });
      const { status, out, err } = await standpipe(words, { cwd });
      expect([status, out]).toEqual([2, ""]);
      expect(err).toMatch(/^standpipe: .*no \.tank file here or below/);
    },
  );

  test("explain needs no log", async () => {
    expect((await standpipe(["explain"], { cwd: folderOf({}) })).status).toBe(0);
  });
});

describe("a folder that is not there", () => {
  test.each([["check"], ["today"], ["format"]])("%s names the nearest that is", async (word) => {
    const cwd = folderOf({ "cellar/room.tank": "" });
    const { status, err } = await standpipe([word, "celar"], { cwd });
    expect([status, err]).toEqual([
      2,
      "standpipe: celar: there is no such file or folder; did you mean “cellar”?\n",
    ]);
  });

  test("is not confused with a file of another kind", async () => {
    const cwd = folderOf({ "notes.txt": "" });
    expect((await standpipe(["check", "notes.txt"], { cwd })).err).toBe(
      "standpipe: notes.txt: a log is a file that ends in .tank\n",
    );
  });
});

test("an empty file is an empty log", async () => {
  const cwd = folderOf({ "room.tank": "" });
  for (const words of [["check"], ["today"], ["format", "--check"]])
    expect((await standpipe(words, { cwd })).status).toBe(0);
  expect((await standpipe(["today"], { cwd })).out).toContain("No tank is defined yet");
  expect((await standpipe(["tank", "dam"], { cwd })).err).toBe("standpipe: no tank is defined here\n");
});

test("nothing the commands say names the folder of the machine when it is not asked to", async () => {
  const { out } = await standpipe(["check", "--json"], { cwd: cellar });
  expect(out).not.toContain(cellar);
});
