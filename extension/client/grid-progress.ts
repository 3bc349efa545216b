import * as vscode from "vscode";
import { gridProgressNotification } from "../../language/server/grid-protocol.ts";
import type { Services } from "./services.ts";

/** How much of a change the server has made ready, told to who waits for it; and who waits may give it up. */
export class GridProgress implements vscode.Disposable {
  private readonly open = new Map<number, (share: number) => void>();
  private readonly listener: vscode.Disposable;
  private last = 0;

  constructor({ client }: Services) {
    this.listener = client.onNotification(gridProgressNotification.method, ({ ticket, share }) =>
      this.open.get(ticket)?.(share),
    );
  }

  begin(onShare: (share: number) => void): Waiting {
    const ticket = ++this.last;
    this.open.set(ticket, onShare);
    const source = new vscode.CancellationTokenSource();
    return {
      ticket,
      token: source.token,
      cancel: () => source.cancel(),
      end: () => {
        this.open.delete(ticket);
        source.dispose();
      },
    };
  }

  dispose(): void {
    this.listener.dispose();
  }
}

/** One change that is waited for. */
export interface Waiting {
  readonly ticket: number;
  readonly token: vscode.CancellationToken;
  cancel(): void;
  end(): void;
}
