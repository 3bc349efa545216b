import { describe, expect, it } from "vitest";
import { type Cell, cellText, type Section } from "../../language/features/document.ts";
import { reportHtml } from "../../language/features/document-html.ts";
import { reportMarkdown } from "../../language/features/document-markdown.ts";
import { type Keeper, noKeeper } from "../../language/features/laboratory/keeper.ts";
import { laboratoryReport } from "../../language/features/laboratory/report.ts";
import { missingFields } from "../../language/features/laboratory/report-parts.ts";
import { medianOf } from "../../language/features/laboratory/water.ts";
import {
  type LaboratorySheet,
  laboratorySheet,
  sheetChoices,
} from "../../language/features/laboratory-sheet.ts";
import { findingsOf } from "../support/marked.ts";
import { Room } from "../support/room.ts";

/** A small log in, the lines of the sheet out. */

const keeper: Keeper = {
  name: "A keeper",
  address: "Cellar Lane 1",
  telephone: "000 111",
  email: "keeper@example.org",
  veterinarian: "a fish vet, 000 222",
  registration: "R-7",
};

/** Everything that is asked for is stated. */
const full = `room "Cellar"
  units       temperature C, volume L, ammonia mg/L N
  quarantine  28 d
  trace       30 d
  limits      nitrate <= 25 mg/L, temperature 23..27 C
water tap "Mains, aged"
  content  nitrate 6 mg/L, KH 5 dKH
species praecox "Melanotaenia praecox"
  adult 6 cm
food cyclops "Frozen cyclops"
  kind frozen
remedy prazi "Flatworm remedy"
  active "praziquantel"; strength 20 mg/mL; target 2 mg/L; ceiling 5 mg/L; half-life 3 d; repeat 3 times every 7 d
tank dam "Rainbowfish dam"
  volume 100 L; role show; place "left wall"; from 2025-01-01
tank q1
  volume 48 L; role quarantine; place "by the door"; from 2025-01-01
tank b2
  volume 40 L
gear canister "Canister of the dam"
  kind filter; on dam
lot a17
  species praecox; born 2025-10-01
2026-01-10
  q1 arrive praecox 10 from "river nursery" by courier lot a17 dead 1
2026-02-10
  q1 move praecox 10 -> dam lot a17
  dam test nitrate <5
2026-02-20
  dam test nitrate 10, temperature 24, pH 7.2, ammonia <0.1, nitrite <0.1, GH 9, KH 5, oxygen 7
2026-02-25
  dam carry fern -> b2
  dam clean glass
  dam plant fern 2 from "a friend"
2026-02-26
  dam clean glass
  room note "power cut, 20 min"
2026-03-01
  dam test nitrate 30, temperature 25.5
  dam condition praecox 2.5 length 5.2 cm weight 3 g lot a17
  08:00 dam feed cyclops 2 cubes
  dam sick praecox 2 of 10 signs "flashing, clamped fins, odd colour" case flukes-1
2026-03-02
  dam change 30 % from tap barrel b-12
  dam feed none
  dam lose praecox 1 found case flukes-1 "thin"
  dam sick praecox 3 of 9 new 1 signs "flashing" case flukes-1
2026-03-03
  07:00 dam dose prazi 10 mL case flukes-1
  08:30 dam sample gill 2 of praecox kept formalin at 10 % volumes 20 into "tube 1" case flukes-1 to "state laboratory" "both sides"
  09:00 room send flukes-1 packed
  14:30 room send flukes-1 to "state laboratory" by "courier"
  room ask flukes-1 "Which monogenean is it?"
2026-03-05
  room send flukes-1 received "by telephone"
`;

function sheetOf(log: string, day?: string, of = keeper, name = "flukes-1"): LaboratorySheet {
  const room = new Room(log, day);
  const made = laboratorySheet(room.checked, name, of, room.today);
  if (made === undefined) throw new Error(`there is no case ${name}`);
  return made;
}

