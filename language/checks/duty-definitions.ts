import { page } from "./code.ts";

/** Duties that make no sense of the gear they are for. The findings are made where duties are bound. */

export const dutyDefinitionPages = [
  page({
    code: "duty/work",
    severity: "information",
    since: "0.4",
    title: "Work that such a gear does not have",
    says: "The duty asks for work that is not done on a gear of this kind, so nothing may ever do it. The duty counts all the same.",
    whatToDo: "Name another work, or correct the kind of the gear.",
    raises: `gear lamp-1
  kind lamp
  every 365 d service calibrated
#                     ^^^^^^^^^^ duty/work`,
    fine: `gear ph-meter
  kind meter
  every 30 d service calibrated`,
  }),
  page({
    code: "duty/lasts",
    severity: "information",
    since: "0.4",
    title: "Nobody knows how old it is",
    says: "How long a gear lasts is counted from its first day in use, or from the last service that says replaced: neither is known. Or a duty of the gear says already when it is replaced, and counts instead.",
    whatToDo: "State its first day in use; or leave one of the two out.",
    raises: `gear lamp-1
  kind lamp; lasts 365 d
#            ^^^^^^^^^^^ duty/lasts`,
    fine: `gear lamp-1
  kind lamp; lasts 365 d
  from 2026-01-01`,
    source:
      "That a lamp or a tube is replaced after some months of use is common practice; the time is its maker's.",
  }),
] as const;
