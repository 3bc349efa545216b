import { spokenDay } from "../book/dates.ts";
import { cutText, hopText, nodeText, pathText, rankWords } from "../checks/exposure-words.ts";
import type { Contact } from "../room/contact.ts";
import { nodesOf } from "../room/contact-nodes.ts";
import { type ExposedTank, hopsOf, type TankWay, tankWay } from "../room/exposed-tanks.ts";
import { earliest, linksOf, type Way } from "../room/exposure.ts";
import { allReached, type Exposure, type Origin } from "../room/exposure-of-case.ts";
import type { Logbook } from "../room/logbook.ts";
import { rowLocation } from "./card-parts.ts";
import type {
  CutCard,
  EndedCard,
  ExposureCard,
  HeldCard,
  OriginCard,
  ReachedCard,
  StepCard,
  ToolCard,
} from "./exposure-cards.ts";
import { stepCards } from "./exposure-lanes.ts";

const howWords: Readonly<Record<Origin["how"], string>> = {
  signs: "signs",
  sample: "sampled",
  result: "result",
  asked: "asked for",
};

/** Makes the parts of a card of one search. */
export class CardMaker {
  private readonly exposure: Exposure;
  private readonly nodes;

  constructor(logbook: Logbook, exposure: Exposure) {
    this.exposure = exposure;
    this.nodes = nodesOf(logbook.book);
  }

  origins(): OriginCard[] {
    return this.exposure.origins.map(({ station, day, at, how }) => ({
      place: station.name,
      day,
      how,
      text: this.originText({ station, day, at, how }),
      at: at === undefined ? null : rowLocation(at.block, at.row),
    }));
  }

  private originText({ day, how }: Origin): string {
    const on = this.day(day);
    switch (how) {
      case "signs":
        return `first signs on ${on}`;
      case "sample":
        return `sampled on ${on}, found positive`;
      case "result":
        return `positive on ${on}; no sample is written`;
      case "asked":
        return `asked for, to the end of ${on}`;
    }
  }

  held(each: ExposedTank): HeldCard {
    const { tank, isOrigin, since, last, closest } = each;
    const origin = this.exposure.origins.find(
      ({ station }) => station === tank || station.name === tank.system,
    );
    return {
      tank: tank.name,
      isOrigin,
      kind: isOrigin ? howWords[origin?.how ?? "signs"] : rankWords[Math.max(0, closest.rank)]!,
      links: closest.hops.length,
      since,
      last,
      why: isOrigin && origin !== undefined ? this.originText(origin) : this.whyText(each),
      steps: this.steps(closest),
    };
  }

  /** By what it is held, and by what it was reached first where that is another. */
  private whyText({ closest, first, since }: ExposedTank): string {
    const { until } = this.exposure;
    const { hops, time } = closest;
    const lastHop = hops.at(-1);
    if (lastHop === undefined) return "";
    const shared = lastHop.is === "shared" ? `shares the water of ${lastHop.from.name}` : "";
    const before = shared === "" ? hops : hops.slice(0, -1);
    const came = before.at(-1);
    const by = before.length > 1 ? ` (${pathText(before, this.nodes, until)})` : "";
    const text =
      came === undefined ? "" : `${hopText(came, this.nodes, until)}, ${this.day(Math.floor(time))}${by}`;
    const sooner =
      first.hops.length > 0 && Math.floor(since) < Math.floor(time)
        ? `first ${hopText(first.hops.at(-1)!, this.nodes, until)}, ${this.day(Math.floor(since))}`
        : "";
    return [shared, text, sooner].filter((part) => part !== "").join("; ");
  }

  ended({ tank, since, ended }: ExposedTank): EndedCard[] {
    if (ended === undefined) return [];
    return [
      {
        tank: tank.name,
        since,
        ended: ended.time,
        text: cutText(ended, this.nodes, this.exposure.until),
        at: rowLocation(ended.block, ended.row),
      },
    ];
  }

  tools(): ToolCard[] {
    return allReached(this.exposure).spells.flatMap(({ node, first, last, end }) => {
      const at = this.nodes.at(node);
      return at.is === "tool" && end < 0 ? [{ name: at.name, since: first.time, last: last.time }] : [];
    });
  }