/** The rows of a section's tables, cells parted by bars, and its other lines. */
function linesOf(section: Section | undefined): string[] {
  return (section?.parts ?? []).flatMap((part) => {
    switch (part.is) {
      case "table":
        return part.rows.map((row: readonly Cell[]) => row.map(cellText).join(" | "));
      case "list":
        return part.items.map(({ text, note = "" }) => (note === "" ? text : `${text} (${note})`));
      case "picture":
        return [`picture: ${part.alt}`];
      default:
        return [part.text];
    }
  });
}

function section(log: string, title: string, day?: string, of = keeper): string[] {
  const report = laboratoryReport(sheetOf(log, day, of));
  const found = report.sections.find((each) => each.title === title);
  if (found === undefined)
    throw new Error(`no section ${title} in ${report.sections.map((each) => each.title)}`);
  return linesOf(found);
}

describe("the sheet of a case of which all is stated", () => {
  it("misses nothing", () => {
    expect(findingsOf(full).filter(({ severity }) => severity === "error")).toEqual([]);
    const sheet = sheetOf(full);
    expect(missingFields(sheet)).toEqual([]);
    expect(linesOf(laboratoryReport(sheet).sections.at(-1))).toEqual([
      "All that this sheet asks for is stated.",
    ]);
  });

  it("says who sends it, to whom, and what is asked", () => {
    expect(section(full, "Sender and question").slice(0, 9)).toEqual([
      "Keeper | A keeper",
      "Address | Cellar Lane 1",
      "Telephone | 000 111",
      "E-mail | keeper@example.org",
      "Veterinarian | a fish vet, 000 222",
      "Registration of the room | R-7",
      "Laboratory | state laboratory",
      "Wanted | Which monogenean is it?",
      "First sign | 1 March 2026, in dam: praecox, flashing, clamped fins, odd colour",
    ]);
  });

  it("has the samples, and each step of their way with the time between", () => {
    expect(section(full, "Samples in the box")[0]).toBe(
      "1 | 2 gill of praecox: both sides | dam | 2026-03-03 08:30 | in formalin at 10 %, 20 volumes | tube 1 | state laboratory",
    );
    expect(section(full, "Chain of custody")).toEqual([
      "taken | 2026-03-03 08:30 |  | 2 gill of praecox | ",
      "packed | 2026-03-03 09:00 | 30 min |  | ",
      "sent | 2026-03-03 14:30 | 6 h | state laboratory | courier",
      "received | 2026-03-05 | 2 days | by telephone | ",
      "handed | ........................ | ........................ | ........................",
    ]);
  });

  it("has the tank with its volume and how it was found", () => {
    expect(section(full, "Tank")).toEqual([
      "Tank | dam, Rainbowfish dam",
      "Use | show",
      "Where it stands | left wall",
      "Net volume, and how it was found | 100 L stated",
      "System | water of its own",
      "Gear on it | canister, Canister of the dam",
      "In service since | 1 January 2025",
    ]);
  });

  it("counts the animals, with age and size", () => {
    const lines = section(full, "Animals");
    expect(lines[0]).toBe("dam | praecox, Melanotaenia praecox, adults 6 cm | 10 | 9 | 3 | 1 | 9");
    expect(lines[2]).toBe(
      "dam | praecox | lot a17 (10): born 1 October 2025, 22 weeks | 5.2 cm (1 on 1 March), 3 g (1 on 1 March), condition 2.5 of 5 (1 on 1 March)",
    );
  });

  it("tells the course, and the signs by site", () => {
    expect(section(full, "Course and signs")).toEqual([
      "2026-03-01 | dam | praecox | 2 | 10 |  | flashing, clamped fins, odd colour",
      "2026-03-02 | dam | praecox | 3 | 9 | 1 | flashing",
      "behaviour | flashing | rubs against things | 2026-03-01 | 2026-03-02",
      "fins | clamped fins | fins held close to the body | 2026-03-01 | 2026-03-01",
      // Wilson 1927: of 4 in 10 from 16.8 to 68.7 %.
      "Attack rate | 4 of 10, 40 % (16.8 to 68.7)",
      "Case-fatality | 1 of 4, 25 % (4.56 to 69.9)",
      "Mortality | 1 of 10, 10 % (1.79 to 40.4)",
      "Showing signs on 2 March | 3 of 9, 33.3 % (12.1 to 64.6)",
      "In other words: odd colour.",
    ]);
  });

  it("has the losses by day, as a table and drawn", () => {
    expect(section(full, "Losses by day")).toEqual([
      "2026-03-02 | dam | praecox | 1 | found | thin",
      "Dead since 1 March: 1, without culls and what is missing.",
      "picture: Deaths by day; the table has the same",
    ]);
  });

  it("tells where the animals came from, and how long they stayed apart", () => {
    expect(section(full, "How the animals came")).toEqual([
      "2026-02-10 | moved in | praecox | 10 | dam | q1 | a17 | from quarantine, 31 days after the last arrival there",
      "2026-01-10 | arrived | praecox | 10 (1 dead) | q1 | river nursery, by courier | a17 | into quarantine, 28 days stated: to 7 February at least",
    ]);
  });

  it("sums the water up over 30 and 90 days", () => {
    const lines = section(full, "Water of dam");
    expect(lines).toContain(
      "Nitrate, mg/L | 30 (2026-03-01) | 10 | <5 to 30 (3, 1 outside) | 10 | <5 to 30 (3, 1 outside) | at most 25 mg/L",
    );
    expect(lines).toContain("pH | 7.2 (2026-02-20) | 7.2 | 7.2 (1) | 7.2 | 7.2 (1) | ");
    expect(lines.filter((line) => line.startsWith("picture"))).toEqual([
      "picture: Readings of the last 90 days: temperature, nitrate",
    ]);
    expect(lines.some((line) => line.startsWith("free ammonia | "))).toBe(true);
  });

  it("has the source, the changes, the feeding", () => {
    expect(section(full, "Source of the water")).toEqual([
      "tap, Mains, aged | 1 | 30 | alkalinity 5 dKH, nitrate 6 mg/L",
    ]);
    expect(section(full, "Changes of water")).toEqual(["2026-03-02 | dam | 30 %, 30 L | tap, barrel b-12"]);
    expect(section(full, "Feeding")).toEqual([
      "Last fed | 1 March: cyclops 2 cubes",
      "How often | 1 feeding in 14 days, 1 with the word that they get nothing",
      "cyclops, Frozen cyclops | frozen | 1 | 2026-03-01",
    ]);
  });

  it("tells what was added and done before, again and again in one line", () => {
    expect(section(full, "What was added and done before")).toEqual([
      '2026-02-25 | dam plant fern 2 from "a friend" | ',
      "2026-02-10 | q1 move praecox 10 -> dam lot a17 | ",
      "2026-02-26 | dam clean glass | 2",
      "2026-02-25 | dam carry fern -> b2 | ",
      '2026-02-26 | room note "power cut, 20 min" | ',
      "Notes are as they were written: read them before the sheet leaves the room.",
    ]);
  });

  it("has the treatment with what was in the water", () => {
    // 10 mL of 20 mg/mL in 100 L are 2 mg/L.
    const lines = section(full, "Treatments");
    expect(lines).toContain("Active substance | praziquantel");
    expect(lines).toContain("Half-life in the water | 3 d, as stated");
    expect(lines).toContain("2026-03-03 07:00 | 10 mL | 2 mg/L, of it 2 mg/L from this dose");
    expect(lines.some((line) => line.startsWith("picture: prazi in dam: 1 dose given"))).toBe(true);
  });

  it("names the tanks that may have it, and where it may have come from", () => {
    const lines = section(full, "Other tanks that may have it");
    expect(lines.some((line) => line.startsWith("b2 | "))).toBe(true);
    expect(lines.some((line) => line.startsWith("q1 | 2026-02-10 | "))).toBe(true);
  });

  it("says each caution once, and that of ethanol only where there is some", () => {
    const page = reportMarkdown(laboratoryReport(sheetOf(full)));
    const plainText = page.replace(/\\/g, "");
    for (const words of [
      "must be reported by law",
      "Telephone the laboratory before",
      "Wear gloves and eye protection",
    ])
      expect(plainText.split(words).length - 1, words).toBe(1);
    expect(plainText).not.toContain("Ethanol burns");
    expect(plainText).not.toMatch(/\bsafe/i);
    const ethanol = full.replace("kept formalin at 10 %", "kept ethanol at 95 %");
    const other = reportMarkdown(laboratoryReport(sheetOf(ethanol))).replace(/\\/g, "");
    expect(other).toContain("Ethanol burns");
    expect(other).not.toContain("Wear gloves and eye protection");
  });
});

