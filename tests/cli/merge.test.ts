import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import type { GitRepository } from "../support/git-repository.ts";
import { called, emptyRepository, git, march, setUp } from "./set-up-repository.ts";
import { atDesk, folderOf } from "./support.ts";

/** Logs that git merges, rebases, picks and pops, by the driver that `standpipe git` sets up. */

const name = "2026-03.tank";
const log = (repository: GitRepository, file = name): string =>
  readFileSync(join(repository.folder, file), "utf8");
const statusOf = (repository: GitRepository): string => repository.git("status", "--porcelain");

/** Two branches of which each has its own version of the log. */
async function parted(ours: string, theirs: string): Promise<GitRepository> {
  const repository = await setUp("--no-hook");
  repository.git("checkout", "-q", "-b", "holiday");
  repository.commit("Theirs", { [name]: theirs });
  repository.git("checkout", "-q", "main");
  repository.commit("Ours", { [name]: ours });
  return repository;
}

const ours = `${march.replace("nitrate 18", "nitrate 20")}  r4   clean\n`;
const theirs = `${march.replace("pH 7.2", "pH 7.4")}  07:00 dam  count praecox 14\n\n2026-03-03\n  dam  feed flake\n`;
const both = `2026-03-01
  dam  change 30 %
  dam  test nitrate 20 mg/L, pH 7.4
  r4   feed flake

2026-03-02
  dam  feed flake
  r4   clean
  07:00 dam  count praecox 14

2026-03-03
  dam  feed flake
`;

describe("entries of both branches stand in the result, without a conflict", () => {
  test("of git merge", async () => {
    const repository = await parted(ours, theirs);
    expect(git(repository, "merge", "-q", "holiday", "-m", "Both").status).toBe(0);
    expect(log(repository)).toBe(both);
    expect(statusOf(repository)).toBe("");
  });

  test("of git rebase, of git cherry-pick and of git stash pop", async () => {
    const repository = await parted(ours, theirs);
    repository.git("branch", "kept");
    expect(git(repository, "rebase", "-q", "holiday").status).toBe(0);
    expect(log(repository).split("\n").sort()).toEqual(both.split("\n").sort());
    repository.git("checkout", "-q", "-B", "picked", "kept");
    expect(git(repository, "cherry-pick", "holiday").status).toBe(0);
    expect(log(repository)).toBe(both);
    repository.git("checkout", "-q", "-B", "stashed", "kept~1");
    repository.write({ [name]: theirs });
    repository.git("stash");
    repository.git("merge", "-q", "kept");
    expect(git(repository, "stash", "pop").status).toBe(0);
    expect(log(repository)).toBe(both);
  });

  test("where one side renamed the file", async () => {
    const repository = await setUp("--no-hook");
    repository.git("checkout", "-q", "-b", "holiday");
    repository.git("mv", name, "march days.tank");
    repository.commit("Another name", { "march days.tank": march.replace("pH 7.2", "pH 7.4") });
    repository.git("checkout", "-q", "main");
    repository.commit("Ours", { [name]: ours });
    expect(git(repository, "merge", "-q", "holiday", "-m", "Both").status).toBe(0);
    expect(log(repository, "march days.tank")).toBe(ours.replace("pH 7.2", "pH 7.4"));
  });

  test("where the branches crossed", async () => {
    const repository = await parted(ours, theirs);
    repository.git("branch", "main-one", "main");
    repository.git("merge", "-q", "holiday", "-m", "One way");
    repository.git("checkout", "-q", "holiday");
    repository.git("merge", "-q", "main-one", "-m", "The other way");
    repository.commit("More", {
      [name]: log(repository).replace("r4   clean\n", "r4   clean\n  r4   feed pellet\n"),
    });
    repository.git("checkout", "-q", "main");
    repository.commit("More", { [name]: `${log(repository)}  r4   count cherry 9\n` });
    expect(git(repository, "merge", "-q", "holiday", "-m", "Crossed").status).toBe(0);
    const lines = log(repository).split("\n");
    for (const line of [...both.split("\n"), "  r4   feed pellet", "  r4   count cherry 9"])
      expect(lines).toContain(line);
    expect(lines.filter((line) => line === "  r4   clean")).toHaveLength(1);
  });

  test("where both added the file", async () => {
    const repository = await setUp("--no-hook");
    repository.git("checkout", "-q", "-b", "holiday");
    repository.commit("April", { "2026-04.tank": "2026-04-01\n  dam  clean\n" });
    repository.git("checkout", "-q", "main");
    repository.commit("April", { "2026-04.tank": "2026-04-01\n  dam  change 20 %\n" });
    expect(git(repository, "merge", "-q", "holiday", "-m", "Both").status).toBe(0);
    expect(log(repository, "2026-04.tank")).toBe("2026-04-01\n  dam  change 20 %\n  dam  clean\n");
  });
});

