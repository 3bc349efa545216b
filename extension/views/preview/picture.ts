import { type Attributes, h, svg } from "../shared/dom.ts";

/** A picture that comes drawn, made anew element by element: what is not of a drawing is left out. */

const shapes = ["svg", "g", "path", "circle", "rect", "text", "title"] as const;
type ShapeName = (typeof shapes)[number];
const isShape = (name: string): name is ShapeName => (shapes as readonly string[]).includes(name);

const looks: ReadonlySet<string> = new Set([
  "class",
  "width",
  "height",
  "viewBox",
  "fill",
  "fill-opacity",
  "stroke",
  "stroke-width",
  "stroke-dasharray",
  "stroke-opacity",
  "stroke-linecap",
  "stroke-linejoin",
  "font-size",
  "font-weight",
  "font-family",
  "text-anchor",
  "d",
  "x",
  "y",
  "cx",
  "cy",
  "r",
  "rx",
  "transform",
]);

/** @param alt what it shows, in words; it may be wider than the panel, and is then moved by the arrow keys */
export function picture(text: string, alt: string, key: string): HTMLElement {
  const { documentElement: root } = new DOMParser().parseFromString(text, "image/svg+xml");
  const drawn = made(root);
  return h(
    "div",
    { class: "picture", role: "img", "aria-label": alt, tabindex: 0, "data-key": key },
    drawn ?? h("p", {}, alt),
  );
}

function made(element: Element): SVGElement | undefined {
  if (!isShape(element.localName)) return undefined;
  const attributes: Record<string, string> = {};
  for (const { name, value } of element.attributes) if (looks.has(name)) attributes[name] = value;
  const children = [...element.childNodes].map((child) =>
    child instanceof Element
      ? made(child)
      : child.nodeType === Node.TEXT_NODE
        ? (child.textContent ?? "")
        : "",
  );
  return svg(element.localName, attributes as Attributes, ...children);
}
