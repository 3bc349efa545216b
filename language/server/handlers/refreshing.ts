import type { Group } from "../group.ts";
import { changedNotification } from "../protocol.ts";
import type { Session } from "../session.ts";

/** A change is followed by others: so long after the last one the client is told. */
const quietMs = 250;

/**
 * Tells the client when what it shows may be otherwise for a reason it does not see: an edit in one file changes hints and lenses of others,
 * and so do files that are stored by another program, settings, and the day.
 */
export const refreshing: Group = {
  capabilities: () => ({}),
  serve(session) {
    let timer: ReturnType<typeof setTimeout> | undefined;
    let seen = session.workspace.unseen;
    session.workspace.onChange(() => {
      clearTimeout(timer);
      timer = setTimeout(() => {
        // Who fetches findings does so by itself after its own edits.
        const isUnseen = session.workspace.unseen !== seen;
        seen = session.workspace.unseen;
        session.attempt("refreshing", () => refresh(session, isUnseen));
      }, quietMs);
    });
  },
};

async function refresh(session: Session, isUnseen: boolean): Promise<void> {
  const { connection, client, workspace } = session;
  await session.whenLoaded();
  session.tell(changedNotification, null);
  const open = [...workspace.files.values()].filter(({ version }) => version !== undefined);
  const isBeside = isUnseen ? open.length > 0 : open.length > 1;
  const wanted: [boolean, string][] = [
    [isUnseen && client.refreshesDiagnostics, "diagnostic"],
    [isBeside && client.refreshesHints, "inlayHint"],
    [isBeside && client.refreshesLenses, "codeLens"],
    [isUnseen && isBeside && client.refreshesTokens, "semanticTokens"],
  ];
  for (const [isWanted, what] of wanted)
    if (isWanted) await connection.sendRequest(`workspace/${what}/refresh`);
}
