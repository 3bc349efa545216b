import { type CodeLens, type Command, type Hover, MarkupKind } from "vscode-languageserver";
import { hover } from "../../features/hover.ts";
import { codeLenses, type Lens, type LensTitle, lensTitle } from "../../features/lenses.ts";
import type { Group } from "../group.ts";
import type { ClientCommand } from "../protocol.ts";
import type { Looked, Session } from "../session.ts";
import { addressOf, lspLocations, rangeOf } from "../to-lsp.ts";

/** What is told of a place when somebody points at it, and above days and tanks. */
export const reading: Group = {
  capabilities: () => ({ hoverProvider: true, codeLensProvider: { resolveProvider: true } }),
  serve(session) {
    const { connection } = session;
    connection.onHover(
      session.fileHandler("hover", null as Hover | null, ({ view, document }, { position }) => {
        const told = hover(view, document.offsetAt(position), {
          address: (place) => addressOf(session, place),
        });
        if (told === undefined) return null;
        return {
          range: rangeOf(document, told.span),
          contents: { kind: MarkupKind.Markdown, value: told.markdown },
        };
      }),
    );
    connection.onCodeLens(
      session.fileHandler("lenses", [] as CodeLens[], ({ uri, view, document }) => {
        if (!session.settings.lenses.enabled) return [];
        return codeLenses(view).map((lens) => ({ range: rangeOf(document, lens), data: { uri, lens } }));
      }),
    );
    connection.onCodeLensResolve(
      session.resolver<CodeLens>("a lens", (lens) => {
        const { uri, lens: asked } = lens.data as { uri: string; lens: Lens };
        const looked = session.look(uri);
        const title = looked === undefined ? undefined : lensTitle(looked.view, asked);
        const command = title === undefined ? nowhere("") : commandOf(session, looked!, asked, title);
        return { ...lens, command };
      }),
    );
  },
};

const nowhere = (title: string): Command => ({ title, command: "" });

/** Only what the client says it can do is offered to be clicked on. */
function commandOf(
  session: Session,
  { uri, document }: Looked,
  lens: Lens,
  { title, leads }: LensTitle,
): Command {
  const has = (command: ClientCommand) => session.client.options.commands?.includes(command) === true;
  const position = document.positionAt(lens.start);
  switch (leads.to) {
    case "due":
      return has("standpipe.duties.show") ? { title, command: "standpipe.duties.show" } : nowhere(title);
    case "card":
      return has("standpipe.card.show")
        ? { title, command: "standpipe.card.show", arguments: [uri, position] }
        : nowhere(title);
    case "places":
      return has("standpipe.places.show")
        ? {
            title,
            command: "standpipe.places.show",
            arguments: [uri, position, lspLocations(session, leads.places)],
          }
        : nowhere(title);
    case "nowhere":
      return nowhere(title);
  }
}
