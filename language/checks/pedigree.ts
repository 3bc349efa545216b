import { isoOf } from "../book/dates.ts";
import type { Lot, Place } from "../book/stations.ts";
import type { ParentNamed } from "../room/brood-rows.ts";
import { broodsUntil } from "../room/broods.ts";
import { keptWithLines } from "../room/kept-with-lines.ts";
import { type Kindred, type Lineage, lineageUntil, statedParents } from "../room/lineage.ts";
import type { Logbook } from "../room/logbook.ts";
import { page } from "./code.ts";
import type { Finding, Fix } from "./finding.ts";
import { replacing } from "./offers.ts";

/** Parents against what they can be. */

const prelude = `species praecox
species horn
tank b1
  volume 40 L
`;

export const pedigreePages = [
  page({
    code: "pedigree/ring",
    severity: "warning",
    since: "0.2",
    title: "An animal that is its own ancestor",
    says: "Followed from parent to parent the pedigree comes back to where it began. Of the animals on that ring, and of their young, no inbreeding is told.",
    whatToDo: "Correct one of the parents; what names them is linked.",
    raises: `${prelude}lot blue-1
  father blue-2
lot blue-2
  father blue-1
#        ^^^^^^ pedigree/ring`,
    fine: `${prelude}lot blue-1
  father blue-2
lot blue-2
  father blue-3`,
  }),
  page({
    code: "pedigree/species",
    severity: "warning",
    since: "0.2",
    title: "A parent of another species",
    says: "The parent is stated, or came, as another species than its young.",
    whatToDo:
      "Correct the name. If they are hybrids, keep the finding as their label: they are not to be passed on as either species.",
    raises: `${prelude}lot horn-1
  species horn
2026-03-01
  b1 spawn praecox 60 eggs lot p7 father horn-1
#                                        ^^^^^^ pedigree/species`,
    fine: `${prelude}lot blue-1
  species praecox
2026-03-01
  b1 spawn praecox 60 eggs lot p7 father blue-1`,
    source: "That hybrid lines are labelled: *common practice, no source*.",
  }),
  page({
    code: "pedigree/sex",
    severity: "warning",
    since: "0.2",
    title: "A father that is female, or a mother that is male",
    says: "The sex that is stated of the parent is not the one it would need.",
    whatToDo: "Correct the name or the sex, or exchange father and mother.",
    raises: `${prelude}lot gold-2
  sex female
2026-03-01
  b1 spawn praecox 60 eggs lot p7 father gold-2
#                                        ^^^^^^ pedigree/sex`,
    fine: `${prelude}lot gold-2
  sex female
2026-03-01
  b1 spawn praecox 60 eggs lot p7 mother gold-2`,
  }),
  page({
    code: "pedigree/younger",
    severity: "warning",
    since: "0.2",
    title: "A parent younger than its young",
    says: "The parent was born, laid or hatched on the day of its young or later, or came into the room only after they were laid.",
    whatToDo: "Correct the name, or the day.",
    raises: `${prelude}lot blue-1
  born 2026-03-05
2026-03-01
  b1 spawn praecox 60 eggs lot p7 father blue-1
#                                        ^^^^^^ pedigree/younger`,
    fine: `${prelude}lot blue-1
  born 2025-03-05
2026-03-01
  b1 spawn praecox 60 eggs lot p7 father blue-1`,
  }),
  page({
    code: "pedigree/differs",
    severity: "warning",
    since: "0.2",
    title: "Two parents where there is one",
    says: "A spawning names another father or mother than the definition of the lot. What the spawning names counts.",
    whatToDo: "Correct one of them.",
    raises: `${prelude}lot p7
  father blue-1
2026-03-01
  b1 spawn praecox 60 eggs lot p7 father blue-2
#                                        ^^^^^^ pedigree/differs`,
    fine: `${prelude}lot p7
  father blue-1
2026-03-01
  b1 spawn praecox 60 eggs lot p7 father blue-1`,
  }),
] as const;

type Role = "father" | "mother";
const otherRole: Readonly<Record<Role, Role>> = { father: "mother", mother: "father" };

/** A place that names a parent. */
interface Claim {
  readonly role: Role;
  readonly parent: ParentNamed;
  /** The other parent, where the same place names it. */
  readonly other: ParentNamed | undefined;
  /** The lot of the young; empty for a brood without a name. */
  readonly child: string;
  readonly species: string;
  /** The day the young were laid or born; NaN where nothing says so. */
  readonly day: number;
  /** What the definition of the young states, where an entry names the parent. */
  readonly stated: Lot | undefined;
}

/** What the parents that are named tell, up to a day. A line of unknown water derives no ledger, and yet moves what stands below it. */
export function pedigreeFindings(logbook: Logbook, day: number): readonly Finding[] {
  return keptWithLines(logbook, `pedigree findings ${day}`, () => {
    const lineage = lineageUntil(logbook, day);
    const claims = [...claimsOfBroods(logbook, day), ...claimsOfLots(logbook, lineage)];
    return {
      value: [
        ...lineage.rings.flatMap((ring) => ringFinding(claims, ring)),
        ...claims.flatMap((claim) => claimFindings(lineage, claim)),
      ],
      blocks: claims.map(({ parent }) => parent.place.block),
    };
  });
}

const roles = ["father", "mother"] as const;

