/** What “about” means of a number of animals: a fifth either way, and two at least. Common practice. */
const share = 0.2;
const least = 2;

/** Whether two numbers of animals, one of them an estimate, may be the same. */
export function isAboutAsMany(some: number, others: number): boolean {
  return Math.abs(some - others) <= Math.max(least, share * Math.max(some, others));
}
