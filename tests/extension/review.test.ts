import { readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { describe, expect, onTestFinished, test, vi } from "vitest";
import type { GitRepository as Git } from "../../extension/client/review/git-api.ts";
import { lineWalk } from "../../extension/client/review/line-walk.ts";
import { itemOf } from "../../extension/client/review/review-items.ts";
import { nodesOf, type ReviewNode, stopFrom, stopsOf } from "../../extension/client/review/review-nodes.ts";
import { textsOf } from "../../extension/client/review/versions.ts";
import { reviewOf } from "../../language/history/review/review.ts";
import { type ToldLine, toldReview } from "../../language/history/review/told.ts";
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

  const placed = <T extends Pick<ToldLine, "before" | "after">>(line: T) => ({
    ...line,
    before: line.before === undefined ? null : place,
    after: line.after === undefined ? null : place,
  });

  function shown(before: string, after: string, left = 0): ReviewNode[] {
    const told = toldReview(reviewOf(logs(before), logs(after), { asOf: Number.NaN, worldDay: 0 }), {
      all: false,
    });
    return nodesOf({
      ...told,
      follows: told.follows.map((each) => ({
        ...each,
        items: each.items.map((item) => ({ ...item, at: place, causes: item.causes.map(placed) })),
      })),
      groups: told.groups.map((each) => ({
        ...each,
        days: each.days.map((day) => ({ ...day, lines: day.lines.map(placed) })),
        left,
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
      "No figure is another",
    ]);
  });

  const march = (...lines: string[]): string => `2026-03-01\n${lines.map((line) => `  ${line}\n`).join("")}`;

  test("a consequence begins with what it is about, holds the changes it may follow from, and says all of it in its tooltip", () => {
    const nodes = all(shown(march("dam test nitrate 20"), march("dam test nitrate 40")));
    const follow = nodes.find((node) => node.is === "follow")!;
    expect(itemOf(follow)).toMatchObject({
      label: expect.stringMatching(/^nitrate 40 mg\/L in dam is above its limit/),
      description: "new warning limit/above · 2026-03-01",
      tooltip: expect.stringMatching(
        /^dam: 2026-03-01: nitrate 40 .*\nnew warning .*\nwith dam test: nitrate/s,
      ),
      collapsibleState: 1,
    });
    const causes = nodes.filter((node) => node.is === "cause").map(itemOf);
    expect(causes.map(({ label }) => label)).toEqual(["with dam test: nitrate 20 -> 40 on 1 March"]);
    expect(causes[0]!.command?.arguments).toEqual([{ before: place, after: place }]);
  });

  test("what would spoil a line of the view is not shown", () => {
    const nodes = all(shown(march("dam clean"), march("dam clean", 'dam note "a\u202eb\u0007c"')));
    const labels = nodes.map((node) => String(itemOf(node).label));
    expect(labels.join("\n")).not.toMatch(/\p{Cf}/u);
    expect(labels).toContain('note "a b c"');
  });

  test("of very many changes some are listed, and how many more there are is said", () => {
    const labels = all(shown(march("dam clean"), march("dam clean glass"), 2600)).map(
      (node) => itemOf(node).label,
    );
    expect(labels.at(-1)).toBe("and 2600 more: standpipe diff --all lists them");
  });

  test("one goes from stop to stop, both ways and round, from wherever one is", () => {
    const nodes = shown(march("dam test nitrate 20"), march("dam test nitrate 40", "dam clean"));
    const stops = stopsOf(nodes);
    expect(stops.map(({ is }) => is)).toEqual(["follow", "change", "change"]);
    const [first, second, third] = stops.map(({ key }) => key);
    const from = (key: string, by: 1 | -1) => stopFrom(stops, key, by)?.key;
    expect([from("", 1), from(first!, 1), from(second!, 1), from(third!, 1)]).toEqual([
      first,
      second,
      third,
      first,
    ]);
    expect([from("", -1), from(first!, -1), from(second!, -1)]).toEqual([third, third, first]);
    // From a cause, a group, and what is gone since.
    expect([from(`${first} by 0`, 1), from("changes dam", 1), from("changes dam", -1)]).toEqual([
      second,
      second,
      first,
    ]);
    expect(from("changes ford 0 3", 1)).toBe(first);
    expect(stopFrom([], "", 1)).toBeUndefined();
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
    return steps.steps.map(({ commit, text: said, now, before }) => [
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
