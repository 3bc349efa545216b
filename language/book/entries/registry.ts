import type { EntryKind } from "../kind.ts";
import { algae } from "./algae.ts";
import { arrive } from "./arrive.ts";
import { ask } from "./ask.ts";
import { bath } from "./bath.ts";
import { buy } from "./buy.ts";
import { carry } from "./carry.ts";
import { change } from "./change.ts";
import { check } from "./check.ts";
import { clean } from "./clean.ts";
import { close } from "./close.ts";
import { condition } from "./condition.ts";
import { count } from "./count.ts";
import { disinfect } from "./disinfect.ts";
import { doa } from "./doa.ts";
import { dose } from "./dose.ts";
import { eggs } from "./eggs.ts";
import { feed } from "./feed.ts";
import { harvest } from "./harvest.ts";
import { hatch } from "./hatch.ts";
import { left } from "./left.ts";
import { light } from "./light.ts";
import { lose } from "./lose.ts";
import { move } from "./move.ts";
import { note } from "./note.ts";
import { plant } from "./plant.ts";
import { remove } from "./remove.ts";
import { result } from "./result.ts";
import { putBack } from "./return.ts";
import { sample } from "./sample.ts";
import { sell } from "./sell.ts";
import { send } from "./send.ts";
import { service } from "./service.ts";
import { ship } from "./ship.ts";
import { sick } from "./sick.ts";
import { spawn } from "./spawn.ts";
import { start } from "./start.ts";
import { swim } from "./swim.ts";
import { test } from "./test.ts";
import { topUp } from "./top-up.ts";
import { trim } from "./trim.ts";

/** Every kind of entry. The order is that of FORMAT.md; a kind's number is its place and lives no longer than the process. */
export const entryKinds = [
  test,
  change,
  topUp,
  feed,
  start,
  harvest,
  buy,
  left,
  clean,
  service,
  check,
  light,
  dose,
  bath,
  remove,
  putBack,
  count,
  arrive,
  lose,
  move,
  carry,
  sell,
  ship,
  doa,
  spawn,
  eggs,
  hatch,
  swim,
  condition,
  sick,
  sample,
  send,
  ask,
  result,
  close,
  disinfect,
  plant,
  trim,
  algae,
  note,
] as const satisfies readonly EntryKind[];

const numbers = new Map<string, number>(entryKinds.map((kind, index) => [kind.word, index]));

/** The number of the kind with this word; undefined if there is none. */
export function kindNumber(word: string): number | undefined {
  return numbers.get(word);
}

/** The kind with this number. Throws a RangeError for a number no kind has. */
export function kindOf(number: number): EntryKind {
  const kind = entryKinds[number];
  if (kind === undefined) throw new RangeError(`no entry kind has the number ${number}`);
  return kind;
}

function numberOf(word: string): number {
  const number = numbers.get(word);
  if (number === undefined) throw new RangeError(`no entry kind is called ${word}`);
  return number;
}

/** The numbers of the kinds that computations look for. */
export const Kind = {
  test: numberOf("test"),
  change: numberOf("change"),
  topUp: numberOf("top-up"),
  feed: numberOf("feed"),
  clean: numberOf("clean"),
  service: numberOf("service"),
  check: numberOf("check"),
  light: numberOf("light"),
  dose: numberOf("dose"),
  count: numberOf("count"),
  arrive: numberOf("arrive"),
  lose: numberOf("lose"),
  move: numberOf("move"),
  sell: numberOf("sell"),
  ship: numberOf("ship"),
  doa: numberOf("doa"),
  spawn: numberOf("spawn"),
  eggs: numberOf("eggs"),
  hatch: numberOf("hatch"),
  swim: numberOf("swim"),
  start: numberOf("start"),
  harvest: numberOf("harvest"),
  buy: numberOf("buy"),
  left: numberOf("left"),
  condition: numberOf("condition"),
  sick: numberOf("sick"),
  sample: numberOf("sample"),
  result: numberOf("result"),
  close: numberOf("close"),
  send: numberOf("send"),
  ask: numberOf("ask"),
  bath: numberOf("bath"),
  carry: numberOf("carry"),
  disinfect: numberOf("disinfect"),
  remove: numberOf("remove"),
  return: numberOf("return"),
  plant: numberOf("plant"),
  trim: numberOf("trim"),
  algae: numberOf("algae"),
  note: numberOf("note"),
} as const;
