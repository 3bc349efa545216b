import type { Layout } from "./layout.ts";
import type { ColumnAt, Mapping } from "./mapping.ts";
import type { Decimal } from "./number.ts";

/** How a table is laid out, as a mapping says it. */
export function layoutMapped(layout: Layout, decimal: Decimal, fill: readonly ColumnAt[]): Mapping["table"] {
  const { delimiter, edges, headLine, firstLine, dateLine, across } = layout;
  return {
    delimiter,
    ...(edges.length > 0 ? { edges: [...edges] } : {}),
    heads: headLine,
    rows: firstLine,
    ...(dateLine === undefined ? {} : { dateLine }),
    decimal,
    ...(across === undefined
      ? {}
      : {
          across: {
            from: across.from + 1,
            ...(across.others.length === 0 ? {} : { but: [...new Set(across.others)] }),
          },
        }),
    ...(fill.length === 0 ? {} : { fill: [...fill] }),
  };
}