describe("a true conflict", () => {
  test("is where both changed the same fact: marks around that line alone, which check names", async () => {
    const repository = await parted(
      `${march.replace("nitrate 18", "nitrate 20")}  r4   clean\n`,
      `${march.replace("nitrate 18", "nitrate 22")}  dam  clean\n`,
    );
    const { status, out } = git(repository, "merge", "holiday");
    expect(status).toBe(1);
    expect(out).toContain(`Merge conflict in ${name}`);
    expect(log(repository)).toBe(`2026-03-01
  dam  change 30 %
<<<<<<< ours
  dam  test nitrate 20 mg/L, pH 7.2
=======
  dam  test nitrate 22 mg/L, pH 7.2
>>>>>>> theirs
  r4   feed flake

2026-03-02
  dam  feed flake
  r4   clean
  dam  clean
`);
    const { out: told } = await atDesk(["check", "--severity", "error"], { cwd: repository.folder });
    expect(told.match(/syntax\/conflict/g)).toHaveLength(3);
    expect(told).toContain("a merge left two versions of the lines below");
    // One version counts, and what stands behind them too.
    expect(told).toContain("6 entries");
  });

  test("shows what both were made of where git is set so, at marks of the size that is asked for", async () => {
    const repository = await parted(march.replace("18", "20"), march.replace("18", "22"));
    repository.write({ ".git/info/attributes": "*.tank conflict-marker-size=9\n" });
    expect(git(repository, "-c", "merge.conflictStyle=zdiff3", "merge", "holiday").status).toBe(1);
    // From 2.44 on git tells the names of the versions.
    expect(log(repository).replace(/ (?:HEAD|holiday|ours|theirs|base|[0-9a-f]{7,})$/gm, "")).toBe(
      march.replace(
        /^.*nitrate 18.*\n/m,
        (line) =>
          `<<<<<<<<<\n${line.replace("18", "20")}|||||||||\n${line}=========\n${line.replace("18", "22")}>>>>>>>>>\n`,
      ),
    );
  });

  test("is where one removed what the other corrected", async () => {
    const repository = await parted(
      march.replace("  r4   feed flake\n", ""),
      march.replace("r4   feed flake", "r4   feed flake 2 g"),
    );
    expect(git(repository, "merge", "holiday").status).toBe(1);
    expect(log(repository)).toContain("<<<<<<< ours\n=======\n  r4   feed flake 2 g\n>>>>>>> theirs\n");
  });
});

describe("where the tool cannot do it git does, by lines", () => {
  test("of a file that is no text", async () => {
    const repository = await parted(`${march}  r4   note "\u00e9"\n`, march.replace("30 %", "40 %"));
    writeFileSync(join(repository.folder, name), Buffer.from(`${march}  r4   note "\u00e9"\n`, "latin1"));
    repository.commit("Latin");
    const { status } = git(repository, "merge", "-q", "holiday", "-m", "Both");
    expect(status).toBe(0);
    const merged = readFileSync(join(repository.folder, name), "latin1");
    expect(merged).toContain("40 %");
    expect(merged).toContain('note "\u00e9"');
  });

  test("of a clone that was not set up", async () => {
    const repository = await parted(ours, theirs);
    repository.git("config", "--remove-section", "merge.standpipe");
    expect(git(repository, "check-attr", "merge", name).out).toContain("merge: standpipe");
    expect(git(repository, "merge", "holiday").status).toBe(1);
    expect(log(repository)).toContain("<<<<<<< HEAD\n");
    expect(log(repository)).toContain("count praecox 14");
  });

  test("of a clone where the tool is gone", async () => {
    const repository = await parted(ours, theirs);
    const driver = repository.git("config", "merge.standpipe.driver");
    repository.git("config", "merge.standpipe.driver", driver.replaceAll(".mjs", ".gone"));
    const { status, err } = git(repository, "merge", "holiday");
    expect(status).toBe(1);
    expect(err).toContain("standpipe: merging by lines instead");
    const merged = log(repository);
    for (const line of [
      "nitrate 20 mg/L, pH 7.2",
      "nitrate 18 mg/L, pH 7.4",
      "r4   clean",
      "count praecox 14",
    ])
      expect(merged).toContain(line);
    expect(merged).toMatch(/^<<<<<<< (?:ours|HEAD)$/m);
    expect(merged).toMatch(/^>>>>>>> (?:theirs|holiday)$/m);
  });
});