/** Nothing but the signs. */
const bare = `species praecox
tank q1
2026-03-01
  q1 sick praecox 2 case flukes-1
`;

describe("the sheet of a case of which nearly nothing is stated", () => {
  it("names each field that it cannot fill, with where it would be stated", () => {
    expect(
      missingFields(sheetOf(bare, undefined, noKeeper)).map(
        ({ of, name, missing }) => `${of} ${name}: ${missing}`,
      ),
    ).toEqual([
      " Keeper: setting standpipe.keeper.name, or “name” in the file of --keeper",
      " Address: setting standpipe.keeper.address, or “address” in the file of --keeper",
      " Telephone: setting standpipe.keeper.telephone, or “telephone” in the file of --keeper",
      " E-mail: setting standpipe.keeper.email, or “email” in the file of --keeper",
      " Veterinarian: setting standpipe.keeper.veterinarian, or “veterinarian” in the file of --keeper",
      " Registration of the room: setting standpipe.keeper.registration, or “registration” in the file of --keeper",
      " Laboratory: “to” of a sample, or of “send flukes-1”",
      ' Wanted: ask flukes-1 "parasitology, bacteriology, histology, PCR: what is wanted"',
      " Samples: “sample … case flukes-1” on the day it is taken",
      "q1 Use: “role” of tank q1",
      "q1 Where it stands: “place” of tank q1",
      "q1 Net volume, and how it was found: “volume” of tank q1, or “inside” and “filled”",
      "q1 Gear on it: a gear with “on q1”",
      "q1 In service since: “from” of tank q1",
      "praecox in q1 Age: “born” of a lot, or a hatch, of praecox in q1",
      "praecox in q1 Size: a “condition” entry with length or weight of praecox",
      "q1 Temperature: a “test” of temperature",
      "q1 Dissolved oxygen: a “test” of oxygen",
      "q1 pH: a “test” of pH",
      "q1 Total ammonia: a “test” of ammonia",
      "q1 Nitrite: a “test” of nitrite",
      "q1 Nitrate: a “test” of nitrate",
      "q1 General hardness: a “test” of GH",
      "q1 Alkalinity: a “test” of KH",
      "q1 Last fed: “feed” of q1",
      "q1 How often: “feed” of q1",
    ]);
  });

  it("leaves a line to fill in for each, and makes nothing up", () => {
    expect(section(bare, "Sender and question", undefined, noKeeper)[0]).toBe(
      "Keeper | ........................ not stated",
    );
    expect(section(bare, "Tank", undefined, noKeeper)).toContain(
      "Net volume, and how it was found | ........................ not stated",
    );
    expect(section(bare, "Water of q1")).toContain("pH | ........................ not tested |  |  |  |  | ");
    expect(section(bare, "Samples in the box")[1]).toBe("1 | ........................ |  |  |  | ");
    expect(section(bare, "Animals")[0]).toBe("q1 | praecox | ? | ? | 2 | 0 | ?");
    const course = section(bare, "Course and signs");
    expect(course[0]).toBe("2026-03-01 | q1 | praecox | 2 |  |  | ........................");
    expect(course.some((line) => line.startsWith("No attack rate: not said of how many"))).toBe(true);
    expect(course.some((line) => line.startsWith("Attack rate"))).toBe(false);
    expect(section(bare, "Losses by day")).toEqual(["No loss is written down of these tanks in this time."]);
    expect(section(bare, "How the animals came")[1]).toBe(
      "Source and day of arrival | ........................",
    );
    expect(section(bare, "Source of the water")[1]).toBe("Source and treatment | ........................");
    expect(section(bare, "Not stated").some((line) => line.startsWith("q1: pH"))).toBe(true);
    expect(section(bare, "Treatments")).toEqual(["No dose and no bath is written down in this time."]);
  });

  it("tells nothing of a move to where they are", () => {
    const moved = bare.replace("2026-03-01\n", "2026-03-01\n  q1 move praecox 1 -> q1\n");
    expect(section(moved, "What was added and done before").join()).not.toContain("->");
  });

  it("names what a sample does not say of itself", () => {
    const some = `${bare}  q1 sample gill kept formalin case flukes-1\n`;
    expect(section(some, "Samples in the box")).toContain(
      "No. 1, not stated: number, of which animals, strength, volumes to one of tissue, container",
    );
  });

  it("is there for a case that names no tank", () => {
    const nowhere = "species praecox\ntank q1\n2026-03-01\n  room sick praecox 2 case flukes-1\n";
    expect(section(nowhere, "Tanks")).toContain("Tank | ........................");
    expect(section(nowhere, "Animals")).toContain("Animals | ........................");
  });
});

