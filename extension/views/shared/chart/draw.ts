import { svg } from "../dom.ts";
import type { Layout, Shape } from "./plot.ts";

/** Shapes as SVG. Looks come from the style sheet, by class; to those who cannot see it the drawing says nothing, its chart does. */

export function draw(layout: Layout, ...more: readonly SVGElement[]): SVGSVGElement {
  const { width, height, shapes } = layout;
  return svg(
    "svg",
    { width, height, viewBox: `0 0 ${width} ${height}`, "aria-hidden": "true", focusable: "false" },
    ...shapes.map(drawShape),
    ...more,
  );
}

function drawShape(shape: Shape): SVGElement {
  if ("d" in shape) return svg("path", { class: shape.look, d: shape.d });
  const { look, text, x, y } = shape;
  return svg("text", { class: look, x, y, "dominant-baseline": "central" }, text);
}
