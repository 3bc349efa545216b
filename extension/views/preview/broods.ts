import { spokenDay } from "../../../language/book/dates.ts";
import { h, svg } from "../shared/dom.ts";
import { type Face, folding, leadsTo, leadsToTank, section } from "./face.ts";
import type { BroodCard } from "./shown.ts";
import { whyFold } from "./why.ts";

/** Open broods: what is to come, and how many came from stage to stage. Absent where there are none. */
export function broodsPart(
  face: Face,
  broods: readonly BroodCard[],
  ofTank: string,
  today: number,
): HTMLElement[] {
  if (broods.length === 0) return [];
  const items = broods.map((brood, at) => item(face, brood, at, ofTank, today));
  return [section("broods", "Broods", h("ul", { class: "broods" }, ...items))];
}

function item(face: Face, brood: BroodCard, at: number, ofTank: string, today: number): HTMLElement {
  const { name, title, species, expected, inbreeding, stateText, lot } = brood;
  const key = `brood-${at}`;
  const word = expected?.stage === "swim" ? "swim" : "hatch";
  const elsewhere = brood.where.filter(({ tank }) => tank !== ofTank);
  const parents = [brood.father, brood.mother].filter((parent) => parent !== "").join(" × ");
  return h(
    "li",
    {},
    h(
      "div",
      {},
      leadsTo(face, brood.at, key, "name", name),
      lot !== "" &&
        h("span", { class: "aside" }, ` ${[species, title].filter((part) => part !== "").join(", ")}`),
    ),
    h("div", {}, stateText),
    elsewhere.length > 0 &&
      h(
        "div",
        { class: "aside" },
        "also in",
        ...elsewhere.flatMap(({ tank }) => [" ", leadsToTank(face, tank, `${key}-${tank}`)]),
      ),
    expected !== null &&
      h(
        "div",
        {},
        expected.is === "late" && h("strong", {}, "late: "),
        expected.is === "due" && h("strong", {}, "due: "),
        `${word} ${expected.text}`,
        whyFold(face, `${key}-expected`, expected.why),
      ),
    (parents !== "" || inbreeding !== null) &&
      h(
        "div",
        { class: "aside" },
        [parents, inbreeding === null ? "" : `inbreeding ${inbreeding.text}`]
          .filter((part) => part !== "")
          .join(", "),
        inbreeding !== null && whyFold(face, `${key}-inbreeding`, inbreeding.why),
      ),
    brood.stages.some(({ count }) => count !== null) && stages(face, brood, key, today),
  );
}

const stageWords = {
  laid: "laid",
  alive: "alive",
  hatched: "hatched",
  swimming: "swimming",
  living: "living",
} as const;

/** The bars, and the same figures as a table. */
function stages(face: Face, brood: BroodCard, key: string, today: number): HTMLElement {
  const rows = brood.stages.map((stage, at) =>
    h(
      "tr",
      {},
      h("td", {}, stageWords[stage.stage]),
      h("td", { class: "figure" }, stage.text),
      h("td", {}, leadsTo(face, stage.at, `${key}-stage-${at}`, "date", spokenDay(stage.day, today))),
    ),
  );
  const shares = brood.shares.map((share, at) =>
    h("li", {}, `${share.what}: ${share.text}`, whyFold(face, `${key}-share-${at}`, share.why)),
  );
  const head = ["Stage", "Number", "Day"].map((word) => h("th", { scope: "col" }, word));
  return h(
    "div",
    {},
    bars(brood),
    folding(
      face,
      `${key}-figures`,
      "figures",
      ["Figures", h("span", { class: "unseen" }, ` of ${brood.name}`)],
      () => [
        h(
          "table",
          {},
          h("caption", { class: "unseen" }, `${brood.name} by stage`),
          h("thead", {}, h("tr", {}, ...head)),
          h("tbody", {}, ...rows),
        ),
        ...(shares.length === 0 ? [] : [h("ul", { class: "rows" }, ...shares)]),
      ],
    ),
  );
}

const barHeight = 16;
const labelWidth = 64;
const numberWidth = 48;
const width = 280;

/** A bar a stage, as long as its number; estimates have no filling, and of the eggs that were laid the interval is drawn. */
function bars(brood: BroodCard): SVGSVGElement {
  const told = brood.stages.flatMap(({ stage, count, text }) =>
    count === null ? [] : [{ stage, count, text }],
  );
  const most = Math.max(1, ...told.map(({ count }) => count));
  const long = (count: number): number => ((width - labelWidth - numberWidth) * count) / most;
  const ofLaid = { alive: "alive of laid", hatched: "hatched of laid" } as const;
  const rows = told.flatMap(({ stage, count, text }, at) => {
    const top = at * (barHeight + 4) + 2;
    const middle = top + barHeight / 2;
    const what = stage === "alive" || stage === "hatched" ? ofLaid[stage] : undefined;
    const share = brood.shares.find((each) => each.what === what);
    const [low, high] = [share?.low ?? null, share?.high ?? null];
    const laid = told.find((each) => each.stage === "laid")?.count;
    const ends =
      low !== null && high !== null && laid !== undefined
        ? [labelWidth + long(low * laid), labelWidth + long(Math.min(high * laid, most))]
        : undefined;
    return [
      svg("text", { class: "bar-label", x: labelWidth - 6, y: middle }, stageWords[stage]),
      svg("rect", {
        class: text.startsWith("~") ? "bar estimate" : "bar",
        x: labelWidth,
        y: top,
        width: Math.max(1, long(count)),
        height: barHeight,
      }),
      ends !== undefined &&
        svg("path", {
          class: "bar-interval",
          d: `M${ends[0]} ${middle}H${ends[1]}M${ends[0]} ${middle - 4}v8M${ends[1]} ${middle - 4}v8`,
        }),
      svg("text", { class: "bar-number", x: width - numberWidth + 6, y: middle }, text),
    ];
  });
  const alt = `${brood.name} by stage: ${told.map(({ stage, text }) => `${text} ${stageWords[stage]}`).join(", ")}`;
  const height = told.length * (barHeight + 4) + 4;
  return svg(
    "svg",
    { class: "bars", role: "img", "aria-label": alt, viewBox: `0 0 ${width} ${height}` },
    ...rows,
  );
}