describe("as of a day", () => {
  it("only what was known by then is told", () => {
    const room = new Room(full);
    room.checked.logbook.asOf = room.today - 3;
    const sheet = laboratorySheet(room.checked, "flukes-1", keeper, room.today)!;
    expect(sheet.parcel.samples).toEqual([]);
    expect(sheet.disease.course.length).toBe(2);
    expect(sheet.treatments).toEqual([]);
    expect(sheet.exposed.window).not.toBe("");
  });

  it("a case that is closed is told as of its close, whatever came after", () => {
    const later = `${full}2026-03-20
  room close flukes-1 recovered
2026-04-20
  dam lose praecox 3 found
  dam test nitrate 50
  dam dose prazi 10 mL
  dam feed cyclops 9 cubes
  dam note "much later"
`;
    const sheet = sheetOf(later);
    expect(laboratoryReport(sheet).about).toBe(
      "Cellar, as of 20 March 2026, opened 1 March, closed 20 March",
    );
    const told = JSON.stringify(laboratoryReport(sheet));
    for (const late of ["2026-04", "April", "much later", "9 cubes"]) expect(told).not.toContain(late);
    expect(sheet.animals[0]).toMatchObject({ dead: 1, now: "9" });
  });

  it("a case that came back is told from when it was opened again", () => {
    const again = `${full}2026-03-20
  room close flukes-1 recovered
2026-05-01
  dam sick praecox 1 of 9 signs "flashing" case flukes-1
`;
    const sheet = sheetOf(again);
    expect(sheet).toMatchObject({ episode: 2 });
    expect(sheet.disease.course.length).toBe(1);
    expect(sheet.parcel.samples).toEqual([]);
    expect(laboratoryReport(sheet).about).toContain("opened again 1 May");
  });

  it("is not there before the first sign", () => {
    const room = new Room(full, "2026-02-28");
    room.checked.logbook.asOf = room.today;
    expect(laboratorySheet(room.checked, "flukes-1", keeper, room.today)).toBeUndefined();
    expect(laboratorySheet(new Room(full).checked, "", keeper, room.today)).toBeUndefined();
  });
});

