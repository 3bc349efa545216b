/** A table that is not imported: the message says why, in plain words. Names in it may hold anything. */
export class Refused extends Error {
  override readonly name = "Refused";
}
