import type { InlayHint } from "vscode-languageserver";
import { type FigureKind, figureKinds } from "../../features/figures/row.ts";
import { inlayHints } from "../../features/hints.ts";
import type { Group } from "../group.ts";
import type { Settings } from "../settings.ts";

/** Figures at the ends of lines. Why they are so is told when somebody points at one. */
export const hints: Group = {
  capabilities: () => ({ inlayHintProvider: { resolveProvider: true } }),
  serve(session) {
    const { languages } = session.connection;
    languages.inlayHint.on(
      session.fileHandler("hints", [] as InlayHint[], ({ uri, view, document }, { range }) => {
        const options = { enabled: session.settings.hints.enabled, off: switchedOff(session.settings) };
        const from = document.offsetAt(range.start);
        return inlayHints(view, from, document.offsetAt(range.end), options).map(
          ({ offset, label, kind }) => ({
            position: document.positionAt(offset),
            label: gap + label,
            paddingLeft: true,
            data: { uri, offset, kind },
          }),
        );
      }),
    );
    languages.inlayHint.resolve(
      session.resolver("a hint", (hint: InlayHint) => {
        const { uri, offset, kind } = hint.data as { uri: string; offset: number; kind: FigureKind };
        const looked = session.look(uri);
        const found =
          looked &&
          inlayHints(looked.view, offset, offset).find(
            (each) => each.offset === offset && each.kind === kind,
          );
        return found ? { ...hint, tooltip: { kind: "markdown", value: found.tooltip } } : hint;
      }),
    );
  },
};

/** Room between what is written and what is computed; plain spaces would be left out. */
const gap = "\u00a0\u00a0";

function switchedOff({ hints: switches }: Settings): ReadonlySet<FigureKind> {
  return new Set(figureKinds.filter((kind) => switches[kind] === false));
}
