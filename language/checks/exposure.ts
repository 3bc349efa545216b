import { spokenDay } from "../book/dates.ts";
import { Kind } from "../book/entries/registry.ts";
import { lineAt } from "../book/entry.ts";
import { kindOfRow } from "../book/facts.ts";
import { type Block, rowOfId } from "../book/source.ts";
import type { Station } from "../book/stations.ts";
import type { Case } from "../room/cases.ts";
import type { Contact } from "../room/contact.ts";
import { nodesOf } from "../room/contact-nodes.ts";
import { hopsOf } from "../room/exposed-tanks.ts";
import { linksOf } from "../room/exposure.ts";
import { type CarriedTool, type HeldMove, type Leaving, leavingOfCases } from "../room/held-moves.ts";
import { keptWithLines } from "../room/kept-with-lines.ts";
import type { Logbook } from "../room/logbook.ts";
import { placeOfRow, type Why, whyEntry } from "../room/why.ts";
import { page } from "./code.ts";
import { occupiedFindings } from "./disinfection.ts";
import { hopText, pathText } from "./exposure-words.ts";
import type { Fix } from "./finding.ts";
import type { RowFinding } from "./observe.ts";

/** What carries a disease on: animals out of tanks that a case holds, tools out of sick tanks. */

const prelude = `species praecox
tank b3
  volume 60 L
tank q1
  volume 60 L
tank r1
  volume 20 L
`;

const practice =
  "What was in contact stays apart until it is known what it is: *common practice, no source*. How far contacts are followed is the room's to state";

export const exposurePages = [
  page({
    code: "exposure/moved-out",
    severity: "warning",
    since: "0.3",
    title: "Animals leave a tank that a case holds",
    says: "A case is open, and animals in this tank showed its signs, or something came into it from a tank of the case within the days for which contacts are followed (`trace` in the room; 30 days where it states none). What they may carry goes along. Sales out of water with signs are told by ship/sick.",
    whatToDo:
      "Keep them where they are until the case is closed, or take the sick to a tank with the role hospital. Where it is done already, hold the other tank too: standpipe exposure lists the tanks to hold. Some diseases must be reported, and forbid moving animals: ask a veterinarian.",
    raises: `${prelude}2026-03-08
  b3 move praecox 2 -> q1
2026-03-10
  b3 sick praecox 2 of 9 case flukes-1
2026-03-12
  q1 move praecox 1 -> r1
# ^^^^^^^^^^^^^^^^^^^^^^^ exposure/moved-out`,
    fine: `${prelude}2026-03-08
  b3 move praecox 2 -> q1
2026-03-10
  b3 sick praecox 2 of 9 case flukes-1
2026-03-12
  b3 close flukes-1 recovered
2026-03-13
  q1 move praecox 1 -> r1`,
    source: `${practice}.`,
  }),
  page({
    code: "exposure/tool",
    severity: "information",
    since: "0.3",
    title: "A tool that was in a sick tank is used elsewhere",
    says: "The tool was used in water with an open case, and is used in other water now, and no line says that it was disinfected in between.",
    whatToDo:
      "Write down that it was disinfected, if it was: room disinfect net. Better, give a sick tank tools of its own: a name of its own makes it another tool.",
    raises: `${prelude}2026-03-10
  b3 sick praecox 2 of 9 case flukes-1
  b3 clean gravel with siphon
  r1 clean gravel with siphon
#                      ^^^^^^ exposure/tool`,
    fine: `${prelude}2026-03-10
  b3 sick praecox 2 of 9 case flukes-1
  b3 clean gravel with siphon
  room disinfect siphon with "chlorine, 30 min"
  r1 clean gravel with siphon`,
    source: "Tools of their own, or disinfected between tanks: *common practice, no source*.",
  }),
] as const;

const severityOf = (code: (typeof exposurePages)[number]["code"]) =>
  exposurePages.find((each) => each.code === code)!.severity;

type ByLedger = Map<number, RowFinding[]>;

/** By the number of the ledger that they are about. */
export function exposureFindings(logbook: Logbook): ReadonlyMap<number, readonly RowFinding[]> {
  return keptWithLines(logbook, "exposure findings", () => {
    const leaving = leavingOfCases(logbook);
    const found: ByLedger = new Map();
    const add = (ledger: number, finding: RowFinding): void => {
      const known = found.get(ledger);
      if (known === undefined) found.set(ledger, [finding]);
      else known.push(finding);
    };
    // A tank that two cases hold is told once.
    const told = new Set<Contact>();
    for (const each of leaving)
      for (const { contact, ledger, finding } of findingsOf(logbook, each)) {
        if (told.has(contact)) continue;
        told.add(contact);
        add(ledger, finding);
      }
    for (const { tank, finding } of occupiedFindings(logbook)) add(logbook.ledgerNumber(tank), finding);
    return { value: found, blocks: leaving.flatMap((each) => each.blocks) };
  });
}

interface OfContact {
  readonly contact: Contact;
  readonly ledger: number;
  readonly finding: RowFinding;
}

/** What is told of one case: made anew only where what left its tanks was looked for anew. */
const kept = new WeakMap<Leaving, readonly OfContact[]>();

