import { quarantineSource } from "../room/why-quarantine.ts";
import { page } from "./code.ts";

/** What findings of quarantine say, with a log that raises each and one that does not. */

const room = `room "Cellar"
  quarantine 28 d
species praecox
tank dam
  volume 300 L
`;
const prelude = `${room}tank q1
  volume 50 L
  role quarantine
`;
const source = `${quarantineSource}.`;

export const quarantinePages = [
  page({
    code: "quarantine/early",
    severity: "warning",
    since: "0.1",
    title: "Out of quarantine early",
    says: "Animals leave a quarantine tank before its clock has run out, by a move, a sale or a shipment. The clock is one for all of them: it counts from the last animal that came into the water, and a loss, signs of disease or, where the room states “clear”, a dose put its end off.",
    whatToDo:
      "Keep them apart, or say in a note why not; watch the tank they went to, and what has shared water with it since.",
    raises: `${prelude}2026-03-01
  q1 arrive praecox 8
2026-03-15
  q1 move praecox 8 -> dam
# ^^^^^^^^^^^^^^^^^^^^^^^^ quarantine/early`,
    fine: `${prelude}2026-03-01
  q1 arrive praecox 8
2026-03-29
  q1 move praecox 8 -> dam`,
    source,
  }),
  page({
    code: "quarantine/mixed",
    severity: "information",
    since: "0.3",
    title: "New animals among those in quarantine",
    says: "Animals come into a quarantine tank, or into water it shares, while the clock of others runs. What the new ones carry, the others may have from then on: the clock of all begins anew.",
    whatToDo: "Keep all of them for as long as the last, or give each arrival a tank of its own.",
    raises: `${prelude}2026-03-01
  q1 arrive praecox 8
2026-03-10
  q1 arrive praecox 4
# ^^^^^^^^^^^^^^^^^^^ quarantine/mixed`,
    fine: `${prelude}2026-03-01
  q1 arrive praecox 8
2026-03-29
  q1 move praecox 8 -> dam
2026-03-29
  q1 arrive praecox 4`,
    source,
  }),
  page({
    code: "quarantine/extended",
    severity: "information",
    since: "0.3",
    title: "Quarantine lasts longer",
    says: "An animal was found dead or had to be euthanised, or some show signs of disease, while the clock of a quarantine runs. Its end is put off: by the days that the room states as “clear”, or, where it states none, by the whole time anew. Signs of a case last until an entry says that none show them, or the case is closed.",
    whatToDo:
      "Find out why before they go anywhere: look at all of them, and have one examined. Of some diseases the authority must be told at once: ask a veterinarian.",
    raises: `${prelude}2026-03-01
  q1 arrive praecox 8
2026-03-10
  q1 lose praecox 1 found
# ^^^^^^^^^^^^^^^^^^^^^^^ quarantine/extended`,
    fine: `${prelude.replace("28 d", "28 d\n  clear 14 d")}2026-03-01
  q1 arrive praecox 8
2026-03-10
  q1 lose praecox 1 found
2026-03-11
  q1 lose praecox 1 jumped`,
    source:
      "That deaths, signs and treatment put a release off is *common practice*; for how long is the keeper's to state.",
  }),
  page({
    code: "quarantine/shared-water",
    severity: "warning",
    since: "0.3",
    title: "Quarantine shares its water",
    says: "A quarantine tank is on one water with a tank of another role. Whatever its animals carry is in that tank too: they are not apart.",
    whatToDo:
      "Give the quarantine tank a water of its own, or state another role. Until then what lives in that water is in quarantine with them.",
    raises: `${room}system rack
  sump 40 L
tank q1
#    ^^ quarantine/shared-water
  volume 50 L
  role quarantine
  system rack
tank r1
  volume 50 L
  role grow-out
  system rack`,
    fine: `${room}system rack
  sump 40 L
tank q1
  volume 50 L
  role quarantine
  system rack
tank q2
  volume 50 L
  role quarantine
  system rack`,
    source: "That quarantine is isolation, with water, tools and air of its own: *common practice*.",
  }),
  page({
    code: "quarantine/skipped",
    severity: "information",
    since: "0.3",
    title: "Not by way of quarantine",
    says: "Animals come from outside straight into water in which others live, though the room states a quarantine and has a tank for it. What they carry, the others may have from that day on.",
    whatToDo:
      "Let arrivals stay apart first. If these were in quarantine elsewhere, say so in a note; watch the tank, and let nothing go from it until the time has passed.",
    raises: `${prelude}2026-03-01
  dam count praecox 14
2026-03-10
  dam arrive praecox 4
# ^^^^^^^^^^^^^^^^^^^^ quarantine/skipped`,
    fine: `${prelude}2026-03-01
  dam arrive praecox 14
  dam arrive praecox 4`,
    source: "That arrivals stay apart: *common practice*; for how long is the keeper's to state.",
  }),
] as const;