  forward(tanks: readonly ExposedTank[]): ReachedCard[] {
    const others = [...earliest(allReached(this.exposure)).values()].filter(
      ({ node }) => this.nodes.at(node).is !== "water",
    );
    return [
      ...tanks.map(({ tank, since, first, isOrigin }): ReachedCard => {
        return { ...this.reached(tank.name, "tank", since, first), isOrigin };
      }),
      ...others.map((way) => this.byWay(way, false)),
    ].sort((a, b) => a.time - b.time || a.links - b.links);
  }

  /** Whoever never bought anything is told by what they sent; a tool that was nowhere else before brought nothing. */
  back(): ReachedCard[] {
    const { back, steps, origins } = this.exposure;
    const own = new Set(origins.map(({ station }) => station.body));
    const isTold = ({ node, at }: Way): boolean => {
      const { is } = this.nodes.at(node);
      if (is !== "party" && is !== "tool") return true;
      return steps.slice(0, at).some((step) => step.is === "link" && step.to === node && !own.has(step.from));
    };
    return [...back.values()]
      .filter(isTold)
      .map((way) => this.byWay(way, true))
      .sort(
        (a, b) => b.time - a.time || a.links - b.links || Number(a.is === "tool") - Number(b.is === "tool"),
      );
  }

  beside(): ExposureCard["beside"] {
    const { beside, until } = this.exposure;
    return beside.map(({ source, reached }) => ({
      source: nodeText(this.nodes.at(source), until),
      reached: [...reached.values()].flatMap((way) => {
        const node = this.nodes.at(way.node);
        if (node.is !== "water") return [this.byWay(way, false)];
        return node.body.tanks.map((tank) =>
          this.reached(tank.name, "tank", way.time, tankWay(this.exposure, way, tank)),
        );
      }),
    }));
  }

  /** What ended anything at what was reached, or at what it may have come from: what is not followed because of it is not hidden. */
  cuts(): CutCard[] {
    const { steps, back, origins } = this.exposure;
    const concerned = new Set([
      ...allReached(this.exposure).spells.map(({ node }) => node),
      ...back.keys(),
      ...origins.map(({ station }) => station.body),
    ]);
    return steps.flatMap((step): CutCard[] => {
      if (step.is !== "end" || !concerned.has(step.node)) return [];
      return [
        {
          name: step.station?.name ?? nodeText(this.nodes.at(step.node), this.exposure.until),
          time: step.time,
          how: step.how,
          text: cutText(step, this.nodes, this.exposure.until),
          at: rowLocation(step.block, step.row),
        },
      ];
    });
  }

  private byWay(way: Way, isBack: boolean): ReachedCard {
    const node = this.nodes.at(way.node);
    const links = linksOf(way, isBack) as Contact[];
    const start = links[0]?.fromStation;
    const end = this.exposure.origins.filter(({ station }) => station.body === links.at(-1)?.to);
    const target = links.at(-1)?.toStation;
    // Backward it ends at the tank with the signs, by the water that it shares with where it came in.
    const last = isBack && !end.some(({ station }) => station === target) ? end[0]?.station : undefined;
    const begins = isBack
      ? start === undefined
        ? []
        : [start]
      : this.exposure.origins
          .filter(({ station }) => station.body === links[0]?.from)
          .map(({ station }) => station);
    const told = { ...hopsOf(links, begins, way.time, last), time: way.time };
    const name = node.is === "water" ? (start?.name ?? node.body.name) : nodeText(node, this.exposure.until);
    const isOrigin = this.exposure.origins.some(({ station }) => station.body === way.node);
    return { ...this.reached(name, node.is === "water" ? "tank" : node.is, way.time, told), isOrigin };
  }

  private reached(name: string, is: ReachedCard["is"], time: number, way: TankWay): ReachedCard {
    return {
      name,
      is,
      time,
      links: way.hops.length,
      isOrigin: false,
      path: pathText(way.hops, this.nodes, this.exposure.until),
      steps: this.steps(way),
    };
  }

  private steps({ hops }: TankWay): StepCard[] {
    return stepCards(hops, this.nodes, this.exposure.until);
  }

  private day(day: number): string {
    return spokenDay(day, this.exposure.until);
  }
}
