/** How lots are written: only where the keeper can tell whose they are. */
import { speciesOf } from "./species.ts";
import type { Part } from "./stock.ts";
import type { Entry } from "./writing.ts";

/** A line for each lot among the animals that were moved. */
export function moved(
  parts: readonly Part[],
  species: string,
  from: string,
  to: string,
  text?: string,
  tool?: string,
): Entry[] {
  const using = tool === undefined ? "" : ` with ${tool}`;
  return parts.map(({ lot, animals }, index) => ({
    target: from,
    words: `move ${species} ${animals} -> ${to}${ofLot(species, lot)}${using}`,
    text: index === 0 ? text : undefined,
  }));
}

/** Items of a sale or a loss: `praecox 5, praecox 3 lot pb-1`. */
export function items(parts: readonly Part[], species: string): string {
  const isTold = parts.some(({ lot }) => ofLot(species, lot) !== "");
  if (!isTold) return `${species} ${parts.reduce((sum, { animals }) => sum + animals, 0)}`;
  return parts.map(({ lot, animals }) => `${species} ${animals}${ofLot(species, lot)}`).join(", ");
}

/** Where animals are not counted one by one nobody can tell whose young they are. */
export function ofLot(species: string, lot: string | undefined): string {
  return lot === undefined || speciesOf(species).uncounted ? "" : ` lot ${lot}`;
}
