import * as vscode from "vscode";

/** The folder of the views' scripts and styles: all that a page may load. */
export const pageFolder = (extension: vscode.Uri): vscode.Uri => vscode.Uri.joinPath(extension, "webview");

export const pageOptions = (extension: vscode.Uri): vscode.WebviewOptions => ({
  enableScripts: true,
  localResourceRoots: [pageFolder(extension)],
});

/**
 * The page around a view's script. Only that script and that style sheet run in it, and nothing is fetched from anywhere.
 *
 * @param name of the view's folder
 * @param place where it stands, for its style sheet: on the ground of an editor or of the side bar
 */
export function webviewPage(
  webview: vscode.Webview,
  extension: vscode.Uri,
  name: "preview" | "board" | "grid" | "import",
  title: string,
  place: "editor" | "side" = "editor",
): string {
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
<link rel="stylesheet" nonce="${nonce}" href="${address(`${name}.css`)}">
<title>${title}</title>
</head>
<body class="${place}">
<div id="page"></div>
<script nonce="${nonce}" src="${address(`${name}.js`)}"></script>
</body>
</html>`;
}
