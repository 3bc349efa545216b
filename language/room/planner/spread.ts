/**
 * A duty of so many times in a period as that many duties that come once a period each, as no period then has fewer. Their days are
 * parted, so that the times do not fall together: the last may wait until it is due, the others come so much earlier. *Our own way.*
 * @param done the days it was done, in order, of which the last so many count
 * @param due the day on which there are too few, by the duty itself
 * @return the day each is due, in order
 */
export function spreadDues(
  done: readonly number[],
  times: number,
  periodDays: number,
  due: number,
  day: number,
): number[] {
  const gap = Math.floor(periodDays / times);
  // What was not done at all begins now: several times on one day make up for nothing.
  if (done.length === 0) return Array.from({ length: times }, (_, at) => day + at * Math.max(1, gap));
  const known = done.slice(-times).map((each) => Math.floor(each) + periodDays);
  // What is missing was due when there were too few.
  const real = [...Array.from({ length: times - known.length }, () => due), ...known].sort((a, b) => a - b);
  const dues = [...real];
  // What is late or missing is caught up one after the other.
  const missing = times - known.length;
  let late = 0;
  for (let at = 0; at < times; at++) {
    if (!(real[at]! < day || (real[at] === day && at < missing))) continue;
    dues[at] = late === 0 ? real[at]! : day + late * gap;
    late++;
  }
  for (let at = times - 2; at >= late; at--)
    dues[at] = Math.max(day, Math.min(dues[at]!, dues[at + 1]! - gap));
  return dues.sort((a, b) => a - b);
}

/** The days of some from one on, at whose end there were too few times in the period. @param done days in order, with those that are planned */
export function daysShort(
  done: readonly number[],
  times: number,
  periodDays: number,
  from: number,
  count: number,
): number[] {
  const short: number[] = [];
  for (let day = from; day < from + count; day++)
    if (done.filter((each) => each > day - periodDays && each <= day).length < times) short.push(day);
  return short;
}
