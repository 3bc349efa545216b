import { describe, expect, onTestFinished, test } from "vitest";
import { historyReport } from "../../language/cli/schema.ts";
import { type GitRepository, gitEnvironment, gitRepository } from "../support/git-repository.ts";
import { atDesk } from "./support.ts";

const room = 'room "Shed"\n\ntank dam\n  volume 100 L\ntank r1\ntank r2\ngroup rack = r1 .. r2\n';
const on = (day: number, ...lines: string[]): string =>
  `2026-03-0${day}\n${lines.map((line) => `  ${line}\n`).join("")}`;

function made(): GitRepository {
  const repository = gitRepository();
  onTestFinished(() => repository.remove());
  return repository;
}

const ask = (repository: GitRepository, ...words: string[]) =>
  atDesk(["history", ...words], {
    cwd: repository.folder,
    env: { ...gitEnvironment, NO_COLOR: "1" },
    day: "2026-04-01",
  });

/** `Put right: ~ test: pH 7.2 -> 7.4`, the latest first. */
async function told(repository: GitRepository, ...words: string[]): Promise<string[]> {
  const { out, err } = await ask(repository, ...words, "--json");
  expect(err).toBe("");
  return historyReport
    .parse(JSON.parse(out))
    .commits.flatMap(({ subject, changes }) =>
      changes.map(({ is, of, text }) => `${subject || "not yet"}: ${is} ${of} ${text}`),
    );
}

describe("the history of a line", () => {
  test("through corrections, another day, another file, and a file under another name", async () => {
    const repository = made();
    repository.commit("First", {
      "room.tank": room,
      "log.tank": on(1, "dam clean glass", "dam test pH 7.2"),
    });
    repository.commit("Beside it", {
      "log.tank": on(1, "dam clean glass, gravel", "dam feed flake", "dam test pH 7.2"),
    });
    repository.commit("Put right", {
      "log.tank": on(1, "dam clean glass, gravel", "dam feed flake", "dam test pH 7.4"),
    });
    repository.git("mv", "log.tank", "march.tank");
    repository.commit("Called otherwise");
    const text = `${on(1, "dam clean glass, gravel", "dam feed flake")}${on(2, "dam test pH 7.4")}`;
    repository.commit("A day later", { "march.tank": text });
    repository.write({ "march.tank": text.replace("7.4", "7.5") });
    expect(await told(repository, "march.tank:5")).toEqual([
      "not yet: corrected dam test: pH 7.4 -> 7.5",
      "A day later: moved dam test pH 7.4: from 1 March to 2 March",
      "Put right: corrected dam test: pH 7.2 -> 7.4",
      "First: added dam test pH 7.2",
    ]);
    expect(await told(repository, "march.tank:5", "--value", "ph")).toHaveLength(2);
    expect(await told(repository, "march.tank:4", "--at", "HEAD~1")).toEqual([
      "Put right: corrected dam test: pH 7.2 -> 7.4",
      "First: added dam test pH 7.2",
    ]);
  });

  test("through a merge, to where it was written", async () => {
    const repository = made();
    repository.commit("First", { "room.tank": room, "log.tank": on(1, "dam clean") });
    repository.git("checkout", "-q", "-b", "work");
    repository.commit("On the branch", { "april.tank": on(2, "r1 feed flake") });
    repository.git("checkout", "-q", "main");
    repository.commit("On main", { "log.tank": on(1, "dam clean glass") });
    repository.git("merge", "-q", "--no-edit", "work");
    expect(await told(repository, "april.tank:2")).toEqual(["On the branch: added r1 feed flake"]);
    expect(await told(repository, "log.tank:2")).toEqual([
      "On main: corrected dam clean: glass added",
      "First: added dam clean",
    ]);
    // What a merge brings is told of the commit that it brought, once.
    expect(await told(repository, "r1", "--value", "x")).toEqual([]);
    expect((await told(repository, "r1")).filter((each) => each.includes("feed"))).toEqual([
      "On the branch: added r1 feed flake",
    ]);
  });

  test("of what is not committed yet", async () => {
    const repository = made();
    repository.write({ "room.tank": room });
    expect(await told(repository, "room.tank:4")).toEqual(["not yet: added tank dam volume 100 L"]);
    expect((await ask(repository, "room.tank:4")).out).toContain("not committed yet");
  });
});

