import { join } from "node:path";
import { describe, expect, onTestFinished, test, vi } from "vitest";
import { commandGit } from "../../extension/client/review/git-command.ts";
import { commitAt, head, revisionOf, textsOf, type Version } from "../../extension/client/review/versions.ts";
import { runGit } from "../../extension/client/run-git.ts";
import { gitRepository } from "../support/git-repository.ts";

/** A repository read by the git command, where the editor's own git is not there. */

const editor = vi.hoisted(() => ({
  isTrusted: true,
  provide: undefined as undefined | ((uri: unknown) => unknown),
}));

vi.mock("vscode", async () => {
  const { dirname, posix } = await import("node:path");
  class Uri {
    readonly scheme: string;
    readonly path: string;
    readonly query: string;
    constructor(scheme: string, path: string, query = "") {
      this.scheme = scheme;
      this.path = path;
      this.query = query;
    }
    get fsPath(): string {
      return this.path;
    }
    static file = (path: string): Uri => new Uri("file", path);
    static joinPath = (uri: Uri, ...parts: string[]): Uri =>
      new Uri(
        uri.scheme,
        posix.join(
          parts[0] === ".." ? dirname(uri.path) : uri.path,
          ...parts.filter((part) => part !== ".."),
        ),
      );
    with = (more: { scheme?: string; query?: string }): Uri =>
      new Uri(more.scheme ?? this.scheme, this.path, more.query ?? this.query);
    toString = (): string => `${this.scheme}://${this.path}`;
  }
  const gone = { dispose: () => {} };
  return {
    Uri,
    EventEmitter: class {
      event = () => gone;
      fire = () => {};
      dispose = () => {};
    },
    RelativePattern: class {},
    workspace: {
      get isTrusted() {
        return editor.isTrusted;
      },
      createFileSystemWatcher: () => ({
        ...gone,
        onDidChange: () => gone,
        onDidCreate: () => gone,
        onDidDelete: () => gone,
      }),
      registerTextDocumentContentProvider: (
        _: string,
        texts: { provideTextDocumentContent: (uri: unknown) => unknown },
      ) => {
        editor.provide = texts.provideTextDocumentContent;
        return gone;
      },
    },
    l10n: { t: (text: string) => text },
  };
});

const { Uri } = (await import("vscode")) as unknown as { Uri: { file(path: string): never } };

function desk() {
  const repository = gitRepository();
  onTestFinished(() => repository.remove());
  const git = commandGit(runGit, []);
  const find = () => git.getRepository(Uri.file(join(repository.folder, "a.tank")));
  const texts = async (version: Version) => {
    const found = await textsOf((await find())!, version, (uri) =>
      uri.path.slice(repository.folder.length + 1),
    );
    return Object.fromEntries(found.map(({ uri, text }) => [uri, text]));
  };
  return { repository, git, find, texts };
}

