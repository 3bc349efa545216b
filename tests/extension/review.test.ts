import { readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { describe, expect, onTestFinished, test, vi } from "vitest";
import type { GitRepository as Git } from "../../extension/client/review/git-api.ts";
import { lineWalk } from "../../extension/client/review/line-walk.ts";
import { itemOf, nodesOf, type ReviewNode } from "../../extension/client/review/review-items.ts";
import { textsOf } from "../../extension/client/review/versions.ts";
import { reviewOf } from "../../language/history/review/review.ts";
import { toldReview } from "../../language/history/review/told.ts";
import type { ReviewAnswer } from "../../language/server/review-protocol.ts";
import { TestClient } from "../server/client.ts";
import { type GitRepository, gitRepository } from "../support/git-repository.ts";

vi.mock("vscode", () => ({
  l10n: {
    t: (text: string, ...args: unknown[]) => text.replace(/\{(\d)\}/g, (_, at) => String(args[Number(at)])),
  },
  TreeItemCollapsibleState: { None: 0, Collapsed: 1, Expanded: 2 },
  TreeItem: class {
    label: string;
    collapsibleState: number;
    constructor(label: string, collapsibleState: number) {
      this.label = label;
      this.collapsibleState = collapsibleState;
    }
  },
  ThemeIcon: class {},
  ThemeColor: class {},
}));

const uriOf = (fsPath: string) => ({ fsPath, path: fsPath, toString: () => `file://${fsPath}` });

describe("the files that are others in a version", () => {
  /** The interface of the editor's git extension over a real repository, as far as it is used. */
  function over({ folder, git }: GitRepository): Git {
    const changed = (...words: string[]) =>
      git(...words)
        .split("\n")
        .filter(Boolean)
        .map((name) => {
          const uri = uriOf(join(folder, name.replace(/^.*\t/, "")));
          return { uri, originalUri: uri, renameUri: undefined };
        });
    const commit = (() => {
      try {
        return git("rev-parse", "--verify", "-q", "HEAD");
      } catch {
        return undefined;
      }
    })();
    return {
      state: {
        HEAD: { name: "main", ...(commit === undefined ? {} : { commit }) },
        workingTreeChanges: changed("diff", "--name-only"),
        untrackedChanges: changed("ls-files", "--others", "--exclude-standard"),
        indexChanges: commit === undefined ? changed("ls-files") : changed("diff", "--name-only", "--cached"),
      },
      diffWith: async (ref: string) => changed("diff", "--name-only", ref),
      show: async (ref: string, path: string) =>
        `${git("show", `${ref}:${path.slice(folder.length + 1)}`)}\n`,
    } as unknown as Git;
  }

  const texts = async (repository: GitRepository, version: Parameters<typeof textsOf>[1]) => {
    const found = await textsOf(over(repository), version, (uri) =>
      uri.path.slice(repository.folder.length + 1),
    );
    return Object.fromEntries(found.map(({ uri, text }) => [uri, text]));
  };

  test("corrected, new, gone and staged ones, each with its text there or none", async () => {
    const repository = gitRepository();
    onTestFinished(() => repository.remove());
    repository.commit("First", { "a.tank": "a\n", "b.tank": "b\n", "c.tank": "c\n", "notes.txt": "n\n" });
    repository.write({ "a.tank": "staged\n" });
    repository.git("add", "-A");
    repository.write({ "a.tank": "now\n", "b.tank": undefined, "d.tank": "d\n", "notes.txt": "m\n" });
    expect(await texts(repository, { is: "commit", ref: "HEAD", name: "HEAD" })).toEqual({
      "a.tank": "a\n",
      "b.tank": "b\n",
      "d.tank": null,
    });
    expect(await texts(repository, { is: "index" })).toEqual({
      "a.tank": "staged\n",
      "b.tank": "b\n",
      "d.tank": null,
    });
    expect(await texts(repository, { is: "files" })).toEqual({});
  });

  test("before the first commit there is none", async () => {
    const repository = gitRepository();
    onTestFinished(() => repository.remove());
    repository.write({ "a.tank": "a\n", "b.tank": "b\n" });
    repository.git("add", "a.tank");
    expect(await texts(repository, { is: "commit", ref: "HEAD", name: "HEAD" })).toEqual({
      "a.tank": null,
      "b.tank": null,
    });
  });
});

describe("the lines of the view", () => {
  const room = 'room "Shed"\n  as-of last-entry\ntank dam\n  volume 100 L\n  limits nitrate <= 25 mg/L\n';
  const logs = (text: string) => [
    { path: "room.tank", text: room },
    { path: "log.tank", text },
  ];
  const place = {
    uri: "file:///log.tank",
    range: { start: { line: 1, character: 2 }, end: { line: 1, character: 9 } },
  };

  function shown(before: string, after: string): ReviewNode[] {
    const told = toldReview(reviewOf(logs(before), logs(after), { asOf: Number.NaN, worldDay: 0 }), {
      all: false,
    });
    return nodesOf({
      ...told,
      follows: told.follows.map((each) => ({
        ...each,
        items: each.items.map((item) => ({ ...item, at: place })),
      })),
      groups: told.groups.map((each) => ({
        ...each,
        days: each.days.map((day) => ({
          ...day,
          lines: day.lines.map((line) => ({
            ...line,
            before: line.before === undefined ? null : place,
            after: line.after === undefined ? null : place,
          })),
        })),
      })),
      page: "",
    } satisfies ReviewAnswer);
  }

  const all = (nodes: readonly ReviewNode[]): ReviewNode[] =>
    nodes.flatMap((node) => [node, ...("nodes" in node ? all(node.nodes) : [])]);

  test("what follows, then what changed; each has an id of its own, a name that is spoken, and a place", () => {
    const nodes = shown(
      "2026-03-01\n  dam test nitrate 20\n",
      "2026-03-01\n  dam test nitrate 40\n  dam clean\n",
    );
    expect(nodes.map((node) => itemOf(node).label)).toEqual(["What follows", "Entries and definitions"]);
    const items = all(nodes).map(itemOf);
    expect(new Set(items.map(({ id }) => id)).size).toBe(items.length);
    const spoken = items.flatMap(({ accessibilityInformation: info }) =>
      info === undefined ? [] : [info.label],
    );
    expect(spoken[0]).toMatch(
      /^to look at, dam, new warning limit\/above, .*, with dam test: nitrate 20 -> 40 on 1 March$/,
    );
    expect(spoken.slice(-2)).toEqual(["corrected, dam, test: nitrate 20 -> 40", "added, dam, clean"]);
    for (const node of all(nodes))
      if (node.is === "change" || node.is === "follow")
        expect(itemOf(node).command?.command).toBe("standpipe.review.line");
  });

  test("says so where nothing that is computed is another", () => {
    const [follows] = shown("2026-03-01\n  dam clean\n", '2026-03-01\n  dam clean\n  dam note "x"\n');
    expect("nodes" in follows! && follows.nodes.map((node) => itemOf(node).label)).toEqual([
      "Nothing that is computed is another",
    ]);
  });
});

describe("the history of a line in the editor", () => {
  const room = 'room "Shed"\n\ntank dam\n  volume 100 L\n';
  const on = (day: number, ...lines: string[]): string =>
    `2026-03-0${day}\n${lines.map((line) => `  ${line}\n`).join("")}`;

  /** What is used of the editor's git extension, over a real repository. */
  function over({ folder, git }: GitRepository): Git {
    const changed = (...words: string[]) =>
      git("diff", "--no-renames", "--name-only", ...words)
        .split("\n")
        .filter(Boolean)
        .map((name) => {
          const uri = uriOf(join(folder, name));
          return { uri, originalUri: uri, renameUri: undefined };
        });
    return {
      state: {
        HEAD: { commit: git("rev-parse", "HEAD") },
        workingTreeChanges: changed(),
        indexChanges: changed("--cached"),
      },
      diffWith: async (ref: string) => changed(ref),
      diffBetween: async (a: string, b: string) => changed(a, b),
      show: async (ref: string, path: string) =>
        `${git("show", `${ref}:${path.slice(folder.length + 1)}`)}\n`,
      log: async ({ path }: { path?: string }) =>
        git("log", "--format=%H %P\t%s", "--", ...(path === undefined ? [] : [path]))
          .split("\n")
          .filter(Boolean)
          .map((line) => {
            const [ids = "", message = ""] = line.split("\t");
            const [hash = "", ...parents] = ids.split(" ");
            return { hash, parents: parents.filter(Boolean), message };
          }),
    } as unknown as Git;
  }

  async function walked(repository: GitRepository, file: string, line: number, value = "") {
    const path = join(repository.folder, file);
    const text = readFileSync(path, "utf8");
    const client = await TestClient.start("");
    onTestFinished(() => client.stop());
    const services = {
      ask: (name: Parameters<TestClient["ask"]>[0], params: unknown) => client.ask(name, params),
      client: {
        code2ProtocolConverter: { asUri: String },
        protocol2CodeConverter: { asUri: (uri: string) => uriOf(uri.replace("file://", "")) },
      },
    };
    client.stored.clear();
    const document = { uri: uriOf(path), getText: () => text };
    const steps = await lineWalk(services as never, over(repository), document as never, line, value);
    if (steps === null || steps === undefined) return steps;
    return steps.map(({ commit, text: said, now, before }) => [
      commit?.message ?? "not yet",
      said,
      basename(now.uri.path),
      before === undefined ? "" : `${basename(before.uri.path)}:${before.line + 1}`,
    ]);
  }

  test("through another file, a file under another name, and what is not committed", async () => {
    const repository = gitRepository();
    onTestFinished(() => repository.remove());
    repository.commit("First", { "room.tank": room, "log.tank": on(1, "dam clean", "dam test pH 7.2") });
    repository.commit("Put right", { "log.tank": on(1, "dam clean", "dam test pH 7.4") });
    repository.git("mv", "log.tank", "march.tank");
    repository.commit("Called otherwise");
    repository.commit("To a file of its own", {
      "march.tank": on(1, "dam clean"),
      "tests.tank": on(1, "dam test pH 7.5"),
    });
    repository.write({ "tests.tank": on(1, "dam test pH 7.6") });
    expect(await walked(repository, "tests.tank", 1)).toEqual([
      ["not yet", "~ test: pH 7.5 -> 7.6", "tests.tank", "tests.tank:2"],
      ["To a file of its own", "~ test: pH 7.4 -> 7.5", "tests.tank", "march.tank:3"],
      ["Put right", "~ test: pH 7.2 -> 7.4", "log.tank", "log.tank:3"],
      ["First", "+ test pH 7.2", "log.tank", ""],
    ]);
    expect(await walked(repository, "tests.tank", 1, "nitrate")).toEqual([]);
    expect(await walked(repository, "room.tank", 1)).toBeNull();
  });
});
