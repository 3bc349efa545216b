import * as vscode from "vscode";

/** The folder of the preview's script and styles: all that the page may load. */
export const pageFolder = (extension: vscode.Uri): vscode.Uri => vscode.Uri.joinPath(extension, "webview");

/** The page around the preview's script. Only that script and that style sheet run in it, and nothing is fetched from anywhere. */
export function previewPage(webview: vscode.Webview, extension: vscode.Uri): string {
  const address = (file: string) => webview.asWebviewUri(vscode.Uri.joinPath(pageFolder(extension), file));
  const nonce = Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) =>
    byte.toString(16).padStart(2, "0"),
  ).join("");
  const policy = [
    "default-src 'none'",
    `script-src 'nonce-${nonce}'`,
    `style-src ${webview.cspSource} 'nonce-${nonce}'`,
  ].join("; ");
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="stylesheet" nonce="${nonce}" href="${address("preview.css")}">
<title>Preview</title>
</head>
<body>
<div id="page"></div>
<script nonce="${nonce}" src="${address("preview.js")}"></script>
</body>
</html>`;
}
