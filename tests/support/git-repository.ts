import { spawnSync } from "node:child_process";
import {
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  realpathSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";

/** Git repositories of tests: real git, with nothing of what this machine happens to set. */

export const gitEnvironment: Readonly<Record<string, string>> = {
  PATH: process.env.PATH ?? "/usr/bin:/bin",
  HOME: "/nonexistent",
  GIT_CONFIG_GLOBAL: "/dev/null",
  GIT_CONFIG_NOSYSTEM: "1",
  GIT_AUTHOR_NAME: "A keeper",
  GIT_AUTHOR_EMAIL: "keeper@example.org",
  GIT_COMMITTER_NAME: "A keeper",
  GIT_COMMITTER_EMAIL: "keeper@example.org",
  TZ: "UTC",
};

export interface GitRepository {
  readonly folder: string;
  git(...words: readonly string[]): string;
  /** Writes files; undefined takes one away. */
  write(files: Readonly<Record<string, string | Uint8Array | undefined>>): void;
  /** Writes files and commits everything. @param when ISO 8601 */
  commit(
    subject: string,
    files?: Readonly<Record<string, string | Uint8Array | undefined>>,
    when?: string,
  ): string;
  remove(): void;
}

export function gitRepository(
  folder = realpathSync(mkdtempSync(join(tmpdir(), "standpipe-git-"))),
): GitRepository {
  const repository = repositoryAt(folder);
  repository.git("init", "-q", "-b", "main");
  return repository;
}

/** A repository that is there already. */
export function repositoryAt(folder: string): GitRepository {
  const git = (words: readonly string[], input = "", env: Record<string, string> = {}): string => {
    const ended = spawnSync("git", words, {
      cwd: folder,
      env: { ...gitEnvironment, ...env },
      input,
      encoding: "utf8",
      maxBuffer: 1 << 28,
    });
    if (ended.status !== 0) throw new Error(`git ${words.join(" ")}: ${ended.stderr}${ended.stdout}`);
    return ended.stdout.trim();
  };
  const write: GitRepository["write"] = (files) => {
    for (const [name, text] of Object.entries(files)) {
      const path = join(folder, name);
      if (text === undefined) rmSync(path);
      else {
        mkdirSync(dirname(path), { recursive: true });
        writeFileSync(path, text);
      }
    }
  };
  return {
    folder,
    git: (...words) => git(words),
    write,
    commit(subject, files = {}, when = "2026-03-01T12:00:00Z") {
      write(files);
      git(["add", "-A"]);
      git(["commit", "-q", "--allow-empty", "-m", subject], "", {
        GIT_AUTHOR_DATE: when,
        GIT_COMMITTER_DATE: when,
      });
      return git(["rev-parse", "HEAD"]);
    },
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}

/** The sample room as a history: its definitions first, then each day committed in the evening, by one stream to `git fast-import`. */
export function sampleHistory(sample: string, folder?: string): GitRepository {
  const repository = gitRepository(folder);
  const files = readdirSync(sample)
    .filter((name) => name.endsWith(".tank"))
    .map((name) => ({ name, text: readFileSync(join(sample, name), "utf8") }));
  const isMonth = ({ name }: { name: string }): boolean => /^\d{4}-\d{2}\.tank$/.test(name);
  const parts: string[] = [];
  let mark = 0;
  const commit = (
    when: string,
    subject: string,
    changed: readonly { name: string; text: string }[],
  ): void => {
    const seconds = Date.parse(when) / 1000;
    const said = `${subject}\n`;
    mark++;
    parts.push(`commit refs/heads/main\nmark :${mark}\n`);
    parts.push(
      `author A keeper <keeper@example.org> ${seconds} +0000\ncommitter A keeper <keeper@example.org> ${seconds} +0000\n`,
    );
    parts.push(`data ${Buffer.byteLength(said)}\n${said}`);
    if (mark > 1) parts.push(`from :${mark - 1}\n`);
    for (const { name, text } of changed)
      parts.push(`M 100644 inline ${name}\ndata ${Buffer.byteLength(text)}\n${text}\n`);
  };
  commit(
    "2025-03-31T20:00:00Z",
    "The room",
    files.filter((file) => !isMonth(file)),
  );
  for (const { name, text } of files.filter(isMonth)) {
    const heads = [...text.matchAll(/^\d{4}-\d{2}-\d{2}/gm)];
    heads.forEach(({ 0: date }, at) => {
      const end = heads[at + 1]?.index ?? text.length;
      commit(`${date}T20:00:00Z`, `Log of ${date}`, [{ name, text: text.slice(0, end) }]);
    });
  }
  const ended = spawnSync("git", ["fast-import", "--quiet"], {
    cwd: repository.folder,
    env: gitEnvironment,
    input: parts.join(""),
  });
  if (ended.status !== 0) throw new Error(`git fast-import: ${ended.stderr}`);
  repository.git("reset", "-q", "--hard", "main");
  return repository;
}
