import { reviewMarkdown } from "../../history/review/markdown.ts";
import { reviewOf } from "../../history/review/review.ts";
import { toldReview } from "../../history/review/told.ts";
import { asOfOption, type Call, type Command, jsonOption } from "../command.ts";
import { readPairs } from "../diff/logbooks.ts";
import { reviewText } from "../diff/print.ts";
import { diffOf, revisionReport } from "../diff/report.ts";
import { pairOf } from "../diff/revisions.ts";
import { printJson, tellUnread } from "../report.ts";
import type { DiffReport } from "../schema.ts";
import { Status } from "../world.ts";

export const diff: Command = {
  word: "diff",
  takes: "[A] [B] [DIR]",
  summary: "what changed between two states of the log, as entries, and what follows from it",
  about:
    "A and B are commits, branches, tags, or days: 2026-03-01 is the last commit at the end of that day. Without B the files as they are, " +
    "without A the last commit; A..B and A...B are as in git. Both sides are computed as of the same day: the later of their todays, or the one " +
    "that is asked for. What follows is told with the changes in the same water; of several it is not known which of them it follows from.",
  options: [
    { name: "staged", doc: "what is staged, against the last commit or A" },
    { name: "unstaged", doc: "the files as they are, against what is staged" },
    { name: "since", value: "DATE", doc: "what was committed or written since the beginning of a day" },
    { name: "all", doc: "every entry and every small difference, however many" },
    jsonOption,
    { name: "markdown", doc: "Markdown for a pull request, folded by tank" },
    { name: "exit-code", doc: "end with 1 if anything changed" },
    asOfOption,
  ],
  examples: [
    ["standpipe diff", "what was written since the last commit"],
    ["standpipe diff main...new-rack --markdown", "what a branch did, for its pull request"],
    ["standpipe diff 2026-03-01 2026-03-31 samples/cellar", "a month"],
  ],
  run: runDiff,
};

function runDiff(call: Call): Status {
  const { world, terminal } = call;
  const pair = pairOf(call);
  const { logbooks, unread, shown } = readPairs(call, pair);
  const reviews = logbooks.map(({ folder, before, after }) => ({
    folder,
    review: reviewOf(before, after, { asOf: call.asOf, worldDay: world.day }),
  }));
  const [from, to] = [pair.from.name, pair.to.name];
  const told = () => reviews.map(({ review }) => toldReview(review, { all: call.has("all") }));
  if (call.has("json")) {
    const report: DiffReport = {
      standpipe: 1,
      command: "diff",
      from: revisionReport(pair.from),
      to: revisionReport(pair.to),
      logbooks: reviews.map(({ folder, review }) => diffOf(review, folder, shown)),
      unread: [...unread],
    };
    printJson(world, report);
  } else if (call.has("markdown")) {
    const most = call.has("all") ? Number.POSITIVE_INFINITY : undefined;
    world.out.write(reviewMarkdown(told(), { from, to }, most));
    tellUnread(call, unread);
  } else {
    const pages = told().map((review, at) =>
      reviewText(review, { from, to, folder: shown(reviews[at]!.folder) }, terminal),
    );
    world.out.write(pages.join("\n"));
    tellUnread(call, unread);
  }
  if (unread.length > 0) return Status.couldNotRun;
  const isOther = reviews.some(({ review }) => isChanged(review));
  return call.has("exit-code") && isOther ? Status.errors : Status.clean;
}

function isChanged({ list, files, counts }: ReturnType<typeof reviewOf>): boolean {
  return list.length > 0 || files.length > 0 || Object.values(counts).some((count) => count > 0);
}
