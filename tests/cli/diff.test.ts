import { symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, onTestFinished, test } from "vitest";
import { diffReport } from "../../language/cli/schema.ts";
import {
  type GitRepository,
  gitEnvironment,
  gitRepository,
  sampleHistory,
} from "../support/git-repository.ts";
import { atDesk, cellar, type Desk, type Ended, folderOf } from "./support.ts";

const room = 'room "Shed"\n  as-of last-entry\n\ntank dam\n  volume 100 L\n  limits nitrate <= 25 mg/L\n';
const march = (nitrate: number): string => `2026-03-01\n  dam test nitrate ${nitrate}\n`;

/** A repository with two commits: nitrate 20, then 40. */
function shed(): GitRepository {
  const repository = gitRepository();
  onTestFinished(() => repository.remove());
  repository.commit("The room", { "room.tank": room, "2026-03.tank": march(20) }, "2026-03-01T20:00:00Z");
  repository.commit("Put right", { "2026-03.tank": march(40) }, "2026-03-05T20:00:00Z");
  return repository;
}

const diff = (repository: GitRepository, words: readonly string[], desk: Desk = {}): Promise<Ended> =>
  atDesk(["diff", ...words], {
    cwd: repository.folder,
    env: { ...gitEnvironment, NO_COLOR: "1" },
    columns: 100,
    ...desk,
  });

const told = async (repository: GitRepository, ...words: string[]): Promise<string[]> => {
  const { out, err, status } = await diff(repository, [...words, "--json"]);
  expect([err, status]).toEqual(["", 0]);
  return diffReport
    .parse(JSON.parse(out))
    .logbooks.flatMap(({ changes }) => changes.map(({ of, text }) => `${of} ${text}`));
};

describe("which two states", () => {
  test("commits, branches, tags, days and ranges", async () => {
    const repository = shed();
    repository.git("tag", "first", "HEAD~1");
    repository.git("checkout", "-q", "-b", "work", "HEAD~1");
    repository.commit("Work", { "2026-04.tank": "2026-04-01\n  dam clean\n" }, "2026-03-06T20:00:00Z");
    const put = ["dam test: nitrate 20 -> 40"];
    expect(await told(repository, "first", "main")).toEqual(put);
    expect(await told(repository, "HEAD~1", "main")).toEqual(put);
    expect(await told(repository, "first..main")).toEqual(put);
    expect(await told(repository, "main...work")).toEqual(["dam clean"]);
    expect(await told(repository, "main..work")).toEqual(["dam test: nitrate 40 -> 20", "dam clean"]);
    repository.git("checkout", "-q", "main");
    expect(await told(repository, "2026-03-01", "2026-03-05")).toEqual(put);
    expect(await told(repository, "2026-03-04", "2026-03-31")).toEqual(put);
    expect(await told(repository, "--since", "2026-03-05")).toEqual(put);
    expect(await told(repository, "--since", "2026-03-06")).toEqual([]);
  });

  test("the files as they are, what is staged, and what is not", async () => {
    const repository = shed();
    repository.write({ "2026-03.tank": march(41) });
    repository.git("add", "-A");
    repository.write({
      "2026-03.tank": march(42),
      "new.tank": "2026-03-02\n  dam clean\n",
      "ignored.tank": "2026-03-02\n  dam clean\n",
      ".gitignore": "ignored.tank\n",
    });
    expect(await told(repository)).toEqual(["dam test: nitrate 40 -> 42", "dam clean"]);
    expect(await told(repository, "--staged")).toEqual(["dam test: nitrate 40 -> 41"]);
    expect(await told(repository, "--staged", "HEAD~1")).toEqual(["dam test: nitrate 20 -> 41"]);
    expect(await told(repository, "--unstaged")).toEqual(["dam test: nitrate 41 -> 42", "dam clean"]);
  });

  test("before the first commit everything is new", async () => {
    const repository = gitRepository();
    onTestFinished(() => repository.remove());
    repository.write({ "room.tank": room });
    expect(await told(repository)).toHaveLength(5);
    const { out } = await diff(repository, []);
    expect(out).toContain("HEAD, with no commit yet -> the files as they are");
  });

  test("with no branch checked out, of a file that is gone, and of a merge that is not settled", async () => {
    const repository = shed();
    repository.git("checkout", "-q", "HEAD~1");
    expect(await told(repository, "main")).toEqual(["dam test: nitrate 40 -> 20"]);
    repository.write({ "2026-03.tank": undefined });
    expect(await told(repository)).toEqual(["dam test nitrate 20"]);
    expect((await diff(repository, [])).out).toContain("2026-03.tank is gone");
    repository.commit("Apart", { "2026-03.tank": march(30) });
    expect(() => repository.git("merge", "-q", "main")).toThrow(/CONFLICT/);
    // What is staged is our side; the files have both, and the marks.
    expect(await told(repository, "--staged")).toEqual([]);
    expect((await told(repository)).sort()).toEqual([
      " <<<<<<< HEAD (cannot be read)",
      " ======= (cannot be read)",
      " >>>>>>> main (cannot be read)",
      "dam test nitrate 40",
    ]);
  });

  test("a folder, also from elsewhere; a branch of the same name goes first", async () => {
    const repository = gitRepository();
    onTestFinished(() => repository.remove());
    repository.commit("Two rooms", { "a/room.tank": room, "b/room.tank": room });
    repository.write({ "a/log.tank": march(1), "b/log.tank": march(2) });
    const out = async (cwd: string, ...words: string[]) =>
      (await atDesk(["diff", ...words, "--json"], { cwd, env: gitEnvironment })).out;
    const files = async (cwd: string, ...words: string[]) =>
      diffReport
        .parse(JSON.parse(await out(cwd, ...words)))
        .logbooks.flatMap(({ changes }) => changes.map((each) => each.after?.file));
    expect(await files(repository.folder, "a")).toEqual(["a/log.tank"]);
    expect(await files(repository.folder, "HEAD", "b/")).toEqual(["b/log.tank"]);
    expect(await files(join(repository.folder, "b"))).toEqual(["log.tank"]);
    expect(await files(repository.folder, "b/log.tank")).toEqual(["b/log.tank"]);
    expect(await files(repository.folder)).toEqual(["a/log.tank", "b/log.tank"]);
    repository.git("branch", "a");
    expect(await files(repository.folder, "a")).toEqual(["a/log.tank", "b/log.tank"]);
    expect(await files(repository.folder, "./a")).toEqual(["a/log.tank"]);
  });
});

