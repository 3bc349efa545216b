import type { SemanticTokens, SemanticTokensDelta } from "vscode-languageserver";
import type { TextDocument } from "vscode-languageserver-textdocument";
import {
  type SemanticToken,
  semanticTokens,
  type TokenType,
  tokenModifiers,
  tokenTypes,
} from "../../features/semantic-tokens.ts";
import type { Group } from "../group.ts";

/** Colours by what a word means, in the protocol's five numbers a token. */
export const tokens: Group = {
  capabilities: () => ({
    semanticTokensProvider: {
      legend: {
        tokenTypes: typeNames.map((type) => `standpipe-${type}`),
        tokenModifiers: [...tokenModifiers],
      },
      full: { delta: true },
      range: true,
    },
  }),
  serve(session) {
    const { languages } = session.connection;
    const none: SemanticTokens = { data: [] };
    /** What each file was told last. */
    const told = new Map<string, { readonly resultId: string; readonly data: readonly number[] }>();
    let answers = 0;
    const tell = (uri: string, data: readonly number[]): string => {
      for (const known of told.keys()) if (!session.workspace.files.has(known)) told.delete(known);
      const resultId = String(++answers);
      told.set(uri, { resultId, data });
      return resultId;
    };
    languages.semanticTokens.on(
      session.fileHandler("colours", none, ({ uri, view, document }) => {
        const data = encoded(document, semanticTokens(view));
        return { resultId: tell(uri, data), data };
      }),
    );
    languages.semanticTokens.onDelta(
      session.fileHandler(
        "colours",
        none as SemanticTokens | SemanticTokensDelta,
        ({ uri, view, document }, { previousResultId }) => {
          const before = told.get(uri);
          const data = encoded(document, semanticTokens(view));
          const resultId = tell(uri, data);
          if (before?.resultId !== previousResultId) return { resultId, data };
          return { resultId, edits: difference(before.data, data) };
        },
      ),
    );
    languages.semanticTokens.onRange(
      session.fileHandler("colours", none, ({ view, document }, { range }) => {
        const within = { start: document.offsetAt(range.start), end: document.offsetAt(range.end) };
        return { data: encoded(document, semanticTokens(view, within)) };
      }),
    );
  },
};

const typeNames = Object.keys(tokenTypes) as TokenType[];
const typeNumbers = new Map(typeNames.map((type, number) => [type, number]));

function encoded(document: TextDocument, all: readonly SemanticToken[]): number[] {
  const data: number[] = [];
  let line = 0;
  let character = 0;
  for (const { start, end, type, modifier } of all) {
    const at = document.positionAt(start);
    const modifiers = modifier === undefined ? 0 : 1 << tokenModifiers.indexOf(modifier);
    const after = at.line === line ? at.character - character : at.character;
    data.push(at.line - line, after, end - start, typeNumbers.get(type)!, modifiers);
    ({ line, character } = at);
  }
  return data;
}

/** The one stretch of numbers that differs. */
function difference(before: readonly number[], after: readonly number[]): SemanticTokensDelta["edits"] {
  const most = Math.min(before.length, after.length);
  let start = 0;
  while (start < most && before[start] === after[start]) start++;
  let alike = 0;
  while (alike < most - start && before[before.length - 1 - alike] === after[after.length - 1 - alike])
    alike++;
  const deleteCount = before.length - alike - start;
  const data = after.slice(start, after.length - alike);
  return deleteCount === 0 && data.length === 0 ? [] : [{ start, deleteCount, data }];
}
