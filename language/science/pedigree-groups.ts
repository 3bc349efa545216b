/** Inbreeding where a parent is one of a group, and nobody knows which. */
import { oldestFirst, type Parents } from "./pedigree.ts";
import { isOutside, type Outside } from "./result.ts";

/** One animal with a name, or a group of full brothers and sisters: a brood, a batch. */
export interface Kin extends Parents {
  readonly isGroup: boolean;
}

export interface Bounds {
  readonly low: number;
  readonly high: number;
}

/** What a reference to a group stands for: another animal each time, or always the same male and the same female. */
type Reading = "others" | "same";
type Role = "male" | "female";

/**
 * The bounds of the inbreeding of each animal, or of each animal of a group. A parent that is one of a group may be another of its animals
 * each time it is named (the low end), or always the same one of its sex (the high end): coancestry only grows where two animals are one.
 * Coancestry as in Malecot 1948, Les mathématiques de l'hérédité (recalled); of two of a brood by its parents, of two of a group without
 * known parents 0. The animals of a group are taken as full brothers and sisters.
 */
export function inbreedingBounds(kin: readonly Kin[]): readonly Bounds[] | Outside {
  const order = oldestFirst(kin);
  if (isOutside(order)) return order;
  const rank = new Array<number>(kin.length).fill(0);
  order.forEach((animal, at) => {
    rank[animal] = at;
  });
  const low = new Coancestry(kin, rank, "others");
  const high = new Coancestry(kin, rank, "same");
  // The oldest first, so that no question goes deep.
  const bounds = new Array<Bounds>(kin.length);
  for (const animal of order) bounds[animal] = { low: low.inbreeding(animal), high: high.inbreeding(animal) };
  return bounds;
}

class Coancestry {
  private readonly kin: readonly Kin[];
  private readonly rank: readonly number[];
  private readonly reading: Reading;
  private readonly known = new Map<string, number>();

  constructor(kin: readonly Kin[], rank: readonly number[], reading: Reading) {
    this.kin = kin;
    this.rank = rank;
    this.reading = reading;
  }

  /** Of an animal the coancestry of its parents. */
  inbreeding(animal: number): number {
    const { father, mother } = this.kin[animal]!;
    return this.between(father, "male", mother, "female");
  }

  private between(
    one: number | undefined,
    oneRole: Role,
    other: number | undefined,
    otherRole: Role,
  ): number {
    if (one === undefined || other === undefined) return 0;
    if (this.rank[one]! < this.rank[other]!) return this.between(other, otherRole, one, oneRole);
    const key = `${one} ${oneRole} ${other} ${otherRole}`;
    const known = this.known.get(key);
    if (known !== undefined) return known;
    const made = one === other ? this.within(one, oneRole === otherRole) : this.apart(one, other, otherRole);
    this.known.set(key, made);
    return made;
  }

  /** Two different lots: the younger by its parents. */
  private apart(younger: number, older: number, role: Role): number {
    const { father, mother } = this.kin[younger]!;
    return (this.between(father, "male", older, role) + this.between(mother, "female", older, role)) / 2;
  }

  /** Two animals of one lot, or one animal twice. */
  private within(lot: number, isSameSex: boolean): number {
    const { isGroup, father, mother } = this.kin[lot]!;
    if (!isGroup || (this.reading === "same" && isSameSex)) return (1 + this.inbreeding(lot)) / 2;
    return (
      (this.between(father, "male", father, "male") +
        this.between(mother, "female", mother, "female") +
        2 * this.between(father, "male", mother, "female")) /
      4
    );
  }
}