describe("names that hold anything", () => {
  test("line feeds, blanks, quotes and a leading dash in the name of a file", async () => {
    const repository = gitRepository();
    onTestFinished(() => repository.remove());
    const names = ["-r.tank", "a b.tank", "q\"u'ote.tank", "new\nline.tank", "über.tank", "t\tab.tank"];
    repository.commit("Names", {
      "room.tank": room,
      ...Object.fromEntries(names.map((name, at) => [name, march(at)])),
    });
    repository.write(Object.fromEntries(names.map((name, at) => [name, march(at + 10)])));
    repository.git("add", "-A");
    for (const words of [[], ["--staged"]])
      expect(await told(repository, ...words)).toHaveLength(names.length);
    const { out } = await diff(repository, []);
    expect(out).not.toContain("new\nline");
  });

  test("a link out of the work tree is not followed, and one inside is read once", async () => {
    const repository = gitRepository();
    onTestFinished(() => repository.remove());
    const outside = folderOf({ "secret.tank": "2026-03-01\n  dam clean\n" });
    repository.commit("Room", { "room.tank": room });
    symlinkSync(join(outside, "secret.tank"), join(repository.folder, "out.tank"));
    symlinkSync("room.tank", join(repository.folder, "twice.tank"));
    writeFileSync(join(repository.folder, "notes.txt"), "2026-03-02\n  dam feed flake\n");
    symlinkSync("notes.txt", join(repository.folder, "notes.tank"));
    const links = ["dam feed flake"];
    expect(await told(repository)).toEqual(links);
    repository.commit("Links");
    expect(await told(repository, "HEAD~1", "HEAD")).toEqual(links);
    expect(await told(repository)).toEqual([]);
  });

  test("a repository inside the repository is none of it", async () => {
    const repository = shed();
    const inner = gitRepository(join(folderOf({}), "."));
    inner.commit("Inner", { "log.tank": "2026-03-01\n  dam clean\n" });
    repository.git("-c", "protocol.file.allow=always", "submodule", "add", "-q", inner.folder, "inner");
    repository.commit("With a module");
    expect(await told(repository, "HEAD~1", "HEAD")).toEqual([]);
    expect(await told(repository)).toEqual([]);
  });
});

