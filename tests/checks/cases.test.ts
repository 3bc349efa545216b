import { describe, expect, test } from "vitest";
import { findingsOf } from "../support/marked.ts";

const tanks = `species praecox
tank q1
  volume 50 L
tank b3
  volume 45 L
`;

const found = (days: string, today?: string) =>
  findingsOf(tanks + days, today).filter(({ code }) => code.startsWith("case/"));
const messages = (days: string, today?: string) =>
  found(days, today).map(({ code, message }) => `${code}: ${message}`);

/** The log after the first fix of the first finding. */
function mended(days: string, which = 0): string {
  const [finding] = found(days);
  const fix = finding!.fixes[which]!;
  let { text } = finding!.block.file;
  for (const { block, start, end, text: put } of fix.edits)
    text = text.slice(0, block.start + start) + put + text.slice(block.start + end);
  return text.slice(tanks.length);
}

const opened = '2026-03-01\n  q1 sick praecox 2 of 14 signs "flashing" case flukes-1\n';

describe("an entry of a case that was not opened", () => {
  test.each(["result", "send", "ask", "close"])(
    "is remarked on for %s, with the name that was meant",
    (word) => {
      const arguments_ = word === "ask" ? ' "which?"' : "";
      const days = `${opened}2026-03-02\n  q1 ${word} fluks-1${arguments_}\n`;
      expect(messages(days)).toEqual([
        "case/none: no sick animals opened a case “fluks-1”; did you mean “flukes-1”?",
      ]);
      expect(mended(days)).toContain(`q1 ${word} flukes-1`);
    },
  );

  test("is remarked on for a loss and a bath, and a sample that is nearly of another", () => {
    const days = `${opened}2026-03-02
  q1 lose praecox 1 found case fluks-1
  q1 bath praecox 1 with salt 15 g/L for 10 min case flukes-2
  q1 sample gill 1 case fluke-1
`;
    expect(found(days).map(({ code, message }) => `${code} ${/“(.*?)”/.exec(message)?.[1]}`)).toEqual([
      "case/none fluks-1",
      "case/none flukes-2",
      "case/none fluke-1",
    ]);
  });

  test("says when it is opened later", () => {
    expect(messages(`2026-02-27\n  q1 result flukes-1 negative\n${opened}`)).toEqual([
      "case/none: flukes-1 is opened only on 1 March",
    ]);
  });

  test("is none where the signs stand below it on the day, or a sample opened the case", () => {
    const day = "2026-03-01\n  q1 lose praecox 1 found case c-1\n";
    expect(messages(`${day}  q1 sick praecox 2 of 14 signs "flashing" case c-1\n`)).toEqual([]);
    expect(messages("2026-03-01\n  q1 sample gill 1 case c-1\n  q1 result c-1 negative\n")).toEqual([]);
  });
});

describe("a case that was closed", () => {
  test("is not closed twice; a sick entry opens it again", () => {
    const days = `${opened}2026-03-04\n  q1 close flukes-1 recovered\n`;
    expect(messages(`${days}2026-03-05\n  q1 close flukes-1 recovered\n`)).toEqual([
      "case/closed: flukes-1 was closed on 4 March already",
    ]);
    const again =
      '2026-03-05\n  q1 sick praecox 1 of 14 signs "flashing" case flukes-1\n  q1 result flukes-1\n';
    expect(messages(days + again)).toEqual([]);
  });
});

describe("figures that cannot be", () => {
  test("are affected of fewer, new of fewer, and at risk of fewer by the book", () => {
    expect(messages("2026-03-01\n  q1 sick praecox 5 of 3 case c-1\n")[0]).toContain(
      "5 show signs of 3 at risk",
    );
    expect(messages("2026-03-01\n  q1 sick praecox 2 of 9 new 3 case c-1\n")[0]).toContain(
      "3 are new of 2 that show signs",
    );
    const counted = "2026-02-01\n  q1 count praecox 12\n";
    expect(messages(`${counted}2026-03-01\n  q1 sick praecox 2 of 14 case c-1\n`)[0]).toContain(
      "14 are at risk, and by the book there are 12 praecox",
    );
    expect(
      messages(`${counted}2026-03-01\n  q1 lose praecox 1\n  q1 sick praecox 2 of 12 case c-1\n`),
    ).toEqual([]);
    expect(
      messages("2026-02-01\n  q1 count praecox ~12\n2026-03-01\n  q1 sick praecox 2 of 14 case c-1\n"),
    ).toEqual([]);
  });

  test("are found where only the whole case shows them", () => {
    const days = `2026-03-01
  q1 sick praecox 3 of 4 new 3 signs "flashing" case c-1
2026-03-02
  q1 sick praecox 3 of 4 new 2 case c-1
`;
    expect(messages(days)).toEqual(["case/more-than-at-risk: with this 5 were affected by c-1 of 4 at risk"]);
  });
});

describe("signs that the vocabulary does not know", () => {
  test("are offered what is spelt like them", () => {
    const days = '2026-03-01\n  q1 sick praecox 2 of 14 signs "clampd fins" case c-1\n';
    expect(mended(days)).toContain('signs "clamped fins"');
  });

  test("are no finding beside one that it knows, nor where none are written", () => {
    expect(messages('2026-03-01\n  q1 sick praecox 2 of 14 signs "flashing, odd" case c-1\n')).toEqual([]);
    expect(messages("2026-03-01\n  q1 sick praecox 2 of 14 case c-1\n")).toEqual([]);
  });
});

describe("sick animals without a case", () => {
  test("are given a new one, or the one that is open for them", () => {
    const alone = '2026-03-01\n  q1 sick praecox 2 of 14 signs "flashing" "look again"\n';
    expect(mended(alone)).toContain('signs "flashing" case praecox-1 "look again"');
    const beside = `${opened}2026-03-02\n  q1 sick praecox 3 of 14\n`;
    expect(messages(beside)).toEqual(["case/unnamed: sick praecox without a case; flukes-1 is open here"]);
    expect(mended(beside)).toContain("sick praecox 3 of 14 case flukes-1");
    expect(found(beside)[0]!.fixes.map(({ title }) => title)).toEqual([
      "Write “case flukes-1”",
      "Write “case praecox-1”",
    ]);
  });
});

describe("an open case", () => {
  test("is quiet after two weeks in which nothing belongs to it", () => {
    expect(messages(opened, "2026-03-14")).toEqual([]);
    expect(messages(opened, "2026-03-15")).toEqual([
      "case/quiet: flukes-1 is open, and nothing was written of it for 14 days",
    ]);
    // A death in its tank belongs to it.
    expect(messages(`${opened}2026-03-10\n  q1 lose praecox 1 found\n`, "2026-03-20")).toEqual([]);
  });

  test("that is quiet can be counted anew or closed today", () => {
    const days = `${opened}2026-03-20\n  q1 note "all is well"\n`;
    expect(mended(days)).toContain("  q1 sick praecox 0 case flukes-1");
    expect(mended(days, 1)).toContain("  q1 close flukes-1 recovered");
  });
});
