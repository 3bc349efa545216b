import { sign } from "../shared/icons.ts";

/** Small signs of the board, told apart by their outlines alone. */

const strokes = {
  done: ["M3 8.5l3.5 3.5l6.5 -8"],
  late: ["M8 2l6.5 12h-13Z", "M8 6.5v3.5M8 11.6v.8"],
  soon: ["M8 1.8a6.2 6.2 0 1 0 .01 0Z", "M8 4.5v4l2.6 1.6"],
  hands: [
    "M8 1.8c2.4 3.2 4.2 5.2 4.2 7.8a4.2 4.2 0 0 1 -8.4 0c0 -2.6 1.8 -4.6 4.2 -7.8Z",
    "M5.8 10a2.2 2.2 0 0 0 2 2",
  ],
  edit: ["M3 13l.7 -3l7 -7l2.3 2.3l-7 7Z", "M9.5 4.3l2.3 2.3"],
  place: ["M9.5 2h-6v12h9v-9Z", "M9.5 2v3h3", "M5.5 9.5h4.5M8 7.5l2 2l-2 2"],
  about: ["M2 3h12v10h-12Z", "M9 3v10"],
  back: ["M6 3l-3.5 3.5l3.5 3.5", "M2.8 6.5h6.7a3.2 3.2 0 0 1 0 6.4h-3"],
  round: ["M2.5 2.5h11v11h-11Z", "M2.5 6.2h11M2.5 9.8h11M6.5 2.5v11"],
  sheet: ["M5.5 2h5M6.5 2v9.5a1.5 1.5 0 0 0 3 0v-9.5", "M6.5 8h3"],
  help: ["M8 1.8a6.2 6.2 0 1 0 .01 0Z", "M6 6.2a2 2 0 1 1 2.6 1.9c-.5 .2 -.6 .5 -.6 1.1M8 10.9v.8"],
  folded: ["M6 3.5l4.5 4.5l-4.5 4.5"],
  other: ["M3 5.5h9M9.5 3l2.5 2.5l-2.5 2.5", "M13 10.5h-9M6.5 8l-2.5 2.5l2.5 2.5"],
} satisfies Record<string, readonly string[]>;

export type Sign = keyof typeof strokes;

export const boardSign = (name: Sign): SVGSVGElement => sign(name, ...strokes[name].map((d) => ({ d })));