describe("a repository read by the git command", () => {
  test("tells files that are corrected, new, gone and staged, whatever they are called", async () => {
    const { repository, texts } = desk();
    repository.commit("First", {
      "a.tank": "a\n",
      "b.tank": "b\n",
      "c.tank": "c\n",
      "x y\n.tank": "x\n",
      "-v.tank": "v\n",
    });
    repository.write({ "a.tank": "staged\n" });
    repository.git("add", "-A");
    repository.write({
      "a.tank": "now\n",
      "b.tank": undefined,
      "d.tank": "d\n",
      "x y\n.tank": "y\n",
      "-v.tank": "w\n",
    });
    const both = { "b.tank": "b\n", "d.tank": null, "x y\n.tank": "x\n", "-v.tank": "v\n" };
    expect(await texts(head)).toEqual({ ...both, "a.tank": "a\n" });
    expect(await texts({ is: "index" })).toEqual({ ...both, "a.tank": "staged\n" });
  });

  test("has branches, tags and commits, those of one file, and the last one of a day", async () => {
    const { repository, find } = desk();
    const first = repository.commit("First\n\nWith words", { "a.tank": "a\n" }, "2026-03-01T10:00:00Z");
    repository.git("tag", "v1");
    const second = repository.commit("Second", { "b.tank": "b\n" }, "2026-03-03T10:00:00Z");
    const found = (await find())!;
    expect((await found.getRefs({})).map(({ type, name }) => [type, name])).toEqual([
      [0, "main"],
      [2, "v1"],
    ]);
    const commits = await found.log({});
    expect(commits.map(({ hash, parents, authorName }) => [hash, parents, authorName])).toEqual([
      [second, [first], "A keeper"],
      [first, [], "A keeper"],
    ]);
    expect(commits[1]!.message.trim()).toBe("First\n\nWith words");
    expect((await found.log({ path: join(repository.folder, "a.tank") })).map(({ hash }) => hash)).toEqual([
      first,
    ]);
    expect(await commitAt(found, "2026-03-02")).toMatchObject({ ref: first });
  });

  test("knows a revision by whatever names it, and what names none", async () => {
    const { repository, find } = desk();
    const first = repository.commit("First", { "a.tank": "a\n" }, "2026-03-01T10:00:00Z");
    repository.git("tag", "-a", "v1", "-m", "One");
    const second = repository.commit("Second", { "a.tank": "b\n" }, "2026-03-03T10:00:00Z");
    const found = (await find())!;
    const named = async (word: string) => {
      const version = await revisionOf(found, word);
      return version?.is === "commit" ? [version.ref, version.name] : version;
    };
    expect(await named("main")).toEqual([second, "main"]);
    expect(await named("v1")).toEqual([first, "v1"]);
    expect(await named(first.slice(0, 7))).toEqual([first, first.slice(0, 7)]);
    expect(await named("HEAD~1")).toEqual([first, "HEAD~1"]);
    expect(await named("2026-03-02")).toEqual([first, "2026-03-02"]);
    for (const word of ["nosuch", "HEAD~5", "HEAD:a.tank", "2026-02-01", "2026-13-45", "-p", ""])
      expect(await named(word), word).toBeUndefined();
  });

  test("of a merge that is not settled our side is what is staged", async () => {
    const { repository, texts } = desk();
    repository.commit("First", { "a.tank": "a\n" });
    repository.git("checkout", "-q", "-b", "work");
    repository.commit("Theirs", { "a.tank": "theirs\n" });
    repository.git("checkout", "-q", "main");
    repository.commit("Ours", { "a.tank": "ours\n" });
    expect(() => repository.git("merge", "-q", "work")).toThrow(/CONFLICT/);
    expect(await texts({ is: "index" })).toEqual({ "a.tank": "ours\n" });
    expect(await texts(head)).toEqual({ "a.tank": "ours\n" });
  });

  test("shows a file as it was, and nothing where it was not", async () => {
    const { repository, git } = desk();
    const first = repository.commit("First", { "a.tank": "a\n" });
    repository.commit("Second", { "a.tank": "b\n", "b.tank": "b\n" });
    const show = (name: string, ref: string) =>
      editor.provide!(git.toGitUri(Uri.file(join(repository.folder, name)), ref));
    expect(await show("a.tank", first)).toBe("a\n");
    expect(await show("a.tank", "~")).toBe("b\n");
    expect(await show("b.tank", first)).toBe("");
  });

  test("before the first commit has no files in it", async () => {
    const { repository, texts } = desk();
    repository.write({ "a.tank": "a\n" });
    repository.git("add", "a.tank");
    expect(await texts(head)).toEqual({ "a.tank": null });
  });

  test("is none in a folder that is not trusted, or that is no repository", async () => {
    const { git, find } = desk();
    expect(await git.getRepository(Uri.file("/nowhere/at/all/a.tank"))).toBeNull();
    editor.isTrusted = false;
    expect(await find()).toBeNull();
    editor.isTrusted = true;
  });
});
