import fc from "fast-check";

/** A log and two versions that were made of it, at random, of lines as keepers write them. */

export interface ThreeWays {
  readonly base: string;
  readonly ours: string;
  readonly theirs: string;
}

const entries = [
  "dam   change 30 %",
  "dam   test nitrate 18 mg/L, pH 7.2",
  "dam   test KH 5",
  "dam   feed cyclops 2 cubes",
  "dam   feed flake",
  "r4    feed flake",
  "r4    clean front-glass, gravel",
  "r4    move cherry 12 -> q1",
  "q1    dose praziquantel 96 mg",
  'q1    sick praecox 2 signs "flashing" case flukes-1',
  'dam   note "eggs on the mop"',
  "@rack change 25..35 %  # all of them",
  "dam   count praecox 3.5.20",
  "dam   tset pH 7",
  "dam   feed",
  'dam   note "left open',
  "?? !",
];
const comments = ["# looked at twice", "# ---", "#"];
const properties = [
  "volume  310 L",
  "limits  nitrate <= 25 mg/L, pH 6.8..7.8",
  "every   7 d change 25..35 %",
  "every   28 d service canister",
  "role    show",
  "inside  150 x 55 x 50 cm; filled 46 cm",
  'note    "the heater is on the left"',
];
const rows = ["dam  7.2  18", "r4   7.0  <5", "q1   -    4", "r5   7.1  3", 'r6   7.3  "new bulb"'];
const columns = ["pH", "nitrate", "nitrate (mg/L N)", "temperature (F)", "KH", "praecox"];
const broken = "no block at all";
const heads = [
  'tank dam "Rainbowfish dam"',
  "tank r4",
  "group rack = r1 .. r4",
  "2026-03-01",
  "2026-03-01",
  '2026-03-02 "power cut"',
  "2026-03-02",
  broken,
  "2026-03-03",
  "2026-03-04",
  "2026-03-05",
];

/** A block as the lines below its head. */
interface Model {
  readonly head: string;
  readonly lines: readonly string[];
}

const clock = fc
  .integer({ min: 6, max: 22 })
  .chain((hour) =>
    fc.constantFrom("00", "15", "40").map((minute) => `${String(hour).padStart(2, "0")}:${minute}`),
  );
const entry = fc
  .tuple(fc.option(clock, { nil: "", freq: 2 }), fc.constantFrom(...entries))
  .map(([time, text]) => `  ${time === "" ? "" : `${time} `}${text}`);
const comment = fc.constantFrom(...comments).map((text) => `  ${text}`);
const round = fc
  .subarray(rows, { minLength: 1 })
  .map((some) => ["  sheet  pH   nitrate", ...some.map((row) => `    ${row}`)]);
const dayLines = fc
  .array(
    fc.oneof(
      { weight: 8, arbitrary: entry.map((text) => [text]) },
      { weight: 1, arbitrary: comment.map((text) => [text]) },
      { weight: 1, arbitrary: fc.constant([""]) },
      { weight: 1, arbitrary: round },
    ),
    { maxLength: 6 },
  )
  .map((some) => some.flat());
const definitionLines = fc.subarray(properties).map((some) => some.map((text) => `  ${text}`));
const isDay = (head: string): boolean => /^\d/.test(head);

const model: fc.Arbitrary<readonly Model[]> = fc
  .subarray(heads)
  .chain((some) =>
    fc.tuple(
      ...some.map((head) =>
        (isDay(head) ? dayLines : head === broken ? fc.constant([]) : definitionLines).map(
          (lines): Model => ({ head, lines }),
        ),
      ),
    ),
  );

type Edit = (blocks: readonly Model[]) => readonly Model[];

/** An edit that means the same on any log: where it cannot be made it does nothing. */
const edit: fc.Arbitrary<Edit> = fc.oneof(
  { weight: 5, arbitrary: fc.tuple(fc.nat(), fc.nat(), entry, comment, definitionLines).map(putIn) },
  { weight: 2, arbitrary: fc.tuple(fc.nat(), fc.nat()).map(takeOut) },
  { weight: 3, arbitrary: fc.tuple(fc.nat(), fc.nat(), fc.integer({ min: 1, max: 9 })).map(putRight) },
  { weight: 1, arbitrary: fc.tuple(fc.nat(), fc.nat(), clock).map(retime) },
  { weight: 1, arbitrary: fc.tuple(fc.constantFrom(...heads.filter(isDay)), dayLines).map(addDay) },
  { weight: 1, arbitrary: fc.nat({ max: 8 }).map(leaveOut) },
  { weight: 1, arbitrary: fc.tuple(fc.nat(), fc.nat(), fc.nat()).map(carry) },
  {
    weight: 3,
    arbitrary: fc
      .tuple(fc.nat(), fc.constantFrom(...columns), fc.nat({ max: 4 }), fc.nat({ max: 3 }))
      .map(rehead),
  },
  { weight: 2, arbitrary: fc.tuple(fc.nat(), fc.constantFrom(...rows)).map(addRow) },
);

function within(
  blocks: readonly Model[],
  at: number,
  change: (block: Model) => readonly string[],
): readonly Model[] {
  if (blocks.length === 0) return blocks;
  const index = at % blocks.length;
  if (blocks[index]!.head === broken) return blocks;
  return blocks.map((block, each) => (each === index ? { ...block, lines: change(block) } : block));
}

