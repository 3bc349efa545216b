import { isoOf, spokenDay } from "../../../language/book/dates.ts";
import { h } from "../shared/dom.ts";
import { epidemicPart } from "./case-charts.ts";
import { coursesPart } from "./case-courses.ts";
import { type Face, folding, leadsTo, leadsToCase, leadsToTank, nothing, section } from "./face.ts";
import { picture } from "./picture.ts";
import type { CaseCard } from "./shown.ts";
import type { CardView } from "./tank.ts";
import { whyFold } from "./why.ts";

/** A case: how many of how many, the epidemic curve, signs, courses, samples, who may have been exposed, and its entries. */
export function caseView(face: Face, card: CaseCard): CardView {
  const { name, state, since, text, day, at, species } = card;
  const curve = epidemicPart(face, card);
  const courses = coursesPart(face, card);
  return {
    name,
    title: state,
    about: [
      leadsTo(face, at, "definition", "definition", `since ${spokenDay(since, day)}`),
      text,
      ...(species.length > 1 ? [`${species.length} species`] : []),
      ...othersOf(face, card),
      `as of ${spokenDay(day)}`,
    ],
    first: [ratesPart(face, card), tanksPart(face, card)],
    wide: [curve.element, courses.element, exposurePart(face, card)],
    last: [signsPart(face, card), samplesPart(face, card), resultsPart(face, card), entriesPart(face, card)],
    charts: [curve.charts, courses.charts].filter((charts) => charts !== undefined),
  };
}

/** The other times of a case that came back. */
const othersOf = (face: Face, { name, episode, episodes, day }: CaseCard): HTMLElement[] =>
  episodes
    .filter((each) => each.episode !== episode)
    .map((each) => {
      const to = each.closed === null ? "" : ` to ${spokenDay(each.closed, day)}`;
      return leadsToCase(
        face,
        name,
        each.episode,
        `episode-${each.episode}`,
        `also ${spokenDay(each.since, day)}${to}`,
      );
    });

function ratesPart(face: Face, { rates, unknown, isLeast, caution }: CaseCard): HTMLElement {
  const items = rates.map((rate) =>
    h(
      "li",
      {},
      h("span", { class: "figure" }, rate.text),
      h("span", { class: "aside" }, ` ${inSentence(rate.title)}`),
      whyFold(face, `rate-${rate.is}`, rate.why),
    ),
  );
  return section(
    "rates",
    "How many",
    items.length === 0
      ? nothing("No signs are written yet:", '  q1  sick praecox 2 of 14 signs "flashing" case flukes-1')
      : h("ul", { class: "rows" }, ...items),
    unknown !== "" && h("p", { class: "aside" }, `No attack rate: ${unknown}.`),
    isLeast &&
      h("p", { class: "aside" }, "At least: after the first count, write how many are new: 4 of 14 new 2."),
    h("p", { class: "caution" }, caution),
  );
}

/** `attack rate`, `showing signs on 10 October`. */
const inSentence = (title: string): string => title.charAt(0).toLowerCase() + title.slice(1);

function tanksPart(face: Face, { tanks, places }: CaseCard): HTMLElement {
  const count = (animals: number | null): string => (animals === null ? "?" : String(animals));
  const head = ["In", "Signs", "There", "Affected", "At risk", "Dead"];
  return section(
    "tanks",
    "Tanks",
    tanks.length === 0
      ? nothing("Its sick are in no tank.")
      : h(
          "ul",
          { class: "rows" },
          ...tanks.map((tank, at) =>
            h(
              "li",
              {},
              leadsToTank(face, tank.name, `tank-${at}`),
              " ",
              leadsTo(face, tank.at, `tank-since-${at}`, "aside", tank.text),
            ),
          ),
        ),
    places.length > 1 &&
      h(
        "table",
        { class: "places" },
        h("thead", {}, h("tr", {}, ...head.map((word) => h("th", { scope: "col" }, word)))),
        h(
          "tbody",
          {},
          ...places.map((each) =>
            h(
              "tr",
              {},
              h("th", { scope: "row" }, [each.of, each.species, each.lot].filter(Boolean).join(" ")),
              ...[each.affected, each.present, each.ever, each.atRisk, each.dead].map((animals) =>
                h("td", { class: "figure" }, count(animals)),
              ),
            ),
          ),
        ),
      ),
  );
}

function signsPart(face: Face, { signs, day }: CaseCard): HTMLElement {
  if (signs.length === 0)
    return section(
      "signs",
      "Signs",
      nothing("None are written. They stand behind the number:", '  signs "flashing, clamped fins"'),
    );
  const sites = [...new Set(signs.map(({ site }) => site))];
  return section(
    "signs",
    "Signs",
    ...sites.map((site) =>
      h(
        "div",
        {},
        h("h3", {}, site === "" ? "other words" : site),
        h(
          "ul",
          { class: "rows" },
          ...signs
            .filter((sign) => sign.site === site)
            .map((sign) => {
              const when = sign.first === sign.last ? "" : ` to ${spokenDay(sign.last, day)}`;
              return h(
                "li",
                { title: sign.gloss },
                leadsTo(face, sign.at, `sign-${sign.word}`, "name", sign.word),
                sign.grade !== "" && ` ${sign.grade}`,
                h("span", { class: "aside" }, ` ${spokenDay(sign.first, day)}${when}`),
                sign.gloss !== "" && h("div", { class: "aside" }, sign.gloss),
              );
            }),
        ),
      ),
    ),
  );
}

