/** What the room holds that somebody should notice: the list behind `samples/README.md`, held against the files by a test. */
export interface ToFind {
  readonly what: string;
  /** The day of the line it is found at. */
  readonly on: string;
  /** The tank, or the food or culture it is about. */
  readonly tank: string;
  /** What stands in that line, or in the last of its sort. */
  readonly line: RegExp;
}

export const toFind: readonly ToFind[] = [
  { what: "filter overdue", on: "2026-02-12", tank: "dam", line: /dam +service canister/ },
  { what: "nitrate creeping", on: "2026-03-29", tank: "ford", line: /ford .* (35|40) / },
  { what: "repeat missed", on: "2026-03-11", tank: "q1", line: /q1 +dose praziquantel 126 mg/ },
  { what: "dose above its ceiling", on: "2025-10-15", tank: "h1", line: /h1 +dose praziquantel 126 mg/ },
  { what: "dose too early", on: "2025-10-20", tank: "b3", line: /b3 +dose praziquantel 90 mg/ },
  { what: "count short", on: "2026-03-22", tank: "b2", line: /b2 +count gertrudae/ },
  { what: "out of quarantine early", on: "2025-09-19", tank: "q1", line: /q1 +move woworae 10 -> b3/ },
  { what: "change overdue", on: "2026-03-18", tank: "b4", line: /b4 +change/ },
  { what: "change overdue", on: "2026-03-20", tank: "b6", line: /b6 +change/ },
  { what: "too much dry food", on: "2026-03-28", tank: "sill", line: /sill +feed flake/ },
  { what: "slip of the finger", on: "2025-07-09", tank: "b5", line: /b5 +test .*pH \d\d$/ },
  {
    what: "ammonia after a filter clean",
    on: "2025-06-18",
    tank: "b7",
    line: /b7 +test .*ammonia (0\.[4-9]|1)/,
  },
  {
    what: "a case from first sign to close",
    on: "2025-10-04",
    tank: "b3",
    line: /b3 +sick woworae .* case flukes-1/,
  },
  {
    what: "sold from a held tank",
    on: "2025-10-04",
    tank: "r9",
    line: /r9 +sell praecox/,
  },
  { what: "a surface left for grazing", on: "2026-03-28", tank: "sill", line: /sill +clean .*back-glass/ },
  { what: "too few for a school", on: "2026-03-28", tank: "r9", line: /r9 +sell praecox/ },
  {
    what: "losses after a journey",
    on: "2026-01-21",
    tank: "q1",
    line: /q1 +lose gertrudae 1 found lot rn-126/,
  },
  { what: "a run of losses", on: "2026-03-05", tank: "sill", line: /sill +lose gertrudae 1 found/ },
  { what: "a brood overdue", on: "2026-03-19", tank: "b6", line: /b6 +eggs praecox 41 lot pb-3/ },
  { what: "a need missed", on: "2026-03-21", tank: "q1", line: /q1 +arrive furcatus 8/ },
  { what: "a culture overdue", on: "2026-03-16", tank: "worm-tub", line: /worm-tub +start microworm/ },
  { what: "a food running out", on: "2026-03-29", tank: "larvae", line: /room +left larvae 35 g/ },
  { what: "a food open too long", on: "2026-03-26", tank: "granules", line: /feed granules/ },
  { what: "more than the tank holds", on: "2025-11-29", tank: "ford", line: /b7 +move boesemani .* ford/ },
  { what: "an open case", on: "2026-03-27", tank: "b1", line: /b1 +sick praecox .* case tuft-1/ },
];
