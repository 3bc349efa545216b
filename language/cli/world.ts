/** What a command finds around it; a test gives another. */
export interface World {
  /** Absolute. */
  readonly cwd: string;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Today, as a number of days (`book/dates.ts`). */
  readonly day: number;
  /** How this command is called: the program that runs it and its file. Undefined where it is part of another. */
  readonly self?: readonly [program: string, script: string];
  readonly out: Stream;
  readonly err: Stream;
  /** All of standard input. */
  input(): Promise<Uint8Array>;
}

export interface Stream {
  readonly isTTY: boolean;
  readonly columns: number | undefined;
  write(text: string): void;
}

/** How a command ends. */
export const Status = { clean: 0, errors: 1, couldNotRun: 2 } as const;
export type Status = (typeof Status)[keyof typeof Status];

/** A command could not do its work: the message says why, in plain words. Names in it may hold anything: it is made plain where it is printed. */
export class Trouble extends Error {
  override readonly name = "Trouble";
}

/** What the system says of a file, in plain words. @param path as the reader knows it */
export function troubleWith(path: string, error: unknown): string {
  const code = error instanceof Error && "code" in error ? String(error.code) : "";
  const words = systemWords[code] ?? (error instanceof Error ? error.message : String(error));
  return `${path}: ${words}`;
}

const systemWords: Readonly<Record<string, string>> = {
  ENOENT: "there is no such file or folder",
  ENOTDIR: "a part of this path is a file, not a folder",
  EISDIR: "this is a folder, not a file",
  EACCES: "you may not read or write this",
  EPERM: "you may not read or write this",
  EROFS: "this disk can only be read",
  ENOSPC: "the disk is full",
  ELOOP: "links here lead round in a circle",
  ENAMETOOLONG: "the name is too long",
  EMFILE: "too many files are open",
  EIO: "the disk cannot read this",
  ERR_STRING_TOO_LONG: "the file is too large to read at once; one file a month is the custom",
  ERR_FS_FILE_TOO_LARGE: "the file is too large to read at once; one file a month is the custom",
};
