import { symlinkSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { checkReport } from "../../language/cli/schema.ts";
import { atDesk, bad, cellar, folderOf, room, shell, standpipe } from "./support.ts";

const shed = () => folderOf({ "room.tank": room, "2026-03.tank": bad });

async function reportOf(args: readonly string[], cwd: string) {
  const { out, status } = await standpipe(["check", "--json", ...args], { cwd });
  return { ...checkReport.parse(JSON.parse(out)), status };
}

describe("a finding is shown", () => {
  test("with its place, the writer's own line with the part marked, what is wrong, and what to do", async () => {
    const { out } = await standpipe(["check"], { cwd: shed() });
    expect(out).toContain(`2026-03.tank:3:8  error  entry/kind
    dam  tset pH 7
         ^^^^
  “tset” is no kind of entry; did you mean “test”?
  → Write “test”
`);
  });

  test("with what it follows from beside it", async () => {
    const { out } = await standpipe(["check"], { cwd: shed() });
    expect(out).toContain(`2026-03.tank:2:21  warning  limit/above
    dam  test nitrate 40
                      ^^
  nitrate 40 mg/L in dam is above its limit: at most 25 mg/L
`);
    expect(out).toContain("    limit stated in tank dam: room.tank:7:11\n");
  });

  test("in a narrow window without breaking out of it", async () => {
    const { out } = await standpipe(["check", cellar], { env: { COLUMNS: "40" } });
    expect(Math.max(...out.split("\n").map((line) => line.length))).toBeLessThanOrEqual(40);
    expect(out).toContain("pH 65");
  });

  test("with its marks below the part, however wide the letters before it are", async () => {
    const cwd = folderOf({ "room.tank": `${room}2026-03-01\n\tdam  note "水槽" feed\n` });
    const { out } = await standpipe(["check"], { cwd });
    const [line, marks] = out.split("\n").slice(1);
    expect(line).toBe('    dam  note "水槽" feed');
    expect(marks).toBe("                     ^^^^");
  });

  test("where a byte order mark and CRLF stand as if they did not", async () => {
    const text = `\ufeff${room}${bad}`.replaceAll("\n", "\r\n");
    const { findings } = await reportOf([], folderOf({ "room.tank": text }));
    const { place, text: line } = findings.find(({ code }) => code === "entry/kind")!;
    expect([place.line, place.column, place.endColumn, line]).toEqual([10, 8, 12, "  dam  tset pH 7"]);
    const first = await reportOf([], folderOf({ "a.tank": "\ufefftnak dam\r\n" }));
    expect(first.findings[0]?.place).toMatchObject({ line: 1, column: 1, endColumn: 5 });
  });
});

describe("the end of check", () => {
  test("is 0 for a log without errors, and a summary says so", async () => {
    const { status, out } = await standpipe(["check"], { cwd: folderOf({ "room.tank": room }) });
    expect([status, out]).toEqual([0, "No findings in 1 file, 0 entries\n"]);
  });

  test("is 1 for an error", async () => {
    const { status, out } = await standpipe(["check"], { cwd: shed() });
    expect(status).toBe(1);
    expect(out).toMatch(/\n1 error, 1 warning in 2 files, 1 entry\n$/);
  });

  test("is 0 for warnings, and 1 if they are to count", async () => {
    const cwd = folderOf({ "room.tank": room, "2026-03.tank": bad.replace("tset", "test") });
    expect((await standpipe(["check"], { cwd })).status).toBe(0);
    expect((await standpipe(["check", "--strict"], { cwd })).status).toBe(1);
  });

  test("is 2 if a file could not be read, and the others are checked all the same", async () => {
    const cwd = folderOf({
      "room.tank": room,
      "2026-03.tank": bad,
      "2026-04.tank": new Uint8Array([0x32, 0x0a, 0xff]),
    });
    const { status, out, err } = await standpipe(["check"], { cwd });
    expect(status).toBe(2);
    expect(err).toBe("not read  2026-04.tank:2: this line is not UTF-8; save the file as UTF-8\n");
    expect(out).toContain("1 error, 1 warning in 2 files, 1 entry; 1 file not read");
  });

  test("does not depend on what is shown", async () => {
    const cwd = folderOf({ "room.tank": room, "2026-03.tank": bad.replace("tset", "test") });
    const { status, out } = await standpipe(["check", "--strict", "--severity", "error"], { cwd });
    expect([status, out]).toEqual([1, "1 warning in 2 files, 2 entries (1 not shown: --severity hint)\n"]);
  });
});

describe("what is checked", () => {
  test("with a file is the file, against all of its logbook", async () => {
    const { findings } = await reportOf(["2026-03.tank"], shed());
    expect(findings.map(({ code }) => code)).toEqual(["limit/above", "entry/kind"]);
    const { findings: ofRoom } = await reportOf(["room.tank"], shed());
    expect(ofRoom).toEqual([]);
  });

  test("with a folder below the room is the folder, against all of its logbook", async () => {
    const cwd = folderOf({ "room.tank": room, "2026/03.tank": bad, "2025/01.tank": bad });
    const { findings, logbooks } = await reportOf(["."], join(cwd, "2026"));
    expect(findings.map(({ place }) => place.file)).toEqual(["03.tank", "03.tank"]);
    expect(logbooks).toMatchObject([{ folder: "..", title: "Shed", files: 3 }]);
  });

  test("with a folder of several rooms is each of them", async () => {
    const cwd = folderOf({ "a/room.tank": room, "b/room.tank": room + bad, "b/c/room.tank": room });
    const { logbooks, findings } = await reportOf([], cwd);
    expect(logbooks.map(({ folder }) => folder)).toEqual(["a", "b", "b/c"]);
    expect(new Set(findings.map(({ place }) => place.file))).toEqual(new Set(["b/room.tank"]));
  });

  test("with several paths is all of them, once each", async () => {
    const cwd = folderOf({ "a/room.tank": room + bad, "b/room.tank": room });
    const { logbooks, findings } = await reportOf(["a", "b", "a/room.tank"], cwd);
    expect(logbooks.map(({ folder }) => folder)).toEqual(["a", "b"]);
    expect(findings).toHaveLength(2);
  });

  test("with “-” is standard input", async () => {
    const { status, out } = await standpipe(["check", "-"], { input: room + bad });
    expect(status).toBe(1);
    expect(out).toContain("stdin:10:8  error  entry/kind");
  });

  test("stops at the root of a repository", async () => {
    const cwd = folderOf({ "room.tank": room, "mine/.git/HEAD": "", "mine/2026-03.tank": bad });
    const { logbooks } = await reportOf([], join(cwd, "mine"));
    expect(logbooks).toMatchObject([{ title: "", files: 1 }]);
  });
});

describe("the day of a check", () => {
  const log = `${room.replace("  as-of  last-entry\n", "")}2026-03-01\n  dam  clean\n`;

  test("is today, on the calendar", async () => {
    const cwd = folderOf({ "room.tank": log });
    expect((await atDesk(["check"], { cwd, day: "2026-03-29" })).out).not.toContain("late");
    expect((await atDesk(["check"], { cwd, day: "2026-04-09" })).out).toContain("clean is 11 days late");
  });

  test("is the day that was asked for, and entries after it do not count yet", async () => {
    const cwd = folderOf({ "room.tank": `${log}2026-04-20\n  dam  clean\n` });
    const { out } = await standpipe(["check", "--as-of", "2026-04-09"], { cwd });
    expect(out).toContain("clean is 11 days late (last done on 1 March 2026)");
    expect((await standpipe(["check", "--as-of", "2026-04-21"], { cwd })).out).not.toContain("late");
  });
});

describe("as JSON", () => {
  test("every finding of the cellar has its place, its fixes and why", async () => {
    const report = await reportOf(["--severity", "hint", "samples/cellar"], join(cellar, "..", ".."));
    expect(report.status).toBe(1);
    expect(report.logbooks).toMatchObject([{ folder: "samples/cellar", title: "Cellar", tanks: 24 }]);
    const { error, warning, information, hint } = report.counts;
    expect(report.findings).toHaveLength(error + warning + information + hint);
    const slip = report.findings.find(({ code }) => code === "value/impossible")!;
    expect(slip.text.slice(slip.place.column - 1, slip.place.endColumn - 1)).toBe("65");
    expect(slip.fixes[0]?.edits[0]).toMatchObject({ text: "6.5", place: slip.place });
    const crossing = report.findings.find(({ code }) => code === "trend/crosses")!;
    expect(crossing.why?.from.length).toBeGreaterThan(3);
  });

  test("a name that holds a line end or quotes is whole", async () => {
    const name = 'a\n"b" %é.tank';
    const { findings } = await reportOf([], folderOf({ [name]: room + bad }));
    expect(findings[0]?.place.file).toBe(name);
  });

  test("what could not be read is named", async () => {
    const cwd = folderOf({ "room.tank": room, "b.tank": "\0" });
    const report = await reportOf([], cwd);
    expect([report.status, report.unread]).toEqual([
      2,
      [{ file: "b.tank", message: "b.tank: this is no text" }],
    ]);
  });
});

describe("through a pipe", () => {
  test("that is closed early, it ends without a word", async () => {
    const { err, out } = await shell("standpipe check samples/cellar --severity hint | head -n 1");
    expect(err).toBe("");
    expect(out.split("\n")).toHaveLength(2);
  });

  test("a link that leads in a circle is no hindrance", async () => {
    const cwd = shed();
    symlinkSync(cwd, join(cwd, "again"));
    expect((await reportOf([], cwd)).logbooks).toMatchObject([{ files: 2 }]);
  });
});
