import type { Book } from "../book/book.ts";
import { parameterOf } from "../book/parameters.ts";
import type { WaterDay } from "./water-day.ts";

/** What would have to be stated to say more of the water of some days, and where. */
export function notStated({ flow, capacity, waters }: Book, days: readonly WaterDay[]): string[] {
  const changes = days.flatMap((day) => day.changes);
  const needs = days.flatMap((day) => day.waters);
  const said: string[] = [];
  if (waters.length === 0)
    said.push(
      "what goes in: water tap, and below it its content: content KH 5 dKH, GH 9 dGH, temperature 14 C",
    );
  if (Number.isNaN(flow.drain) || Number.isNaN(flow.fill))
    said.push("how fast water runs: flow drain 600 L/h, fill 400 L/h, below the room");
  if (Number.isNaN(capacity.litres))
    said.push("how much water a day may take: capacity 400 L, below the room");
  for (const name of unique(
    needs.filter(({ made, problem }) => made === undefined && problem === "").map((need) => need.name),
  )) {
    const cold = changes.some(({ warmth }) => warmth !== undefined && Number.isNaN(warmth.sourceC));
    const stated = waters.find((water) => water.name === name);
    if (cold && stated !== undefined && !hasTemperature(stated.content))
      said.push(`how warm ${name} is: content temperature 14 C, below water ${name}`);
  }
  for (const name of unique(
    needs.filter(({ isChlorineUnstated }) => isChlorineUnstated).map((need) => need.name),
  ))
    said.push(
      `chlorine of ${name}, so that no conditioner is reckoned: content chlorine 0.2 mg/L, 0 where there is none, below water ${name}`,
    );
  for (const { name, made } of needs)
    if (made?.isStated === false)
      said.push(
        `of what ${name} is made: from ${made.parts.map(({ water }) => water.name).join(", ")}, below water ${name}`,
      );
  for (const name of unique(
    changes.filter(({ warmth }) => warmth !== undefined && Number.isNaN(warmth.tankC)).map(({ at }) => at),
  ))
    said.push(`how warm ${name} is: ${name} test temperature 24.6, under a day`);
  return unique(said);
}

const temperatureId = parameterOf("temperature").id;
const unique = <T>(all: readonly T[]): T[] => [...new Set(all)];
const hasTemperature = (content: ReadonlyMap<number, number>): boolean => content.has(temperatureId);
