import { describe, expect, it } from "vitest";
import { elapsedText, hasLeft, hoursBetween, journeyOf, samplesUntil } from "../../language/room/samples.ts";
import { Room } from "../support/room.ts";

const log = `species praecox
tank q1
  volume 48 L
tank q2
  volume 48 L
group both = q1, q2
2026-03-01
  q1 sick praecox 2 of 9 case flukes-1
  08:30 q1 sample gill 2 of praecox kept formalin at 10 % volumes 20 into "tube 1" case flukes-1 to "state laboratory" "gloves"
  q1 sample skin kept chilled case flukes-1
  @both sample water 1 kept chilled case flukes-1 to "water laboratory"
  room ask flukes-1 "Which monogenean is it?"
2026-03-02
  09:30 room send flukes-1 packed
  10:00 room send flukes-1 to "state laboratory" by "courier"
2026-03-03
  07:00 q1 sample fin 1 kept ethanol at 95 % case flukes-1 to "state laboratory"
  14:30 room send flukes-1 received "by telephone"
2026-03-05
  q1 result flukes-1 positive "many"
2026-03-06
  room send flukes-1 sent to "state laboratory"
  room send flukes-1 to "water laboratory"
`;

const read = (text = log, day?: string) => {
  const room = new Room(text, day);
  return samplesUntil(room.checked.logbook, room.today);
};

describe("the samples of a log", () => {
  it("have all that their line says, and nothing else", () => {
    const [gill, skin, water] = read().samples;
    expect(gill).toMatchObject({
      material: "gill",
      species: "praecox",
      count: 2,
      kept: "formalin",
      strengthLow: 10,
      strengthHigh: 10,
      volumes: 20,
      container: "tube 1",
      laboratory: "state laboratory",
      case: "flukes-1",
      note: "gloves",
      isTimed: true,
    });
    expect(skin).toMatchObject({ species: "", count: Number.NaN, volumes: Number.NaN, container: "" });
    expect(water!.stations.map(({ name }) => name)).toEqual(["q1", "q2"]);
  });

  it("are known from the day on which they are taken", () => {
    expect(read(log, "2026-03-02").samples.length).toBe(3);
    expect(read(log, "2026-03-02").results).toEqual([]);
    expect(read(log, "2026-02-28")).toEqual({ samples: [], steps: [], results: [], questions: [] });
  });

  it("of a tank that is not defined are nobody's", () => {
    expect(read("2026-03-01\n  q9 sample gill 1 case a\n  q9 send a\n")).toMatchObject({
      samples: [],
      steps: [],
    });
  });

  it("have questions and results", () => {
    expect(read().questions).toMatchObject([{ case: "flukes-1", question: "Which monogenean is it?" }]);
    expect(read().results).toMatchObject([{ case: "flukes-1", outcome: "positive", note: "many" }]);
  });
});

describe("the chain of custody", () => {
  const parcels = (text = log) => {
    const all = read(text);
    return all.samples.map((sample) => {
      const journey = journeyOf(sample, all);
      const steps = journey?.steps.map(({ step, day }) => `${step} ${day - sample.day}`) ?? [];
      return `${sample.material}: ${steps.join(", ")}`;
    });
  };

  it("goes from packed to received; what is taken after a parcel left goes with the next", () => {
    expect(parcels()).toEqual([
      "gill: packed 1, sent 1, received 2",
      "skin: packed 1, sent 1, received 2",
      // It goes to a laboratory of its own: nothing of the parcel to the other is about it.
      "water: sent 5",
      "fin: sent 3",
    ]);
  });

  it("is of one laboratory where a step names it", () => {
    const two = `tank q1
2026-03-01
  q1 sample gill 1 case a to "one"
  q1 sample skin 1 case a to "two"
2026-03-02
  room send a to "two"
2026-03-04
  room send a to "one"
`;
    expect(parcels(two)).toEqual(["gill: sent 3", "skin: sent 1"]);
  });

  it("may name a person: to whom it was handed is no other laboratory", () => {
    const handed = `tank q1
2026-03-01
  q1 sample gill 1 case a to "one"
  q1 send a handed to "the night desk"
`;
    expect(parcels(handed)).toEqual(["gill: handed 0"]);
  });

  it("packed alone is still here", () => {
    const all = read("tank q1\n2026-03-01\n  q1 sample gill 1 case a\n  q1 send a packed\n");
    expect(hasLeft(journeyOf(all.samples[0]!, all))).toBe(false);
    const sent = read("tank q1\n2026-03-01\n  q1 sample gill 1 case a\n  q1 send a\n");
    expect(hasLeft(journeyOf(sent.samples[0]!, sent))).toBe(true);
  });
});

describe("the time between two steps", () => {
  const at = (time: number, isTimed: boolean) =>
    ({ time, isTimed, day: Math.floor(time) }) as Parameters<typeof elapsedText>[0];

  it("is in hours where both have a time of day, else in days", () => {
    expect(elapsedText(at(100.25, true), at(101.5, true))).toBe("30 h");
    expect(elapsedText(at(100.25, true), at(100.25 + 40 / 1440, true))).toBe("40 min");
    expect(elapsedText(at(100.25, true), at(104.5, true))).toBe("4 days");
    expect(elapsedText(at(100, false), at(101.5, true))).toBe("1 day");
    expect(elapsedText(at(100, false), at(100, false))).toBe("the same day");
  });

  it("has ends where a time of day is not known", () => {
    expect(hoursBetween(at(100, false), at(102, false))).toEqual({ least: 24, most: 72 });
    expect(hoursBetween(at(100.5, true), at(102, false))).toEqual({ least: 36, most: 60 });
    expect(hoursBetween(at(100, false), at(100, false))).toEqual({ least: 0, most: 24 });
  });
});
