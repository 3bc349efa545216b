/**
 * The animals of one species in one lot: a lot may hold several species that came together. As a small whole number, like words; one
 * table serves a whole process.
 */
const numbers = new Map<number, number>();
const parties: { readonly species: number; readonly lot: number }[] = [];

/** Names are below this. */
const mostNames = 0x200000;

/** The number of a party. @param species and lot the numbers of their names */
export function partyOf(species: number, lot: number): number {
  const key = lot * mostNames + species;
  const known = numbers.get(key);
  if (known !== undefined) return known;
  const made = parties.length;
  numbers.set(key, made);
  parties.push({ species, lot });
  return made;
}

/** The names of a party that `partyOf` numbered. */
export function namesOfParty(party: number): { readonly species: number; readonly lot: number } {
  return parties[party]!;
}