const rack = `species praecox
species horn
  kind snail
system rack
  sump 40 L
tank r1
  volume 24 L; system rack
tank r2
  volume 24 L; system rack
tank r3
  volume 24 L; system rack
group top = r1, r2
2026-03-01
  r1 count praecox ~20, horn 3
  r2 count praecox 8
  rack test nitrate 20
  @top sick praecox 2 of 8 signs "white spots" case spots
  rack change 40 L
  r1 sample water 1 kept chilled case spots
`;

describe("tanks that share water, and groups", () => {
  it("each have their part, and the water is told once", () => {
    const sheet = sheetOf(rack, undefined, keeper, "spots");
    const titles = laboratoryReport(sheet).sections.map(({ title }) => title);
    expect(titles.filter((title) => title.startsWith("Water of"))).toEqual(["Water of rack (r1, r2)"]);
    expect(sheet.tanks.map(({ name }) => name)).toEqual(["r1", "r2"]);
    expect(sheet.tanks[0]!.fields.find(({ name }) => name === "System")!.text).toBe(
      "rack: 112 L in all, shared with r2, r3",
    );
    // Those without signs share the water, and estimates stay estimates.
    expect(sheet.animals.map(({ tank, species, now, sick }) => `${tank} ${species} ${now} ${sick}`)).toEqual([
      "r1 praecox ~20 2",
      "r1 horn 3 ",
      "r2 praecox 8 2",
    ]);
  });

  it("a case written of the system is about each of its tanks", () => {
    const all = rack.replace("@top sick", "rack sick");
    expect(sheetOf(all, undefined, keeper, "spots").tanks.map(({ name }) => name)).toEqual([
      "r1",
      "r2",
      "r3",
    ]);
  });
});

