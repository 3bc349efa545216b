import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { gitReport } from "../../language/cli/schema.ts";
import { type GitRepository, gitEnvironment } from "../support/git-repository.ts";
import { called, emptyRepository, git, march, room, setUp } from "./set-up-repository.ts";
import { atDesk, folderOf } from "./support.ts";

/** What `standpipe git` writes, what git does with it, and that nothing of it is left. */

const desk = (repository: { readonly folder: string }, ...words: string[]) =>
  atDesk(["git", ...words], {
    cwd: repository.folder,
    env: { ...gitEnvironment, NO_COLOR: "1" },
    columns: 100,
  });
const partsOf = async (repository: { readonly folder: string }, ...words: string[]) => {
  const { out, status } = await desk(repository, "--json", ...words);
  const { parts, ...rest } = gitReport.parse(JSON.parse(out));
  return { ...rest, status, acts: parts.map(({ part, act }) => `${part} ${act}`), parts };
};
const bytes = (repository: GitRepository, path: string): string =>
  readFileSync(join(repository.folder, path), "latin1");

describe("setting up and undoing", () => {
  test("says what it would do and does nothing, then does it, then nothing more, then tells its state", async () => {
    const repository = emptyRepository();
    const config = bytes(repository, ".git/config");
    const dry = await desk(repository, "--dry-run");
    expect(dry.out).toContain("merging by entries: would be set up");
    expect(dry.out).toContain("*.tank diff=standpipe merge=standpipe");
    expect(dry.out.replace(/\s+/g, " ")).toContain(
      "Where the tool is missing, or cannot join two versions, git merges by lines",
    );
    expect(bytes(repository, ".git/config")).toBe(config);
    expect(existsSync(join(repository.folder, ".gitattributes"))).toBe(false);
    expect((await partsOf(repository, "--status")).status).toBe(1);
    const first = await partsOf(repository);
    expect([first.status, first.acts]).toEqual([0, ["attributes put", "merge put", "diff put", "hook put"]]);
    expect((await partsOf(repository)).acts).toEqual([
      "attributes keep",
      "merge keep",
      "diff keep",
      "hook keep",
    ]);
    const state = await partsOf(repository, "--status");
    expect([state.status, state.written]).toEqual([0, false]);
    expect((await desk(repository, "--status")).out).toContain("a check before a commit: set up");
  });

  test.each([
    ["no file", undefined],
    ["a file", "*.png binary\n"],
    ["a file without a last line end", "*.png binary"],
    ["a file with CRLF", "*.png binary\r\n*.csv text\r\n"],
    ["an empty file", ""],
  ])("is undone to the byte where there was %s of attributes", async (_, attributes) => {
    const repository = emptyRepository();
    if (attributes !== undefined) repository.write({ ".gitattributes": attributes });
    repository.git("config", "core.fileMode", "true");
    const hook = "#!/bin/sh\n# mine\nexit 0\n";
    repository.write({ ".git/hooks/pre-commit": hook });
    chmodSync(join(repository.folder, ".git/hooks/pre-commit"), 0o755);
    const config = bytes(repository, ".git/config");
    expect((await partsOf(repository)).status).toBe(0);
    expect(git(repository, "check-attr", "merge", "a.tank").out).toBe("a.tank: merge: standpipe\n");
    expect(bytes(repository, ".git/hooks/pre-commit")).toMatch(/^#!\/bin\/sh\n# standpipe git: begin\n/);
    expect((await partsOf(repository, "--undo")).acts).toEqual([
      "attributes take",
      "merge take",
      "diff take",
      "hook take",
    ]);
    expect(bytes(repository, ".git/config")).toBe(config);
    expect(bytes(repository, ".git/hooks/pre-commit")).toBe(hook);
    expect(statSync(join(repository.folder, ".git/hooks/pre-commit")).mode & 0o777).toBe(0o755);
    if (attributes === undefined) expect(existsSync(join(repository.folder, ".gitattributes"))).toBe(false);
    else expect(bytes(repository, ".gitattributes")).toBe(attributes);
    expect((await partsOf(repository, "--undo")).acts).toEqual([
      "attributes none",
      "merge none",
      "diff none",
      "hook none",
    ]);
  });

  test("what came after it stays", async () => {
    const repository = emptyRepository();
    await desk(repository);
    repository.write({ ".gitattributes": `${bytes(repository, ".gitattributes")}*.csv text\n` });
    await desk(repository, "--undo");
    expect(bytes(repository, ".gitattributes")).toBe("*.csv text\n");
  });

  test("what an earlier version set up is set up anew", async () => {
    const repository = emptyRepository();
    await desk(repository);
    const driver = repository.git("config", "merge.standpipe.driver");
    repository.git("config", "merge.standpipe.driver", `${driver} # of old`);
    expect((await partsOf(repository)).acts[1]).toBe("merge renew");
    expect(repository.git("config", "merge.standpipe.driver")).toBe(driver);
  });
});

describe("what is refused", () => {
  test("a driver of somebody else", async () => {
    const repository = emptyRepository();
    repository.git("config", "merge.standpipe.driver", "mine %O %A %B");
    const { status, parts } = await partsOf(repository);
    expect(status).toBe(1);
    expect(parts[1]?.why).toContain("merge.standpipe.driver = mine %O %A %B");
    expect(repository.git("config", "merge.standpipe.driver")).toBe("mine %O %A %B");
    await desk(repository, "--undo");
    expect(repository.git("config", "merge.standpipe.driver")).toBe("mine %O %A %B");
  });

  test.each([
    ["#!/usr/bin/env python3\nprint()\n", 0o755, "is no script of a shell"],
    ["#!/bin/sh\n", 0o644, "may not be run"],
  ])("a hook that our part has no place in, with what to add", async (text, mode, why) => {
    const repository = emptyRepository();
    const path = join(repository.folder, ".git/hooks/pre-commit");
    mkdirSync(join(repository.folder, ".git/hooks"), { recursive: true });
    writeFileSync(path, text);
    chmodSync(path, mode);
    const { status, parts } = await partsOf(repository);
    expect(status).toBe(1);
    expect(parts[3]?.why).toContain(why);
    expect(parts[3]?.lines[1]).toContain("standpipe check --staged");
    expect(readFileSync(path, "utf8")).toBe(text);
  });

  test("hooks that are elsewhere, and links", async () => {
    const repository = emptyRepository();
    const elsewhere = folderOf({ attributes: "" });
    repository.git("config", "core.hooksPath", elsewhere);
    symlinkSync(join(elsewhere, "attributes"), join(repository.folder, ".gitattributes"));
    const { acts, parts } = await partsOf(repository);
    expect(acts).toEqual(["attributes refuse", "merge put", "diff put", "hook refuse"]);
    expect(parts[0]?.why).toContain("it is a link");
    expect(parts[3]?.why).toContain("outside of this repository");
    // To be copied: in one piece, be the terminal as narrow as it may.
    expect((await desk(repository)).out.split("\n").map((line) => line.trim())).toContain(parts[3]?.lines[1]);
    expect(readFileSync(join(elsewhere, "attributes"), "utf8")).toBe("");
  });

  test("what is no repository, has no work tree, is a file, or is not there", async () => {
    const outside = folderOf({ "a.tank": "" });
    const said = async (folder: string, ...words: string[]) => (await desk({ folder }, ...words)).err;
    expect(await said(outside)).toBe("standpipe: .: this is in no git repository; git init begins one\n");
    expect(await said(outside, "a.tank")).toContain("name a folder");
    expect(await said(outside, "b")).toContain("there is no such file or folder");
    expect(await said(outside, "--status", "--undo")).toContain("--status looks only");
    git({ folder: outside }, "init", "-q", "--bare", "bare.git");
    expect(await said(join(outside, "bare.git"))).toContain("has no work tree");
    const { err, status } = await atDesk(["git"], { cwd: outside, env: { PATH: "/nonexistent" } });
    expect([status, err]).toEqual([2, "standpipe: git is not installed here, or not on the path\n"]);
  });
});

test("hooks of a folder of the repository are set up there", async () => {
  const repository = emptyRepository();
  repository.git("config", "core.hooksPath", "tools/hooks");
  expect((await partsOf(repository)).acts[3]).toBe("hook put");
  expect(bytes(repository, "tools/hooks/pre-commit")).toMatch(/^#!\/bin\/sh\n# made by standpipe git\n/);
  await desk(repository, "--undo");
  expect(existsSync(join(repository.folder, "tools/hooks/pre-commit"))).toBe(false);
});

test("folders that were made for the hook go with it, and those that hold something else stay", async () => {
  const repository = emptyRepository();
  rmSync(join(repository.folder, ".git/hooks"), { recursive: true, force: true });
  await desk(repository);
  await desk(repository, "--undo");
  expect(existsSync(join(repository.folder, ".git/hooks"))).toBe(false);
  expect(readdirSync(join(repository.folder, ".git")).filter((each) => each.startsWith("standpipe"))).toEqual(
    [],
  );
  repository.git("config", "core.hooksPath", "tools/deep/hooks");
  repository.write({ "tools/mine": "" });
  await desk(repository);
  repository.write({ "tools/deep/kept": "" });
  await desk(repository, "--undo");
  expect(existsSync(join(repository.folder, "tools/deep/hooks"))).toBe(false);
  expect(existsSync(join(repository.folder, "tools/deep/kept"))).toBe(true);
});

test("settings that cannot be written are told, with what was set up before them and what takes it out", async () => {
  const repository = emptyRepository();
  const before = bytes(repository, ".git/config");
  // Where a lock lies nobody may write, whoever runs the test.
  const lock = join(repository.folder, ".git/config.lock");
  writeFileSync(lock, "");
  const { status, err } = await desk(repository);
  expect(status).toBe(2);
  expect(err).toContain("standpipe: git config: could not lock config file");
  expect(err).toContain(
    "up to there it is set up (.gitattributes, merge.standpipe): standpipe git --undo takes it out",
  );
  rmSync(lock);
  expect((await desk(repository, "--undo")).status).toBe(0);
  expect(existsSync(join(repository.folder, ".gitattributes"))).toBe(false);
  expect(bytes(repository, ".git/config")).toBe(before);
});

test("a work tree beside shares what is set up, and says so", async () => {
  const repository = emptyRepository();
  repository.commit("The room", { "room.tank": room });
  const beside = join(folderOf({}), "beside");
  repository.git("worktree", "add", "-q", beside);
  const { out } = await desk({ folder: beside });
  expect(out).toContain("one of several work trees");
  expect(repository.git("config", "merge.standpipe.driver")).toContain("standpipe merge");
  expect((await partsOf({ folder: beside }, "--status")).isWorktree).toBe(true);
  // Each has its own attributes: what one takes out leaves the other's for it to take out.
  await desk(repository);
  for (const folder of [beside, repository.folder]) {
    expect((await desk({ folder }, "--undo")).status).toBe(0);
    expect(git({ folder }, "status", "--porcelain").out).toBe("");
  }
});

test("the head of a hunk is the day, or the definition", async () => {
  const repository = emptyRepository();
  const many = (lead: string): string => Array.from({ length: 8 }, (_, at) => `${lead}${at}\n`).join("");
  const long = `${room}${many('  note "')}`.replace(/(note "\d)/g, '$1"');
  const days = `${march.replace("02\n", '02 "power cut"\n')}${many("  dam  feed flake  # ")}`;
  repository.commit("The room", { "room.tank": long, "2026-03.tank": days });
  await desk(repository);
  repository.write({ "room.tank": long.replace('7"', '70"'), "2026-03.tank": days.replace("# 7", "# 70") });
  const heads = (text: string): string[] => [...text.matchAll(/^@@ .* @@ ?(.*)$/gm)].map(([, head]) => head!);
  expect(heads(git(repository, "diff").out)).toEqual(['2026-03-02 "power cut"', "tank r4"]);
  repository.git("add", "-A");
  repository.git("commit", "-q", "--no-verify", "-m", "More");
  expect(heads(git(repository, "log", "-p", "-1", "--", "*.tank").out)).toEqual([
    '2026-03-02 "power cut"',
    "tank r4",
  ]);
});

describe("before a commit what is staged is checked, and not the files", () => {
  const bad = march.replace("dam  change", "dam  chnge");

  test("a bad line that is staged stops it, though the file is good again; a good one passes beside a bad file", async () => {
    const repository = await setUp();
    repository.write({ "2026-03.tank": bad });
    repository.git("add", "-A");
    repository.write({ "2026-03.tank": march });
    const stopped = git(repository, "commit", "-q", "-m", "Bad");
    expect(stopped.status).toBe(1);
    expect(stopped.err).toContain("2026-03.tank:2:8  error  entry/kind");
    expect(stopped.err).toContain(
      "the commit was stopped; mend and stage these lines, or git commit --no-verify",
    );
    repository.write({ "2026-03.tank": `${march}  r4   clean\n` });
    repository.git("add", "-A");
    repository.write({ "2026-03.tank": bad });
    expect(git(repository, "commit", "-q", "-m", "Good").status).toBe(0);
  });

  test("of a file that is staged in part that part is checked; marks that a merge left stop it", async () => {
    const repository = await setUp();
    repository.write({ "2026-03.tank": `${march}  r4   clean\n` });
    repository.git("add", "-A");
    repository.write({ "2026-03.tank": `${march}  r4   clean\n  r4   fede flake\n` });
    expect(git(repository, "commit", "-q", "-m", "Half").status).toBe(0);
    expect(repository.git("status", "--porcelain")).toBe("M 2026-03.tank");
    repository.write({
      "2026-03.tank": march.replace(
        /^.*30 %\n/m,
        (line) => `<<<<<<< HEAD\n${line}=======\n>>>>>>> holiday\n`,
      ),
    });
    repository.git("add", "-A");
    const { status, err } = git(repository, "commit", "-q", "-m", "Unsettled");
    expect([status, err.match(/syntax\/conflict/g)]).toEqual([1, Array(3).fill("syntax/conflict")]);
  });

  test("what was committed before does not stop it", async () => {
    const repository = emptyRepository();
    repository.commit("An old slip", { "room.tank": room, "2026-03.tank": bad });
    expect((await called(repository.folder)).status).toBe(0);
    repository.write({ "2026-03.tank": `${bad}  r4   clean\n` });
    repository.git("add", "-A");
    expect(git(repository, "commit", "-q", "-m", "More").status).toBe(0);
  });

  test("in a folder with a blank and a quote in its name", async () => {
    const repository = emptyRepository(folderOf({ "a keeper's room/x": "" }).concat("/a keeper's room"));
    repository.write({ "room.tank": room, "two days.tank": bad });
    expect((await called(repository.folder)).status).toBe(0);
    repository.git("add", "-A");
    const { status, err } = git(repository, "commit", "-q", "-m", "Bad");
    expect([status, err.includes("two days.tank:2:8")]).toEqual([1, true]);
  });
});
