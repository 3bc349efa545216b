import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import oniguruma from "vscode-oniguruma";
import textmate from "vscode-textmate";

/** The TextMate grammars as the editor runs them, before any server answers. */

const syntaxes = join(import.meta.dirname, "../../extension/syntaxes");
const files: Record<string, string> = {
  "source.standpipe": "standpipe.tmLanguage.json",
  "markdown.standpipe.codeblock": "markdown.tmLanguage.json",
};
/** As much of a Markdown grammar as an injection needs. */
const markdown = { scopeName: "text.html.markdown", patterns: [], repository: {} };

const wasm = readFileSync(createRequire(import.meta.url).resolve("vscode-oniguruma/release/onig.wasm"));
const ready = oniguruma.loadWASM(wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength));

const registry = new textmate.Registry({
  onigLib: ready.then(() => ({
    createOnigScanner: (sources) => new oniguruma.OnigScanner(sources),
    createOnigString: (text) => new oniguruma.OnigString(text),
  })),
  loadGrammar: async (scope) => {
    if (scope === "text.html.markdown") return markdown as never;
    const file = files[scope];
    return file === undefined
      ? null
      : textmate.parseRawGrammar(readFileSync(join(syntaxes, file), "utf8"), file);
  },
  getInjections: (scope) => (scope === "text.html.markdown" ? ["markdown.standpipe.codeblock"] : undefined),
});

export interface Coloured {
  readonly line: number;
  readonly text: string;
  /** From the outermost to the innermost, without the grammar's own. */
  readonly scopes: readonly string[];
}

/** The parts of a text with what they are coloured as; white space left out. */
export async function coloured(text: string, scope = "source.standpipe"): Promise<Coloured[]> {
  const grammar = await registry.loadGrammar(scope);
  if (grammar === null) throw new Error(`no grammar ${scope}`);
  let state = textmate.INITIAL;
  return text.split("\n").flatMap((line, at) => {
    const { tokens, ruleStack } = grammar.tokenizeLine(line, state);
    state = ruleStack;
    return tokens
      .map(({ startIndex, endIndex, scopes }) => ({
        line: at,
        text: line.slice(startIndex, endIndex).trim(),
        scopes: scopes.slice(1),
      }))
      .filter(({ text: part }) => part !== "");
  });
}

/** `word: innermost scope` of each part, without the name of the language; parts that have no scope of their own are left out. */
export async function colours(text: string): Promise<string[]> {
  return (await coloured(text))
    .map(({ text: part, scopes }) => ({ part, scope: scopes.findLast((each) => !each.startsWith("meta.")) }))
    .filter(({ scope }) => scope !== undefined)
    .map(({ part, scope }) => `${part}: ${scope!.replace(/\.standpipe$/, "")}`);
}
