import type { Severity } from "../../../language/checks/finding.ts";
import { svg } from "./dom.ts";

/** Small signs, told apart by their outlines alone. */

export function severitySign(severity: Severity): SVGSVGElement {
  return sign(`severity ${severity}`, ...shapes[severity]);
}

export function padlock(isClosed: boolean): SVGSVGElement {
  return sign(
    "padlock",
    { d: "M3.5 7.5h9v6.5h-9Z" },
    { d: isClosed ? "M5.5 7.5v-2.5a2.5 2.5 0 0 1 5 0v2.5" : "M5.5 7.5v-3a2.5 2.5 0 0 1 4.9 -.7" },
  );
}

export interface Stroke {
  readonly d: string;
  readonly filled?: boolean;
}

/** On a field of 16 by 16. */
const shapes: Record<Severity, readonly Stroke[]> = {
  error: [{ d: "M5 1.5h6l3.5 3.5v6l-3.5 3.5h-6l-3.5 -3.5v-6Z" }, { d: "M5.5 5.5l5 5M10.5 5.5l-5 5" }],
  warning: [{ d: "M8 2l6.5 12h-13Z" }, { d: "M8 6.5v3.5M8 11.6v.8" }],
  information: [{ d: "M8 1.8a6.2 6.2 0 1 0 .01 0Z" }, { d: "M8 7.2v4.3M8 4.4v.8" }],
  hint: [{ d: "M8 6a2 2 0 1 0 .01 0Z", filled: true }],
};

export function sign(look: string, ...strokes: readonly Stroke[]): SVGSVGElement {
  return svg(
    "svg",
    {
      class: `sign ${look}`,
      width: 16,
      height: 16,
      viewBox: "0 0 16 16",
      "aria-hidden": "true",
      focusable: "false",
    },
    ...strokes.map(({ d, filled }) => svg("path", { d, class: filled ? "filled" : "" })),
  );
}
