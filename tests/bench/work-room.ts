import type { RecurringJob, WorkProblem } from "../../language/science/recurring-work.ts";

/** A room of tanks with changes, cleans and tests, whose days hold what comes on average, over `load`. */
export function inventedRoom(tanks: number, seed: number, load: number): WorkProblem {
  let state = Math.abs(seed) + 1;
  const random = (below: number): number => {
    state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
    return Math.floor((state / 0x80000000) * below);
  };
  const jobs: RecurringJob[] = [];
  for (let tank = 0; tank < tanks; tank++) {
    const add = (place: number, intervalDays: number, litres: number, minutes: number): void => {
      const due = random(intervalDays) - random(2);
      jobs.push({ place, intervalDays, due, uses: [litres, minutes] });
    };
    add(tank, [3, 4, 7, 7, 7, 10, 14][random(7)]!, 6 + random(60), 8);
    add(tank, [7, 14, 28][random(3)]!, 0, 15);
    add(-1, 14, 0, 5);
  }
  const steady = [0, 1].map((at) =>
    jobs.reduce((sum, { uses, intervalDays }) => sum + uses[at]! / intervalDays, 0),
  );
  const days = Array.from({ length: 14 }, (_, day) => ({
    isOpen: day < 8 || day > 9,
    places: Math.ceil(tanks / 3 / load),
    resources: steady.map((each) => each / load),
  }));
  return { jobs, days };
}
