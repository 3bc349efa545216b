import { flowThroughShare, flowThroughVolumeL } from "../../science/dilution.ts";
import { type Figure, isOutside, outside } from "../../science/result.ts";
import { calculation, type Given, quantity, result } from "../calculation.ts";
import { oneOf } from "../one-of.ts";
import { volume, WELL_MIXED } from "./shared.ts";

const inputs = {
  volume,
  litres: quantity("water run through", "L", [0, 1e9], { optional: true }),
  share: quantity("or share of the old water to replace", "%", [0, 100], { optional: true }),
  flow: quantity("flow", "L/h", [0, 1e9], { optional: true, isAbove: true }),
  time: quantity("time", "h", [0, 1e6], { optional: true, isAbove: true }),
};

export const flowThrough = calculation({
  name: "flow-through",
  title: "Water run through a full tank",
  group: "changes",
  answers:
    "What share of the water is new when so many litres have run through a full tank, or how many litres a share takes; with a flow the time, with a time the flow.",
  inputs,
  formula: ["share = 1 - exp(-litres / volume)", "litres = -volume × ln(1 - share); litres = flow × time"],
  range: "well mixed, in at one end and out at the other; less is new where the inflow is near the overflow",
  sources: [WELL_MIXED],
  caution:
    "Tap water that runs in brings its chlorine with every litre, and its own temperature: treat and match it before it comes in.",
  examples: [
    {
      given: "volume=90 L flow=2 L/min time=20 min",
      gives: { share: "35.9 %", litres: "40 L" },
      from: "Steffensen 1989, eq. 5: 2 × 20 = 40 L through 90 L, 1 - exp(-0.444) = 0.3588",
    },
    {
      given: "volume=20 m3 share=50 % time=1.4 h",
      gives: { flow: "9902 L/h", litres: "13863 L" },
      from: "ln 2 × 20 / 1.4 = 9.90 m3/h, the flow by a half-life of 1.4 h",
    },
  ],
  compute(given) {
    const litres = through(given);
    if (isOutside(litres)) return litres;
    const share = flowThroughShare(litres, given.volume);
    if (isOutside(share)) return share;
    const { flow, time } = given;
    return [
      result("share", "share that is new", "%", share * 100),
      result("litres", "water run through", "L", litres),
      ...(flow !== undefined && time === undefined ? [result("time", "time", "h", litres / flow)] : []),
      ...(time !== undefined && flow === undefined ? [result("flow", "flow", "L/h", litres / time)] : []),
    ];
  },
});

function through(given: Given<typeof inputs>): Figure {
  const { flow, time, volume: litres } = given;
  const isTimed = flow !== undefined && time !== undefined;
  if (isTimed && given.litres === undefined && given.share === undefined) return flow * time;
  const leads = oneOf(given, ["litres", "share"]);
  if (isOutside(leads))
    return given.litres === undefined ? outside("litres, share, or a flow with a time are needed") : leads;
  if (isTimed) return outside(`flow and time say how much runs through, and so does ${leads}: leave one out`);
  return leads === "litres" ? given.litres! : flowThroughVolumeL(given.share! / 100, litres);
}
