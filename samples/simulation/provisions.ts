import { packs, portionsG } from "./pantry.ts";

/** What is in the freezer and the tins, in grams: filled by packs, emptied by every meal. */
export class Provisions {
  readonly #gram = new Map(Object.entries(packs).map(([food, { gram }]) => [food, 0.6 * gram]));

  of(food: string): number {
    return this.#gram.get(food) ?? 0;
  }

  /** A meal as it is written, the same for each of some tanks. */
  feed(food: string, amount: string, tanks: number): void {
    const [number, portion] = amount.split(" ");
    const gram = portionsG[food]?.[singular(portion ?? "")] ?? 0;
    this.#add(food, -Number(number) * gram * tanks);
  }

  buy(food: string): void {
    this.#add(food, packs[food]?.gram ?? 0);
  }

  /** What is left after some of it was thrown away. */
  weigh(food: string, gram: number): void {
    this.#gram.set(food, gram);
  }

  #add(food: string, gram: number): void {
    const known = this.#gram.get(food);
    if (known !== undefined) this.#gram.set(food, Math.max(0, known + gram));
  }
}

const irregular: Readonly<Record<string, string>> = { leaves: "leaf", pinches: "pinch" };

/** `cubes` as `cube`. */
export function singular(portion: string): string {
  return irregular[portion] ?? portion.replace(/s$/, "");
}
