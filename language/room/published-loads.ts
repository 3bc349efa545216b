/** Loads and rules of packing that were published, to stand beside what is reckoned. Of other fish, and no licence for these. */
export interface PublishedLoad {
  readonly what: string;
  readonly text: string;
  readonly source: string;
}

export const publishedLoads: readonly PublishedLoad[] = [
  {
    what: "guppies",
    text: "20 in 0.4 L of water under oxygen at 25 C for 24 h, the test load; with three chemicals 30 for 48 h, and of 40 there died 17.5 %",
    source: "Teo, Chen & Lee 1989, Aquaculture 78:321-332, abstract",
  },
  {
    what: "zebrafish",
    text: "about 30 g to a litre for 24 h",
    source: "a researcher's note of 1997, weak and recalled",
  },
  {
    what: "water and gas",
    text: "a third of the bag water, two thirds oxygen",
    source: "common practice, no source",
  },
  {
    what: "duration",
    text: "not over 36 h without new oxygen and a look at the temperature",
    source: "CITES packer's guidelines, as summarised: look them up",
  },
  {
    what: "temperature",
    text: "10 C warmer double what the fish use, 10 C colder halve it",
    source: "University of Missouri Extension, MX392",
  },
];

/** The published load that bounds a plan where the keeper states no other, g to a litre. */
export const publishedLoadGPerL = 30;
