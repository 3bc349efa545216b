import { plain, stretches } from "./plain.ts";

/** Elements made by hand: every text goes in as text, by `plain.ts`, and no string is ever read as markup. */

export type Child = Node | string | null | undefined | false;
type Handler = (event: Event) => void;
export type Attributes = Readonly<Record<string, string | number | boolean | Handler | null | undefined>>;

const svgSpace = "http://www.w3.org/2000/svg";

/** An HTML element. An attribute that is false, null or undefined is left out; `onclick` and its like take a function. */
export function h<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  attributes: Attributes = {},
  ...children: readonly (Child | readonly Child[])[]
): HTMLElementTagNameMap[Tag] {
  const element = document.createElement(tag);
  fill(element, attributes, children);
  return element;
}

/** An SVG element. */
export function svg<Tag extends keyof SVGElementTagNameMap>(
  tag: Tag,
  attributes: Attributes = {},
  ...children: readonly (Child | readonly Child[])[]
): SVGElementTagNameMap[Tag] {
  const element = document.createElementNS(svgSpace, tag);
  fill(element, attributes, children);
  return element;
}

/** A text as nodes; hidden characters stand as marked numbers. */
function textNodes(text: string): Node[] {
  return stretches(text).map((each) => {
    if (!each.isHidden) return document.createTextNode(each.text);
    const mark = document.createElement("span");
    mark.className = "code-point";
    mark.textContent = each.text;
    return mark;
  });
}

function fill(
  element: Element,
  attributes: Attributes,
  children: readonly (Child | readonly Child[])[],
): void {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === undefined || value === false) continue;
    if (typeof value === "function") element.addEventListener(name.slice(2), value);
    else element.setAttribute(name, value === true ? "" : plain(String(value)));
  }
  const isSvg = element.namespaceURI === svgSpace;
  for (const child of children.flat()) {
    if (child === null || child === undefined || child === false) continue;
    if (typeof child !== "string") element.append(child);
    else if (isSvg) element.append(plain(child));
    else element.append(...textNodes(child));
  }
}