describe("a hospital that sick animals were moved to", () => {
  it("has its part, though no sign is written in it", () => {
    const log = `${bare.replace("tank q1\n", "tank q1\ntank h1\n  role hospital\n")}2026-03-02
  q1 move praecox 2 -> h1
`;
    const sheet = sheetOf(log);
    expect(sheet.tanks.map(({ name, hasSigns, isMovedTo }) => [name, hasSigns, isMovedTo])).toEqual([
      ["q1", true, false],
      ["h1", false, true],
    ]);
    expect(section(log, "Tanks")).toContain("h1: sick animals were moved here");
  });
});

describe("cases to choose from", () => {
  it("are the open ones first, the latest first, each once", () => {
    const log = `${bare}2026-03-02
  q1 sick praecox 1 case fins
2026-03-03
  q1 sample gill 1 case fins
2026-03-04
  q1 close flukes-1 recovered
  q1 sick praecox 1
`;
    const room = new Room(log);
    expect(
      sheetChoices(room.checked, room.today).map(({ name, closed, samples }) => [
        name,
        closed !== null,
        samples,
      ]),
    ).toEqual([
      ["fins", false, 1],
      ["flukes-1", true, 0],
    ]);
  });
});

describe("what comes from a log", () => {
  const nasty = full
    .replace('"both sides"', '"<script>alert(1)</script> | ![x](http://x.example) `a`"')
    .replace('"river nursery"', '"<img src=x onerror=alert(1)>"')
    .replace('signs "flashing, clamped fins, odd colour"', 'signs "<b>flashing</b>, </svg>"');
  const report = laboratoryReport(sheetOf(nasty, undefined, { ...keeper, name: "<i>A</i> & B" }));

  it("is text on the page and nothing else", () => {
    const page = reportHtml(report);
    expect(page).not.toMatch(/<script|<b>|<i>|onerror=alert\(1\)>|<img src=x/);
    expect(page).toContain("&#60;script&#62;");
    expect(page).toContain("&#60;i&#62;A&#60;/i&#62; &#38; B");
  });

  it("is text in Markdown, and cannot leave its cell", () => {
    const page = reportMarkdown(report);
    expect(page).not.toMatch(/[^\\]<script|\]\(http:\/\/x/);
    const row = page.split("\n").find((line) => line.includes("script"))!;
    expect(row.replace(/\\./g, "").split("|").length).toBe(9);
  });
});

describe("the median of readings of which some are below what a test can tell", () => {
  it.each([
    [
      [
        [1, 1],
        [3, 3],
        [2, 2],
      ],
      { low: 2, high: 2 },
    ],
    [
      [
        [0, 5],
        [10, 10],
        [30, 30],
      ],
      { low: 10, high: 10 },
    ],
    // Hand-worked: lower ends 0, 0, 10, 30 have 5 in the middle, upper ends 5, 5, 10, 30 have 7.5.
    [
      [
        [0, 5],
        [0, 5],
        [10, 10],
        [30, 30],
      ],
      { low: 5, high: 7.5 },
    ],
    [
      [
        [0, 5],
        [0, 5],
        [10, 10],
      ],
      { low: 0, high: 5 },
    ],
  ])("of %j is %j", (readings, median) => {
    expect(medianOf(readings.map(([low, high]) => ({ low: low!, high: high! })))).toEqual(median);
  });

  it("is none of none", () => {
    expect(medianOf([])).toBeUndefined();
  });
});
