import { findParameter, type Parameter, parameterOf } from "../../book/parameters.ts";
import { type Said, unitSaid } from "./import-units.ts";

/** What the head of a column says: a name, a unit, and what else stands there. */

export interface Head {
  readonly text: string;
  /** Without unit and brackets. */
  readonly name: string;
  readonly unit: Said | undefined;
  /** What it measures, if a log has a word for it. */
  readonly parameter: Parameter | undefined;
  /** What a concentration is counted as, where the name says so: `NO3-N`. */
  readonly basis: string;
  /** Of `Temp.2`, 2; empty where there is none. */
  readonly number: string;
  /** Why a column that looks like a reading is none for a log; empty where it is. */
  readonly not: string;
}

/** Reads a head, with the cell of a row of units below it. */
export function readHead(text: string, unitCell = ""): Head {
  const { name, unit } = cutUnit(plainSigns(text));
  const below = unitCell === "" ? undefined : unitSaid(unitCell);
  const said = below ?? unit;
  const meant = parameterIn(name, said, `${text} ${unitCell}`);
  return { text, name, unit: said, basis: "", number: "", not: "", parameter: undefined, ...meant };
}

/** `NO₃⁻` as `NO3`: figures below the line are the formula's, signs above it its charge. Pictures say nothing. */
const plainSigns = (text: string): string =>
  text
    .replace(/[⁰¹²³⁴-⁹⁺⁻]+(?!\S*\/)/gu, "")
    .replace(/[₀-₉]/gu, (figure) => figure.normalize("NFKC"))
    .replace(/(?<=\d)\+(?=\s|$)/, "")
    .replace(/(?:\p{Extended_Pictographic}|\ufe0f)+/gu, " ")
    // Conductivity is that at 25 °C.
    .replace(/\s*(?:@|\b(?:at|bei))\s*25\s*°?\s*C?(?=\s*[)\]]|\s*$)/iu, "")
    .trim();

function cutUnit(text: string): { name: string; unit: Said | undefined } {
  let unit: Said | undefined;
  let left = text.replace(/\[([^\]]*)\]|\(([^)]*)\)/g, (_, square?: string, round?: string) => {
    const inside = (square ?? round ?? "").trim();
    unit ??= unitSaid(inside);
    return " ";
  });
  left = left.replace(/\s+/g, " ").trim();
  if (unit !== undefined) return { name: left.replace(/,\s*$/, ""), unit };
  for (const parter of [/,\s*/, /\s+/, /\s*\//, /_/]) {
    // The longest unit at the end: `ODO mg/L`, `Temp/°C`, `total_p_mg_l`.
    const at = [...left.matchAll(new RegExp(parter, "g"))];
    for (const { index, 0: sign } of at) {
      const said = index === 0 ? undefined : unitSaid(left.slice(index + sign.length));
      // A unit of one small letter at the end of a name is a letter of the name, but for `temp_c`.
      const isLetter =
        parter.source === "_" &&
        /^[a-z]$/.test(left.slice(index + 1)) &&
        !/temp(?:erature|eratur)?_[cf]$/i.test(left);
      if (said !== undefined && !isLetter && !isName(left.slice(index + sign.length)))
        return { name: left.slice(0, index), unit: said };
    }
  }
  const percent = /^(.+?)\s*%$/.exec(left);
  if (percent !== null) return { name: percent[1]!, unit: unitSaid("%") };
  return { name: left, unit: undefined };
}

/** Symbols of substances that are units, too: no name loses its end to them. */
const isName = (text: string): boolean => /^(?:n|p|k|t|d|h|m|w)$/i.test(text.trim());

/** Names in the words of meters, laboratories and keepers; German ones, as many loggers speak it. */
const names: readonly (readonly [RegExp, string])[] = [
  [
    /^(?:water |sensor |wasser ?|probe )?temp(?:erature|eratur)?(?: (?:water|wasser|probe|sensor))?$|^t$/,
    "temperature",
  ],
  [/^p ?h(?: (?:wert|value|units?))?$/, "pH"],
  [/^(?:kh|alk|alkalinity|total alkalinity|carbonate hardness|karbonathärte|ks ?4,?3)$/, "KH"],
  [/^(?:gh|(?:general|total) hardness|hardness|gesamthärte)$/, "GH"],
  [/^(?:tan|(?:total )?ammonia|ammonium|nh3|nh4|nh3 ?\/ ?nh4|nh4 ?\/ ?nh3)$/, "ammonia"],
  [/^(?:nitrite|nitrit|no2)$/, "nitrite"],
  [/^(?:nitrate|nitrat|no3)$/, "nitrate"],
  [/^(?:(?:ortho ?)?phosphate?|o? ?po4|orthophosphate)$/, "phosphate"],
  [/^(?:(?:dissolved )?(?:oxygen|sauerstoff)|dissolvedoxygen|o2|do|odo|l?do|ox|oxy|o2 gelöst)$/, "oxygen"],
  [/^(?:co2|carbon dioxide|kohlendioxid)$/, "co2"],
  [
    /^(?:ec|sc|spcond|sp cond|specific conduct(?:ance|ivity)|(?:electrical )?conductivity|cond|leitfähigkeit|leitwert|lf)$/,
    "conductivity",
  ],
  [/^(?:sal|salin|salinity|salinität)$/, "salinity"],
  [/^(?:(?:total |free )?chlorine|cl2)$/, "chlorine"],
  [/^(?:chlorides?|chlorid)$/, "chloride"],
  [/^chloramines?$/, "chloramine"],
  [/^(?:iron|fe|eisen)$/, "iron"],
  [/^(?:copper|cu|kupfer)$/, "copper"],
  [/^(?:potassium|k|kalium)$/, "potassium"],
  [/^(?:calcium|ca)$/, "calcium"],
  [/^(?:magnesium|mg)$/, "magnesium"],
  [/^(?:silicates?|silica|silikat|sio2|si o2)$/, "silicate"],
  [/^(?:orp|redox|redox potential)$/, "redox"],
];