describe("the history of a tank", () => {
  test("its entries, those of its groups, moves into it, its definition", async () => {
    const repository = made();
    repository.commit("First", {
      "room.tank": room,
      "log.tank": on(1, "@rack feed flake", 'dam note "r1 is dull"'),
    });
    repository.commit("A move", {
      "log.tank": on(1, "@rack feed flake", 'dam note "r1 is dull"', "dam move cherry 3 -> r1"),
    });
    expect(await told(repository, "r1")).toEqual([
      "A move: added dam move cherry 3 -> r1",
      "First: added @rack feed flake",
      "First: added tank r1 tank r1",
    ]);
  });

  test("one value of it: when did it change, from what", async () => {
    const repository = made();
    repository.commit("First", { "room.tank": room, "log.tank": on(1, "dam test nitrate 18, pH 7.2") });
    repository.commit("Measured anew", { "room.tank": room.replace("100 L", "96 L") });
    repository.commit("More", {
      "log.tank": `${on(1, "dam test nitrate 18, pH 7.2")}${on(2, "dam test pH 7.0")}`,
    });
    repository.commit("Put right", {
      "log.tank": `${on(1, "dam test nitrate 18, pH 7.4")}${on(2, "dam test pH 7.0")}`,
    });
    expect(await told(repository, "dam", "--value", "pH")).toEqual([
      "Put right: corrected dam test: pH 7.2 -> 7.4",
    ]);
    expect(await told(repository, "dam", "--value", "volume")).toEqual([
      "Measured anew: corrected tank dam volume 100 L -> 96 L",
      "First: added tank dam volume 100 L",
    ]);
    const { out } = await ask(repository, "dam", "--value", "ph");
    expect(out).toMatch(
      /^dam, ph\n {2}1 March 2026 {2}[0-9a-f]{8} {2}Put right\n {4}~ 1 March dam test: pH 7\.2 -> 7\.4\n$/,
    );
  });
});

describe("of a file that is not as it was", () => {
  test("gone, called otherwise, or no text any more", async () => {
    const repository = made();
    const log = on(1, "dam clean", "dam test pH 7.2");
    repository.commit("First", {
      "room.tank": room,
      "a.tank": log,
      "b.tank": log.replace("7.2", "7.3"),
      "c.tank": on(2),
    });
    repository.git("mv", "b.tank", "d.tank");
    repository.write({ "a.tank": undefined, "c.tank": new Uint8Array([0x50, 0x4b, 0, 0xff, 0xfe]) });
    const wrong = async (...words: string[]) => (await ask(repository, ...words)).err;
    const gone =
      "there is no such log here any more; with --at HEAD its lines are as they were committed last";
    expect(await wrong("a.tank:2")).toBe(`standpipe: a.tank: ${gone}\n`);
    expect(await wrong("b.tank:2")).toBe(`standpipe: b.tank: ${gone}\n`);
    expect(await wrong("c.tank:1")).toBe("standpipe: c.tank: this is no text\n");
    expect(await told(repository, "a.tank:2", "--at", "HEAD")).toEqual(["First: added dam clean"]);
    expect(await told(repository, "d.tank:3")).toEqual(["First: added dam test pH 7.3"]);
  });

  test("left by a merge with its marks, and with no branch checked out", async () => {
    const repository = made();
    repository.commit("First", { "room.tank": room, "log.tank": on(1, "dam test pH 7.2") });
    repository.git("checkout", "-q", "--detach");
    const apart = repository.commit("Apart", { "log.tank": on(1, "dam test pH 7.3") });
    repository.git("checkout", "-q", "main");
    repository.commit("Here", { "log.tank": on(1, "dam test pH 7.4") });
    repository.git("checkout", "-q", "--detach", "HEAD");
    expect(() => repository.git("merge", "-q", apart)).toThrow(/CONFLICT/);
    expect(await told(repository, "log.tank:3")).toEqual([
      "Here: corrected dam test: pH 7.2 -> 7.4",
      "First: added dam test pH 7.2",
    ]);
    expect(await told(repository, "log.tank:2")).toEqual(["not yet: added  <<<<<<< HEAD (cannot be read)"]);
  });
});

describe("says what is wrong", () => {
  test.each([
    [[], "of what? standpipe history FILE:LINE, or standpipe history TANK"],
    [["damm"], "nothing in this log was ever called “damm”; did you mean “dam”?"],
    [["room.tank:99"], "room.tank has no line 99"],
    [["room.tank:2"], "room.tank:2 says nothing of its own: a comment or a blank line has no history here"],
    [["gone.tank:2"], "gone.tank:2: there is no such log here"],
    [["dam", "nowhere"], "nowhere: there is no such folder"],
    [["dam", "a", "b"], "one line or name, and one folder: standpipe history dam a"],
    [["dam", "--at", "nope"], "there is no commit, branch, tag or day “nope”"],
  ])("%j", async (words, message) => {
    const repository = made();
    repository.commit("First", { "room.tank": room });
    const { status, err } = await ask(repository, ...words);
    expect([status, err]).toEqual([
      2,
      `standpipe: ${message.replace("gone.tank:2: there", "gone.tank: there")}\n`,
    ]);
  });
});