function samplesPart(face: Face, { samples, questions, day }: CaseCard): HTMLElement {
  const cautions = [...new Set(samples.map(({ caution }) => caution))].filter((words) => words !== "");
  if (samples.length + questions.length === 0)
    return section(
      "samples",
      "Samples",
      nothing("None are written:", "  q1  sample gill 2 of praecox kept ethanol at 96 % case flukes-1"),
    );
  const lines = samples.map((sample, at) =>
    h(
      "li",
      {},
      leadsTo(face, sample.at, `sample-${at}`, "name", sample.text),
      h("strong", {}, ` ${sample.state}`),
      h(
        "div",
        { class: "aside" },
        [
          `taken ${spokenDay(sample.day, day)}`,
          sample.container,
          sample.laboratory === "" ? "" : `to ${sample.laboratory}`,
        ]
          .filter((part) => part !== "")
          .join(", "),
      ),
      sample.steps.length > 0 &&
        h(
          "ul",
          { class: "tree" },
          ...sample.steps.map((step, index) =>
            h(
              "li",
              {},
              leadsTo(
                face,
                step.at,
                `step-${at}-${index}`,
                "log",
                `${spokenDay(step.day, day)} ${step.text}`,
              ),
            ),
          ),
        ),
    ),
  );
  return section(
    "samples",
    "Samples",
    h("ul", { class: "rows" }, ...lines),
    questions.length > 0 && h("h3", {}, "Asked"),
    questions.length > 0 &&
      h(
        "ul",
        { class: "rows" },
        ...questions.map((asked, at) =>
          h("li", {}, leadsTo(face, asked.at, `question-${at}`, "name", asked.text)),
        ),
      ),
    ...cautions.map((words) => h("p", { class: "caution" }, words)),
  );
}

function resultsPart(face: Face, { results, day }: CaseCard): HTMLElement {
  return section(
    "results",
    "Results",
    results.length === 0
      ? h("p", { class: "aside" }, "None yet.")
      : h(
          "ul",
          { class: "rows" },
          ...results.map(({ outcome, note, day: on, at }, index) =>
            h(
              "li",
              {},
              leadsTo(face, at, `result-${index}`, "name", outcome === "" ? "a result" : outcome),
              note !== "" && ` ${note}`,
              h("span", { class: "aside" }, ` ${spokenDay(on, day)}`),
            ),
          ),
        ),
  );
}

/** So many tanks to hold are shown at once; the rest folds. */
const heldAtOnce = 12;

function exposurePart(face: Face, { exposure, graph, name }: CaseCard): HTMLElement {
  if (exposure === null)
    return section(
      "exposure",
      "Exposure",
      h("p", { class: "aside" }, "No sign is written in any water, so there is nothing to follow."),
    );
  const { hold, past, ended, windowText } = exposure;
  const row = ({ tank, kind, why, steps }: (typeof hold)[number], at: number, key: string): HTMLElement =>
    h(
      "li",
      {},
      leadsToTank(face, tank, `${key}-${at}`),
      h("span", { class: "aside" }, ` ${kind}: `),
      leadsTo(face, steps.at(-1)?.at ?? null, `${key}-why-${at}`, "why-of", why),
    );
  const rows = hold.map((each, at) => row(each, at, "hold"));
  return section(
    "exposure",
    "Exposure",
    graph !== null && picture(graph.svg, graph.alt, `graph-${name}`),
    h("p", { class: "aside" }, `Followed are ${windowText}. Only what is written is followed.`),
    h("h3", {}, "Tanks to hold"),
    rows.length === 0
      ? h("p", { class: "aside" }, "None.")
      : h("ol", { class: "rows" }, ...rows.slice(0, heldAtOnce)),
    rows.length > heldAtOnce &&
      folding(face, "more-held", "more", [`${rows.length - heldAtOnce} more`], () => [
        h("ol", { class: "rows", start: heldAtOnce + 1 }, ...rows.slice(heldAtOnce)),
      ]),
    past.length > 0 &&
      folding(face, "past-held", "more", [`${past.length} not reached again within the window`], () => [
        h("ul", { class: "rows" }, ...past.map((each, at) => row(each, at, "past"))),
      ]),
    ended.length > 0 && h("h3", {}, "Exposure ended"),
    ended.length > 0 &&
      h(
        "ul",
        { class: "rows" },
        ...ended.map(({ tank, text, at }, index) =>
          h(
            "li",
            {},
            leadsToTank(face, tank, `ended-${index}`),
            " ",
            leadsTo(face, at, `ended-why-${index}`, "aside", text),
          ),
        ),
      ),
  );
}

const told = { named: "", linked: "by tank and day", after: "after it was closed" } as const;

function entriesPart(face: Face, { entries }: CaseCard): HTMLElement {
  return section(
    "thread",
    "Entries",
    h(
      "ul",
      { class: "rows" },
      ...entries.map(({ day, clock, text, by, at }, index) =>
        h(
          "li",
          { class: "entry" },
          h("span", { class: "clock" }, [isoOf(day), clock].filter(Boolean).join(" ")),
          h(
            "span",
            {},
            leadsTo(face, at, `line-${index}`, "log", text),
            told[by] !== "" && h("span", { class: "aside" }, ` ${told[by]}`),
          ),
        ),
      ),
    ),
  );
}