describe("says what is wrong", () => {
  test.each([
    [["nope"], "there is no commit, branch, tag or day “nope”"],
    [["mian"], "there is no commit, branch, tag or day “mian”; did you mean “main”?"],
    [["--", "-x"], "there is no commit, branch, tag or day “-x”"],
    [["2020-01-01"], "there is no commit by the end of 2020-01-01; the first is of 2026-03-01"],
    [["--since", "2026-02-01"], "there is no commit before 2026-02-01; the first is of 2026-03-01"],
    [["--since", "march"], "--since takes a day like 2026-03-01, not “march”"],
    [["main", "main", "nowhere"], "“nowhere”: there is no such folder"],
    [["a", "b", "c", "d"], "two revisions and one folder at most: standpipe diff main work samples/cellar"],
    [["--staged", "--unstaged"], "--staged, --unstaged and --since are ways to name one side: one of them"],
    [["--unstaged", "main"], "--unstaged compares what is staged with the files, and takes no revision"],
    [["--staged", "main", "main"], "--staged takes one revision at most: the one before"],
  ])("%j", async (words, message) => {
    expect(await diff(shed(), words)).toEqual({ status: 2, out: "", err: `standpipe: ${message}\n` });
  });

  test("outside a repository, without a work tree, and without git", async () => {
    const cwd = folderOf({ "room.tank": room });
    expect(
      (await atDesk(["diff"], { cwd, env: { ...gitEnvironment, GIT_CEILING_DIRECTORIES: join(cwd, "..") } }))
        .err,
    ).toBe("standpipe: .: this is in no git repository; git init begins one\n");
    const bare = gitRepository();
    onTestFinished(() => bare.remove());
    bare.git("config", "core.bare", "true");
    expect((await diff(bare, [])).err).toBe("standpipe: .: this repository has no work tree, only commits\n");
    expect((await diff(shed(), [], { env: { ...gitEnvironment, PATH: cwd } })).err).toBe(
      "standpipe: git is not installed here, or not on the path\n",
    );
  });

  test("of a clone that holds only the last commits", async () => {
    const repository = shed();
    const folder = folderOf({});
    repository.git("clone", "-q", "--depth", "1", `file://${repository.folder}`, join(folder, "clone"));
    const cwd = join(folder, "clone");
    expect((await atDesk(["diff", "2026-03-02"], { cwd, env: gitEnvironment })).err).toMatch(
      /there is no commit by the end of 2026-03-02; the first is of 2026-03-05; this clone holds only the last commits/,
    );
    expect((await atDesk(["diff", "HEAD~1"], { cwd, env: gitEnvironment })).err).toMatch(
      /“HEAD~1”; this clone holds only the last commits/,
    );
  });

  test("of what is staged where nothing is", async () => {
    const repository = gitRepository();
    onTestFinished(() => repository.remove());
    repository.write({ "room.tank": room });
    expect(await diff(repository, ["--staged"])).toEqual({
      status: 2,
      out: "",
      err: "standpipe: .: no .tank file here or below, on neither side; git add stages what is to be committed\n",
    });
  });

  test("of a file that is no text, on the side it is on; the rest is told", async () => {
    const repository = shed();
    repository.write({ "bad.tank": new Uint8Array([0x32, 0, 0x31]) });
    const { status, err, out } = await diff(repository, ["HEAD~1"]);
    expect([status, err]).toEqual([2, "not read  bad.tank: this is no text\n"]);
    expect(out).toContain("nitrate 20 -> 40");
  });

  test("where there is no log", async () => {
    const repository = gitRepository();
    onTestFinished(() => repository.remove());
    repository.commit("Nothing", { "notes.txt": "" });
    expect((await diff(repository, [])).err).toBe(
      "standpipe: .: no .tank file here or below, on neither side\n",
    );
  });
});

