import { spokenDay } from "../../book/dates.ts";
import { caseCard } from "../case-card.ts";
import type { CaseLineCard, CaseSampleCard, CaseSignCard } from "../case-cards.ts";
import type { ExposureCard } from "../exposure-cards.ts";
import { code, emphasis, paragraphs, plain } from "../markdown.ts";
import { counted, headline, linked, type Scope, section } from "./parts.ts";

/** A case at a glance: since when, how many of how many, what was given, sampled and found. Undefined for a name that no case has. */
export function caseHover(scope: Scope, name: string): string | undefined {
  const card = caseCard(scope.view.checked, name, scope.view.worldDay);
  if (card === undefined) return undefined;
  const {
    state,
    episodes,
    since,
    text,
    tanks,
    rates,
    unknown,
    signs,
    courses,
    exposure,
    samples,
    results,
    entries,
  } = card;
  const before = episodes.slice(0, -1).map((each) => spokenDay(each.since, scope.today));
  return paragraphs(
    headline(name, "case", state, counted(entries.length, "entry", "entries")),
    `${linked(scope, `since ${spokenDay(since, scope.today)}`, card.at)}${plain(
      [`; ${text}`, before.length === 0 ? "" : `; opened before ${before.join(", ")}`].join(""),
    )}`,
    plain(tanks.map((tank) => `${tank.name}: ${tank.text}`).join("; ")),
    section("Rates", [
      ...rates.map((rate) => plain(`${rate.title}: ${rate.text}`)),
      ...(unknown === "" ? [] : [plain(`no attack rate: ${unknown}`)]),
    ]),
    plain(signsText(signs)),
    section(
      "Courses",
      courses.courses.map(
        ({ remedy, stateText, water, at }) =>
          `${linked(scope, `${remedy} in ${water}`, at)} ${plain(stateText)}`,
      ),
      4,
    ),
    plain(card.closed === null ? exposedText(exposure) : ""),
    section("Samples", samples.map(sampleItem(scope)), 4),
    section(
      "Results",
      results.map(
        ({ day, outcome, note, at }) =>
          `${linked(scope, spokenDay(day, scope.today), at)} ${plain([outcome, note].filter(Boolean).join(": "))}`,
      ),
    ),
    section("Entries", entries.slice(-mostListed).map(lineItem(scope)), mostListed),
    emphasis(card.caution),
  );
}

/** `to hold: q1, r2; exposure ended: r3`. */
function exposedText(exposure: ExposureCard | null): string {
  const names = (of: readonly { readonly tank: string }[]): string => of.map(({ tank }) => tank).join(", ");
  if (exposure === null) return "";
  const { hold, ended } = exposure;
  return [
    hold.length === 0 ? "" : `to hold: ${names(hold)}`,
    ended.length === 0 ? "" : `exposure ended: ${names(ended)}`,
  ]
    .filter((part) => part !== "")
    .join("; ");
}

/** So many entries are listed: the latest. */
const mostListed = 20;

/** `skin: white spots; behaviour: flashing`. */
export function signsText(signs: readonly CaseSignCard[]): string {
  const bySite = new Map<string, string[]>();
  for (const { site, word, grade } of signs)
    bySite.set(site, [...(bySite.get(site) ?? []), grade === "" ? word : `${word} (${grade})`]);
  return [...bySite]
    .map(([site, words]) => `${site === "" ? "other" : site}: ${words.join(", ")}`)
    .join("; ");
}

const lineItem =
  (scope: Scope) =>
  ({ day, text, at, by }: CaseLineCard): string =>
    `${linked(scope, spokenDay(day, scope.today), at)} ${code(text)}${by === "after" ? plain(" (after it was closed)") : ""}`;

const sampleItem =
  (scope: Scope) =>
  ({ day, text, state, at }: CaseSampleCard): string =>
    `${linked(scope, spokenDay(day, scope.today), at)} ${plain(`${text}: ${state}`)}`;
