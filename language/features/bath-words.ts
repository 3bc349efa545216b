import { spokenDay } from "../book/dates.ts";

/** What is told of a bath, wherever its card comes from. */
export interface BathTold {
  readonly animals: number | null;
  readonly species: string;
  readonly lot: string;
  readonly remedy: string;
  readonly time: number;
  readonly text: string;
  readonly stated: string;
}

/** `bath of 3 praecox in salt on 2 March: 15 g/L for 5 min, stated 10..30 g/L for 1..10 min`. */
export function bathLine(bath: BathTold, day: number): string {
  const { animals, species, remedy, time, text, stated, lot } = bath;
  const who = `${animals ?? "?"} ${species}${lot === "" ? "" : ` of lot ${lot}`}`;
  const told = stated === "" ? "" : `, stated ${stated}`;
  return `bath of ${who} in ${remedy} on ${spokenDay(Math.floor(time), day)}: ${text}${told}`;
}