describe("how it is told", () => {
  test("what follows first, with the change in the same water", async () => {
    const { out } = await diff(shed(), ["HEAD~1"]);
    expect(out).toMatch(/^Shed {2,}as of 1 March 2026\nHEAD~1 -> the files as they are\n1 corrected\n/);
    expect(out).toContain("! new warning limit/above");
    expect(out).toContain("with dam test: nitrate 20 -> 40 on 1 March");
    expect(out).toMatch(/Entries and definitions +1 March\n {2}dam\n {4}~ test: nitrate 20 -> 40\n$/);
  });

  test("ends with 1 where asked to, if anything changed", async () => {
    const repository = shed();
    expect((await diff(repository, ["HEAD~1", "--exit-code"])).status).toBe(1);
    expect((await diff(repository, ["--exit-code"])).status).toBe(0);
    expect((await diff(repository, [])).out).toContain("Nothing changed.");
  });

  test("line ends that a checkout made are no change", async () => {
    const repository = shed();
    repository.git("config", "core.autocrlf", "true");
    repository.write({ "2026-03.tank": march(40).replaceAll("\n", "\r\n") });
    expect((await diff(repository, ["--exit-code"])).status).toBe(0);
  });

  test("a file under another name, and a room in another folder", async () => {
    const repository = gitRepository();
    onTestFinished(() => repository.remove());
    repository.commit("Room", { "old/room.tank": room, "old/2026-03.tank": march(20) });
    repository.git("mv", "old", "new");
    repository.write({ "new/2026-03.tank": `${march(20)}  dam clean\n` });
    const { out } = await diff(repository, []);
    expect(out).toContain("old/room.tank is called new/room.tank now");
    expect(await told(repository)).toEqual(["dam clean"]);
  });

  test("nothing that a log holds is obeyed by the terminal", async () => {
    const repository = shed();
    repository.write({
      "2026-03.tank": `${march(40)}  dam note "\u001b[31mred\u202e"\n  dam \u001b]0;x\u0007\n`,
    });
    const { out } = await diff(repository, []);
    for (const sign of ["\u001b", "\u202e", "\u0007"]) expect(out).not.toContain(sign);
    expect(out).toContain("\\u001b[31mred\\u202e");
  });

  test.each([40, 80])("fits %i columns", async (columns) => {
    const repository = sampleOnce();
    for (const words of [
      ["HEAD~1", "HEAD"],
      ["2026-03-27", "2026-03-31", "--all"],
    ]) {
      const { out } = await diff(repository, words, { columns });
      expect(Math.max(...out.split("\n").map((line) => line.length))).toBeLessThanOrEqual(columns);
    }
  });
});

let sample: GitRepository | undefined;
process.on("exit", () => sample?.remove());
const sampleOnce = (): GitRepository => {
  sample ??= sampleHistory(cellar);
  return sample;
};

describe("the sample room, a year committed day by day", () => {
  test("its last files are the sample", async () => {
    const repository = sampleOnce();
    expect(repository.git("status", "--porcelain")).toBe("");
    expect(Number(repository.git("rev-list", "--count", "HEAD"))).toBeGreaterThan(350);
  });

  test("a day is the entries of that day", async () => {
    const repository = sampleOnce();
    const { out } = await diff(repository, ["2026-03-30", "2026-03-31", "--json"]);
    const [logbook] = diffReport.parse(JSON.parse(out)).logbooks;
    expect(new Set(logbook!.changes.map(({ is, day }) => `${is} ${day}`))).toEqual(
      new Set(["added 2026-03-31"]),
    );
    // Whoever follows an index finds the change.
    for (const { changes } of logbook!.consequences)
      for (const at of changes) expect(logbook!.changes[at]).toBeDefined();
    // The hatch of that day is in the book of animals, and told with it.
    const hatched = logbook!.consequences.find(({ is, of }) => is === "stock" && of === "r1")!;
    expect(hatched.changes.map((at) => logbook!.changes[at]!.text)).toEqual(["hatch cherry ~25"]);
  });

  test("a month is short, and lists what is more than new", async () => {
    const repository = sampleOnce();
    const { out } = await diff(repository, ["2026-02-28", "2026-03-31"]);
    expect(out).toMatch(/\+ \d+ entries from 1 March to 3\d March: \d+ \w+/);
    expect(out.split("\n").length).toBeLessThan(400);
    const page = (await diff(repository, ["2026-02-28", "2026-03-31", "--markdown"])).out;
    expect(page).toMatch(/^# What changed in the log\n/);
    expect(page).toContain("<details><summary>dam, Rainbowfish dam (");
  });
});