function findingsOf(logbook: Logbook, leaving: Leaving): readonly OfContact[] {
  const last = kept.get(leaving);
  if (last !== undefined) return last;
  const made = [
    ...leaving.moves.map((move): OfContact => {
      const { contact } = move;
      const ledger = logbook.ledgerNumber(contact.fromStation!);
      return { contact, ledger, finding: movedFinding(logbook, move) };
    }),
    ...leaving.tools.map((tool): OfContact => {
      const { contact } = tool;
      return { contact, ledger: logbook.ledgerNumber(contact.toStation!), finding: toolFinding(tool) };
    }),
  ];
  kept.set(leaving, made);
  return made;
}

const caseText = ({ name }: Case): string => (name === "" ? "signs of disease" : `case ${name}`);

const leaveWords = new Map<number, string>([
  [Kind.sell, "are sold from"],
  [Kind.ship, "are shipped from"],
]);

function movedFinding(logbook: Logbook, move: HeldMove): RowFinding {
  const { contact, thread, sign } = move;
  const { block, row, day, what, fromStation } = contact;
  const tank = fromStation!;
  const reason = (): string =>
    sign === undefined
      ? reachedText(logbook, move)
      : `animals in ${sign.station === tank ? "it" : "its water"} show signs since ${spokenDay(sign.day, day)}`;
  return {
    code: "exposure/moved-out",
    block,
    row,
    slots: [],
    severity: () => severityOf("exposure/moved-out"),
    message: () => {
      const at = rowOfId(block, row);
      const leave = (at < 0 ? undefined : leaveWords.get(kindOfRow(block.facts, at))) ?? "are moved out of";
      return `${what} ${leave} ${tank.name}, which is held for ${caseText(thread)}: ${reason()}`;
    },
    related: () => relatedOf(thread),
    why: () => whyHeld(move, tank),
    about: tank,
  };
}

/** `praecox moved from b3 to q1, 8 March (dam > b3 > q1)`; of another tank of that water that it shares it. */
function reachedText({ book }: Logbook, { way, contact: { day, fromStation } }: HeldMove): string {
  const nodes = nodesOf(book);
  const links = linksOf(way, false) as Contact[];
  const into = links.at(-1)?.toStation;
  const { hops } = hopsOf(links, [], way.time);
  const last = hops.at(-1);
  if (last === undefined) return "";
  const path = hops.length > 1 ? ` (${pathText(hops, nodes, day)})` : "";
  const shared = into === undefined || into === fromStation ? "" : `it shares the water of ${into.name}; `;
  return `${shared}${hopText(last, nodes, day)}, ${spokenDay(Math.floor(way.time), day)}${path}`;
}

function whyHeld({ thread, sign, way }: HeldMove, tank: Station): Why {
  const opening = thread.entries[0];
  return {
    what: `${tank.name} is held for ${caseText(thread)}`,
    value:
      sign === undefined ? `reached, ${spokenDay(Math.floor(way.time))}` : `signs, ${spokenDay(sign.day)}`,
    source: practice,
    from: [
      ...(sign?.at === undefined ? (opening === undefined ? [] : [whyEntry(opening)]) : [whyEntry(sign.at)]),
      ...(sign === undefined ? (linksOf(way, false) as Contact[]).map((link) => whyEntry(link)) : []),
    ],
  };
}

function relatedOf({
  entries,
}: Case): { place: NonNullable<ReturnType<typeof placeOfRow>>; message: string }[] {
  const [opening] = entries;
  const place = opening === undefined ? undefined : placeOfRow(opening.block, opening.row);
  return place === undefined ? [] : [{ place, message: "the first signs" }];
}

function toolFinding({ thread, from, contact }: CarriedTool): RowFinding {
  const { block, row, day, what, toStation } = contact;
  return {
    code: "exposure/tool",
    block,
    row,
    slots: ["tool", "thing"],
    severity: () => severityOf("exposure/tool"),
    message: () =>
      `${what} was used in ${from.fromStation!.name} on ${spokenDay(from.day, day)}, where ${caseText(thread)} is open, and no line says that it was disinfected since`,
    related: () => {
      const place = placeOfRow(from.block, from.row);
      return place === undefined ? [] : [{ place, message: "used there" }];
    },
    fixes: ({ start }) => disinfectedAbove(block, start, what),
    why: () => ({
      what: `${what} may carry what it touched in ${from.fromStation!.name}`,
      value: "",
      source: "Tools of their own, or disinfected between tanks: *common practice, no source*",
      from: [...(thread.entries[0] === undefined ? [] : [whyEntry(thread.entries[0])]), whyEntry(from)],
    }),
    about: toStation!,
  };
}

/** Above the line, at its time, so that it counts before it. */
function disinfectedAbove(block: Block, offset: number, tool: string): Fix[] {
  const line = lineAt(block, offset);
  if (line === undefined) return [];
  const { text } = block;
  let start = line.start;
  while (start > 0 && !/[\r\n]/.test(text[start - 1]!)) start--;
  const eol = text.includes("\r\n") ? "\r\n" : "\n";
  const time = line.time === undefined ? "" : `${line.time.text} `;
  const entry = `room disinfect ${tool}`;
  return [
    {
      title: `Write “${entry}” above, if it was`,
      edits: [{ block, start, end: start, text: `${text.slice(start, line.start)}${time}${entry}${eol}` }],
      isSure: false,
    },
  ];
}