function putIn([at, place, line, remark, definition]: [number, number, string, string, string[]]): Edit {
  return (blocks) =>
    within(blocks, at, ({ head, lines }) => {
      const where = place % (lines.length + 1);
      const put = isDay(head) ? (place % 5 === 0 ? [remark, line] : [line]) : definition.slice(0, 1);
      const isInRound = lines[where]?.startsWith("    ") === true;
      const index = isInRound ? lines.length : where;
      return [...lines.slice(0, index), ...put, ...lines.slice(index)];
    });
}

function takeOut([at, place]: [number, number]): Edit {
  return (blocks) =>
    within(blocks, at, ({ lines }) => {
      const line = lines[place % Math.max(1, lines.length)];
      return line?.includes("sheet") === true ? lines : lines.filter((each) => each !== line);
    });
}

/** Another figure on a line. */
function putRight([at, place, digit]: [number, number, number]): Edit {
  return (blocks) =>
    within(blocks, at, ({ lines }) => {
      const index = place % Math.max(1, lines.length);
      return lines.map((line, each) =>
        each === index ? line.replace(/(?<=[ <])\d+(?![\d:])/, String(digit)) : line,
      );
    });
}

/** To another block, as where a day is cut in two. */
function carry([from, place, to]: [number, number, number]): Edit {
  return (blocks) => {
    if (blocks.length < 2) return blocks;
    const [source, goal] = [from % blocks.length, to % blocks.length];
    const line = blocks[source]!.lines[place % Math.max(1, blocks[source]!.lines.length)];
    const isDays = isDay(blocks[source]!.head) && isDay(blocks[goal]!.head);
    if (line === undefined || source === goal || !isDays || /sheet|^ {4}/.test(line)) return blocks;
    const left = within(blocks, source, ({ lines }) => without(lines, lines.indexOf(line)));
    return within(left, goal, ({ lines }) => [...lines, line]);
  };
}

const without = (lines: readonly string[], at: number): readonly string[] =>
  lines.filter((_, each) => each !== at);

/** A column put in, taken out or given another head, in the first round of a day. */
function rehead([at, column, place, how]: [number, string, number, number]): Edit {
  return (blocks) =>
    within(blocks, at, ({ lines }) => {
      const first = lines.findIndex((line) => line.startsWith("  sheet"));
      if (first < 0) return lines;
      const heads = cellsOf(lines[first]!);
      const index = 1 + (place % Math.max(1, heads.length - 1));
      const isHere = heads.includes(column);
      if ((how < 3 && isHere) || (how === 3 && heads.length < 3)) return lines;
      let isIn = true;
      return lines.map((line, each) => {
        if (each < first) return line;
        isIn &&= each === first || line.startsWith("    ");
        if (!isIn) return line;
        const cells = cellsOf(line);
        const cell = each === first ? column : String((each * 7 + place) % 10);
        const changed = [...cells];
        if (how < 2) changed.splice(index, 0, cell);
        else if (how === 3) changed.splice(index, 1);
        else if (each === first) changed[index] = column;
        const isShort = cells.length <= index || cells.slice(0, index + 1).some((one) => one.startsWith('"'));
        if (each > first && isShort) return line;
        return `${each === first ? "  " : "    "}${changed.join("  ")}`;
      });
    });
}

const cellsOf = (line: string): string[] => line.trim().match(/"[^"]*"|[^\s(]+(?: \([^)]*\))?/g) ?? [];

function addRow([at, row]: [number, string]): Edit {
  return (blocks) =>
    within(blocks, at, ({ lines }) => {
      const first = lines.findIndex((line) => line.startsWith("  sheet"));
      if (first < 0) return lines;
      let last = first;
      while (lines[last + 1]?.startsWith("    ") === true) last++;
      return [...lines.slice(0, last + 1), `    ${row}`, ...lines.slice(last + 1)];
    });
}

function leaveOut(at: number): Edit {
  return (blocks) => blocks.filter((_, index) => index !== at);
}

function retime([at, place, time]: [number, number, string]): Edit {
  return (blocks) =>
    within(blocks, at, ({ lines }) => {
      const index = place % Math.max(1, lines.length);
      return lines.map((line, each) => (each === index ? line.replace(/\d\d:\d\d/, time) : line));
    });
}

/** A date may head several blocks. */
function addDay([head, lines]: [string, readonly string[]]): Edit {
  return (blocks) => {
    const before = blocks.findIndex(
      (block) => isDay(block.head) && block.head.slice(0, 10) > head.slice(0, 10),
    );
    const index = before < 0 ? blocks.length : before;
    return [...blocks.slice(0, index), { head, lines }, ...blocks.slice(index)];
  };
}

const written = (blocks: readonly Model[], eol: string, isEnded: boolean): string => {
  const text = blocks.map(({ head, lines }) => [head, ...lines, ""].join(eol)).join(eol);
  return isEnded ? text : text.replace(/(?:\r\n|\n)$/, "");
};

export const threeWays: fc.Arbitrary<ThreeWays> = fc
  .record({
    blocks: model,
    ours: fc.array(edit, { maxLength: 4 }),
    theirs: fc.array(edit, { maxLength: 4 }),
    both: fc.array(edit, { maxLength: 1 }),
    eol: fc.constantFrom("\n", "\n", "\r\n"),
    isEnded: fc.constantFrom(true, true, true, false),
  })
  .map(({ blocks, ours, theirs, both, eol, isEnded }) => {
    const made = (edits: readonly Edit[]): string =>
      written(
        [...both, ...edits].reduce((now, each) => each(now), blocks),
        eol,
        isEnded,
      );
    return { base: written(blocks, eol, isEnded), ours: made(ours), theirs: made(theirs) };
  });
