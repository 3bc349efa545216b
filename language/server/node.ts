import { createConnection, ProposedFeatures } from "vscode-languageserver/node";
import { serve } from "./server.ts";

// How to talk is in the arguments: --stdio, --node-ipc, --pipe.
serve(createConnection(ProposedFeatures.all));
