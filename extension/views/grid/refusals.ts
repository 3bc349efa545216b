/** What was typed and is on its way into the text. */
export interface Pending {
  readonly text: string;
  isWritten: boolean;
}

/** By what it and what was refused are kept. */
export const keyOf = (row: string, column: string): string => `${row} ${column}`;
