import type { ServerCapabilities } from "vscode-languageserver";
import type { Client } from "./client.ts";
import type { Session } from "./session.ts";

/** Handlers of one sort: what they promise a client, and putting them up. */
export interface Group {
  capabilities(client: Client): Partial<ServerCapabilities>;
  serve(session: Session): void;
}