describe("wherever the log lies", () => {
  test.each(['a keeper\'s "days" $(false).tank', "two\nlines.tank", "-x.tank", "%O %P é.tank"])(
    "a log called %j",
    async (file) => {
      const repository = await setUp("--no-hook");
      repository.commit("Another log", { [file]: march });
      repository.git("checkout", "-q", "-b", "holiday");
      repository.commit("Theirs", { [file]: theirs });
      repository.git("checkout", "-q", "main");
      repository.commit("Ours", { [file]: ours });
      expect(git(repository, "merge", "-q", "holiday", "-m", "Both").status).toBe(0);
      expect(log(repository, file)).toBe(both);
    },
  );

  test("in a work tree beside, and in a submodule, which is set up by itself", async () => {
    const repository = await parted(ours, theirs);
    const beside = join(folderOf({}), "beside");
    repository.git("worktree", "add", "-q", beside, "holiday");
    expect(git({ folder: beside }, "merge", "-q", "main", "-m", "Both").status).toBe(0);
    expect(readFileSync(join(beside, name), "utf8").split("\n").sort()).toEqual(both.split("\n").sort());
    const outer = emptyRepository();
    outer.git("-c", "protocol.file.allow=always", "submodule", "--quiet", "add", repository.folder, "fish");
    const inner = join(outer.folder, "fish");
    expect((await called(inner, "--no-hook")).status).toBe(0);
    expect(existsSync(join(outer.folder, ".gitattributes"))).toBe(false);
    expect(git(outer, "config", "merge.standpipe.driver").status).toBe(1);
    expect(git({ folder: inner }, "merge", "-q", "origin/holiday", "-m", "Both").status).toBe(0);
    expect(readFileSync(join(inner, name), "utf8").split("\n").sort()).toEqual(both.split("\n").sort());
  });
});

describe("by hand", () => {
  const files = { "b.tank": march, "o.tank": ours, "t.tank": theirs };
  const merge = (cwd: string, ...words: string[]) =>
    atDesk(["merge", "b.tank", "o.tank", "t.tank", ...words], { cwd });

  test("the result is printed, or takes the place of ours", async () => {
    const cwd = folderOf(files);
    expect((await merge(cwd, "--print")).out).toBe(both);
    expect(readFileSync(join(cwd, "o.tank"), "utf8")).toBe(ours);
    expect((await merge(cwd)).status).toBe(0);
    expect(readFileSync(join(cwd, "o.tank"), "utf8")).toBe(both);
  });

  test("marks have the size that is asked for", async () => {
    const cwd = folderOf({ ...files, "t.tank": march.replace("nitrate 18", "nitrate 22") });
    const { status, out, err } = await merge(cwd, "--print", "--marker-size=9", "--path", "the log");
    expect(status).toBe(1);
    expect(out).toContain(`\n${"<".repeat(9)} ours\n`);
    expect(err).toBe("the log: both sides changed the same in 1 place; both versions stay\n");
  });

  test("marks have the names that are given, but for those that git did not fill in", async () => {
    const cwd = folderOf({ ...files, "t.tank": march.replace("nitrate 18", "nitrate 22") });
    const marks = async (...words: string[]) =>
      (await merge(cwd, "--print", ...words)).out.match(/^[<|=>]{7}.*$/gm);
    expect(await marks("--ours=HEAD", "--theirs=a b", "--base=", "--conflict-style=diff3")).toEqual([
      "<<<<<<< HEAD",
      "||||||| base",
      "=======",
      ">>>>>>> a b",
    ]);
    expect(await marks("--ours=%X", "--theirs=%Y", "--base=%S", "--conflict-style=")).toEqual([
      "<<<<<<< ours",
      "=======",
      ">>>>>>> theirs",
    ]);
    expect((await merge(cwd, "--conflict-style=x")).err).toContain("takes merge, diff3 or zdiff3, not “x”");
  });

  test.each([
    [{ ...files, "t.tank": "\0" }, "standpipe: t.tank: this is no text\n"],
    [{ "b.tank": march, "o.tank": ours }, "standpipe: t.tank: there is no such file or folder\n"],
  ])("what cannot be read is left alone", async (some, said) => {
    const cwd = folderOf(some);
    expect(await merge(cwd)).toEqual({ status: 2, out: "", err: said });
    expect(readFileSync(join(cwd, "o.tank"), "utf8")).toBe(ours);
  });

  test("words that make no sense are told", async () => {
    const cwd = folderOf(files);
    expect((await merge(cwd, "more")).err).toContain("three files");
    expect((await merge(cwd, "--marker-size", "x")).err).toContain(
      "--marker-size takes a number of signs, not “x”",
    );
  });
});