function parameterIn(name: string, unit: Said | undefined, whole: string): Partial<Head> {
  const plain = name
    .toLowerCase()
    .replace(/[_\-–.&#]+/g, " ")
    .replace(/\b(?:conc(?:entration)?|reading|value|gelöst|vor ort|dissolved|diss|filtered)\b/g, (word) =>
      word === "dissolved" ? word : " ",
    )
    .replace(/\s+psu$/, "")
    .replace(/\s+/g, " ")
    .trim();
  const isShare = unit?.is === "unit" && unit.unit.symbol === "%";
  if (
    /\b(?:do|odo|o2|ox|oxy|oxygen)\b/.test(plain) &&
    (isShare || /sat|sätt|pct|perc|local|%/.test(`${plain} ${whole.toLowerCase()}`))
  )
    return { not: "oxygen in % of saturation; a log keeps it in mg/L" };
  if (/\bph mv\b/.test(plain) || (/^p ?h$/.test(plain) && unit?.is === "unit" && unit.unit.symbol === "mV"))
    return { not: "the electrode's voltage, not the pH" };
  if (/^(?:no23f?|no2 ?\+ ?no3|no3 ?\+ ?no2|nox|no2 no3)(?: n)?$/.test(plain))
    return { not: "nitrite and nitrate together; a log keeps them apart" };
  if (/^(?:p ges|tp|tdp|total p|total phosphorus|n ges|tn|tdn|don|total nitrogen)\b/.test(plain))
    return { not: "all phosphorus or all nitrogen; a log has no word for it" };
  if (/^(?:nlf|nlf cond)$/.test(plain))
    return { not: "conductivity by another reference; SpCond is that at 25 °C" };
  if (/\b20 ?°?c\b/i.test(whole) && /^(?:lf|cond|conductivity|leitfähigkeit|ec)\b/.test(plain))
    return { not: "conductivity at 20 °C; a log keeps it at 25 °C" };
  const numbered = /^(.*?\D)\s*(\d{1,3})$/.exec(plain);
  for (const [text, number] of [
    [plain, ""],
    ...(numbered === null ? [] : [[numbered[1]!.trim(), numbered[2]!]]),
  ] as const) {
    const found = byName(text);
    if (found === undefined) continue;
    // A letter alone is a name only where its unit says so.
    if (text === "t" && unit?.is !== "unit") continue;
    return { ...found, number };
  }
  return {};
}

function byName(plain: string): Pick<Head, "parameter" | "basis"> | undefined {
  const based =
    /^(nh3|nh4|no2|no3|tan|(?:total )?ammonia|ammonium|nitrate|nitrite)f? (?:as )?n$|^(nh3|nh4|no2|no3)n$/.exec(
      plain,
    ) ?? /^((?:o ?)?po4|phosphate|orthophosphate)f? (?:as )?p$/.exec(plain);
  const word = based?.[1] ?? based?.[2] ?? plain.replace(/^(nh4|no2|no3|po4)f$/, "$1");
  const found = names.find(([form]) => form.test(word));
  const parameter = found === undefined ? undefined : parameterOf(found[1]);
  if (parameter === undefined) return undefined;
  const isPhosphorus = parameter.name === "phosphate";
  return { parameter, basis: based === null ? (word === "tan" ? "" : "") : isPhosphorus ? "P" : "N" };
}

/** The parameter that a keeper names in a mapping. */
export const parameterNamed = (word: string): Parameter | undefined => findParameter(word);

/**
 * Parameter codes of the US water databases (EPA STORET, USGS; recalled): each settles unit and basis, so they are proposed with them.
 */
export const parameterCodes: Readonly<
  Record<string, readonly [parameter: string, unit: string, says: string]>
> = {
  "00010": ["temperature", "C", "water temperature, °C"],
  "00011": ["temperature", "F", "water temperature, °F"],
  "00090": ["redox", "mV", "redox potential, mV"],
  "00094": ["conductivity", "uS/cm", "specific conductance in the field at 25 °C, uS/cm"],
  "00095": ["conductivity", "uS/cm", "specific conductance at 25 °C, uS/cm"],
  "00300": ["oxygen", "mg/L", "dissolved oxygen, mg/L"],
  "00400": ["pH", "pH", "pH"],
  "00480": ["salinity", "g/L", "salinity, parts per thousand"],
  "00610": ["ammonia", "mg/L N", "ammonia, mg/L as N"],
  "00615": ["nitrite", "mg/L N", "nitrite, mg/L as N"],
  "00620": ["nitrate", "mg/L N", "nitrate, mg/L as N"],
  "00671": ["phosphate", "mg/L P", "dissolved orthophosphate, mg/L as P"],
  "00940": ["chloride", "mg/L", "chloride, mg/L"],
};