function claimsOfBroods(logbook: Logbook, day: number): Claim[] {
  return broodsUntil(logbook, day).flatMap(({ lot, species, tally, parents }) =>
    roles.flatMap((role): Claim[] => {
      const parent = parents[role];
      if (parent === undefined) return [];
      const stated = logbook.book.lots.get(lot);
      return [
        { role, parent, other: parents[otherRole[role]], child: lot, species, day: tally.spawned, stated },
      ];
    }),
  );
}

function claimsOfLots({ book }: Logbook, { kindred }: Lineage): Claim[] {
  return [...book.lots.values()].flatMap((lot) => {
    const parents = statedParents(lot);
    const known = kindred.get(lot.name);
    return roles.flatMap((role): Claim[] => {
      const parent = parents[role];
      if (parent === undefined) return [];
      const day = known?.brood?.tally.spawned ?? (known?.isBorn === true ? known.livesFrom : Number.NaN);
      const species = known?.species ?? "";
      return [
        { role, parent, other: parents[otherRole[role]], child: lot.name, species, day, stated: undefined },
      ];
    });
  });
}

/** One finding a ring, at the last place that names a parent on it. */
function ringFinding(claims: readonly Claim[], ring: readonly string[]): Finding[] {
  const on = claims
    .filter(({ child, parent }) => {
      const at = ring.indexOf(child);
      return at >= 0 && ring[(at + 1) % ring.length] === parent.name;
    })
    .sort((a, b) => inOrder(a.parent.place, b.parent.place));
  const last = on.at(-1);
  if (last === undefined) return [];
  return [
    {
      ...base(last.parent.place),
      code: "pedigree/ring",
      message: `${last.child} would be its own ancestor: ${[...ring, ring[0]!].join(", child of ")}`,
      related: on
        .slice(0, -1)
        .map(({ parent, role }) => ({ place: parent.place, message: `names the ${role}` })),
    },
  ];
}

const inOrder = (a: Place, b: Place): number =>
  a.block.file.path === b.block.file.path
    ? a.block.start + a.start - (b.block.start + b.start)
    : a.block.file.path < b.block.file.path
      ? -1
      : 1;

function claimFindings({ kindred }: Lineage, claim: Claim): Finding[] {
  const { role, parent, species, child } = claim;
  const known = kindred.get(parent.name);
  if (known === undefined) return [];
  const found: Finding[] = [];
  const young = child === "" ? `this brood of ${species}` : child;
  const definition = known.definition;
  const related =
    definition === undefined
      ? []
      : [{ place: definition.place, message: `what is stated of ${parent.name}` }];
  if (known.species !== "" && species !== "" && known.species !== species)
    found.push({
      ...base(parent.place),
      code: "pedigree/species",
      message: `${role} ${parent.name} is ${known.species}, ${young} is ${species}: young of two species are hybrids`,
      related,
    });
  if (definition?.sex !== undefined && (definition.sex === "male") !== (role === "father"))
    found.push({
      ...base(parent.place, sexFixes(kindred, claim)),
      code: "pedigree/sex",
      message: `${parent.name} is ${definition.sex} and cannot be the ${role} of ${young}`,
      related,
    });
  if (known.isBorn ? known.livesFrom >= claim.day : known.livesFrom > claim.day)
    found.push({
      ...base(parent.place),
      code: "pedigree/younger",
      message: `${role} ${parent.name} ${known.isBorn ? "is no older than its young: it was born or laid" : "was not there yet: it came"} on ${isoOf(known.livesFrom)}, ${young} was laid or born on ${isoOf(claim.day)}`,
      related,
    });
  const stated = statedParents(claim.stated)[role];
  if (stated !== undefined && stated.name !== parent.name)
    found.push({
      ...base(parent.place, replacing(parent.place.block, parent.place, [written(stated)])),
      code: "pedigree/differs",
      message: `${child} has ${role} ${stated.name} by its definition; the spawning counts`,
      related: [{ place: stated.place, message: "as it is defined" }],
    });
  return found;
}

function base(place: Place, fixes: readonly Fix[] = []) {
  const { block, start, end } = place;
  return { severity: "warning" as const, block, start, end, fixes, why: undefined };
}

const written = ({ place }: ParentNamed): string => place.block.text.slice(place.start, place.end);

/** Exchanges father and mother where both are the wrong way round, or names the parent as the other one where that is free. */
function sexFixes(kindred: ReadonlyMap<string, Kindred>, { role, parent, other }: Claim): Fix[] {
  const { block, start, end } = parent.place;
  if (other !== undefined) {
    const sex = kindred.get(other.name)?.definition?.sex;
    const isTurned = sex !== undefined && (sex === "male") === (role === "father");
    if (!isTurned || other.place.block !== block) return [];
    return [
      {
        title: "Exchange father and mother",
        edits: [
          { block, start, end, text: written(other) },
          { block, start: other.place.start, end: other.place.end, text: written(parent) },
        ],
        isSure: true,
      },
    ];
  }
  const lead = block.text.slice(0, start).lastIndexOf(role);
  if (lead < 0 || block.text.slice(lead + role.length, start).trim() !== "") return [];
  return [
    {
      title: `Write “${otherRole[role]} ${parent.name}”`,
      edits: [{ block, start: lead, end: lead + role.length, text: otherRole[role] }],
      isSure: true,
    },
  ];
}
