/**
 * Clinical signs of animals kept in water: a vocabulary of this house, by body site. The signs themselves are those that published fish
 * health texts describe: behaviour, skin, eyes and fins as listed for submissions by the Animal Disease Diagnostic Laboratory (Indiana,
 * newsletter on aquaculture submissions, 1998); gills, body and breathing as described in Noga 2010, Fish Disease: Diagnosis and Treatment, and
 * Roberts 2012, Fish Pathology (both recalled); those of shrimp are common practice. A sign names no disease.
 */

export const signSites = [
  "behaviour",
  "breathing",
  "skin",
  "fins",
  "eyes",
  "gills",
  "mouth",
  "body",
  "vent",
  "shell",
  "eggs",
] as const;
export type SignSite = (typeof signSites)[number];

export interface Sign {
  /** As it is told, in lower case. */
  readonly word: string;
  readonly site: SignSite;
  /** What is seen. */
  readonly gloss: string;
  /** Other words for it, in lower case. */
  readonly also: readonly string[];
}

const sign = (site: SignSite, word: string, gloss: string, ...also: string[]): Sign => ({
  site,
  word,
  gloss,
  also,
});

export const signVocabulary: readonly Sign[] = [
  sign("behaviour", "lethargy", "moves little, reacts late", "lethargic", "listless", "sluggish"),
  sign(
    "behaviour",
    "anorexia",
    "does not eat, or spits food out",
    "not eating",
    "does not eat",
    "no appetite",
    "off food",
    "refuses food",
    "spits food",
    "refusing food",
    "loss of appetite",
    "spitting food",
    "not feeding",
  ),
  sign("behaviour", "isolation", "apart from the others", "isolated", "away from the group", "alone"),
  sign("behaviour", "hiding", "hides more than it did", "hides"),
  sign("behaviour", "flashing", "rubs against things", "rubbing", "scratching", "rubs", "scrapes"),
  sign(
    "behaviour",
    "surface hanging",
    "hangs below the surface",
    "at the surface",
    "hangs at the surface",
    "top hanging",
    "hanging at the surface",
    "hanging at surface",
  ),
  sign(
    "behaviour",
    "bottom sitting",
    "lies or sits on the ground",
    "at the bottom",
    "sits on the bottom",
    "lies on the bottom",
    "sitting on the bottom",
    "lying on the bottom",
  ),
  sign("behaviour", "at the outlet", "stands where water or air comes in", "in the current", "at the inflow"),
  sign("behaviour", "head up", "hangs with its head up", "head standing up", "tail down"),
  sign("behaviour", "head down", "hangs with its head down", "head standing", "tail up"),
  sign(
    "behaviour",
    "listing",
    "leans to one side, cannot keep level",
    "leaning",
    "lies on its side",
    "loss of balance",
    "loss of equilibrium",
    "swims upside down",
    "swimming upside down",
    "upside down",
  ),
  sign(
    "behaviour",
    "whirling",
    "swims in circles or spirals",
    "spiralling",
    "spinning",
    "corkscrew swimming",
    "swims in circles",
    "swimming in circles",
    "circling",
  ),
  sign("behaviour", "shimmying", "sways on the spot without getting anywhere", "shimmies", "rocking"),
  sign("behaviour", "darting", "darts about without cause", "dashing", "bolting"),
  sign("behaviour", "jumping", "jumps out or tries to", "leaping"),
  sign(
    "behaviour",
    "no fright response",
    "does not flee from the net or the hand",
    "loss of fright response",
    "does not flee",
  ),
  sign("behaviour", "aggression", "chases or bites others", "chasing", "biting"),
  sign("behaviour", "yawning", "opens its mouth wide again and again", "gaping", "coughing"),

  sign(
    "breathing",
    "fast breathing",
    "gill covers beat faster than in others of its kind",
    "rapid breathing",
    "breathes fast",
    "fast gills",
    "rapid gilling",
    "breathing fast",
    "breathing rapidly",
  ),
  sign(
    "breathing",
    "laboured breathing",
    "breathes deeply, gill covers wide open",
    "labored breathing",
    "heavy breathing",
    "breathes heavily",
    "breathing heavily",
  ),
  sign("breathing", "piping", "gasps for air at the surface", "gasping", "gulping air"),
  sign(
    "breathing",
    "one gill closed",
    "breathes with one gill cover only",
    "one-sided breathing",
    "one gill",
  ),

  sign(
    "skin",
    "white spots",
    "white spots the size of grains",
    "white spot",
    "white dots",
    "spots like salt",
  ),
  sign(
    "skin",
    "gold dust",
    "a fine yellow or rusty dust, seen at a slant",
    "rust dust",
    "velvet film",
    "golden dust",
  ),
  sign("skin", "excess mucus", "slime in layers or threads", "slime", "slimy skin", "mucus"),
  sign("skin", "cloudy film", "a grey or bluish veil", "grey film", "gray film", "veil", "turbid skin"),
  sign(
    "skin",
    "cotton tufts",
    "white or grey tufts like cotton wool",
    "cotton tuft",
    "cottony growth",
    "cotton wool",
    "fungus",
    "tufts",
    "fuzz",
  ),
  sign("skin", "ulcer", "an open sore", "ulcers", "sore", "sores", "open wound", "hole in the skin"),
  sign("skin", "erosion", "the skin is worn away", "eroded skin", "raw skin"),
  sign(
    "skin",
    "haemorrhage",
    "blood in or under the skin",
    "hemorrhage",
    "bleeding",
    "red spots",
    "bloody spots",
    "reddening",
    "red streaks",
    "red patches",
    "redness",
  ),
  sign("skin", "missing scales", "scales are gone", "scale loss", "lost scales"),
  sign("skin", "raised scales", "scales stand out in places", "scales stand out"),
  sign("skin", "lump", "a firm swelling", "lumps", "tumour", "tumor", "nodule", "nodules", "growth"),
  sign("skin", "blister", "a swelling that is filled", "blisters", "vesicle"),
  sign(
    "skin",
    "pale",
    "paler than it is wont to be",
    "paleness",
    "pallor",
    "colour loss",
    "loss of colour",
    "faded",
  ),
  sign("skin", "dark", "darker than it is wont to be", "darkening", "darkened", "dark colour", "blackened"),
  sign(
    "skin",
    "visible parasite",
    "a worm, a louse or another guest on it",
    "worm on the skin",
    "visible worm",
    "lice",
    "louse",
    "leech",
    "anchor worm",
  ),
  sign("skin", "wound", "an injury, a bite", "injury", "bite wound", "bite", "scrape wound"),

  sign("fins", "clamped fins", "fins held close to the body", "clamped", "fins clamped", "folded fins"),
  sign("fins", "frayed fins", "edges are frayed", "frayed", "ragged fins", "torn fins"),
  sign("fins", "split fins", "fins are split along the rays", "split fin"),
  sign(
    "fins",
    "fin rot",
    "the edge is white or bloody and goes back",
    "eroded fins",
    "fins eroded",
    "tail rot",
    "receding fins",
  ),
  sign("fins", "red fins", "blood in the fins", "bloody fins", "red fin base"),
  sign("fins", "lost fin", "a fin is gone", "missing fin"),

  sign(
    "eyes",
    "cloudy eyes",
    "the eye is dull or white",
    "cloudy eye",
    "eye cloud",
    "opaque eye",
    "white eye",
  ),
  sign(
    "eyes",
    "protruding eyes",
    "eyes stand out, one or both",
    "protruding eye",
    "bulging eyes",
    "bulging eye",
    "pop eye",
    "popeye",
    "exophthalmos",
    "exophthalmia",
  ),
  sign("eyes", "sunken eyes", "eyes lie deep", "sunken eye"),
  sign("eyes", "bloody eyes", "blood in the eye", "bloody eye", "red eye"),
  sign("eyes", "cloudy lens", "the lens behind a clear eye is white", "cataract", "white lens"),
  sign("eyes", "lost eye", "an eye is gone", "missing eye"),

  sign("gills", "pale gills", "gills are pink or white", "gills pale", "anaemic gills", "anemic gills"),
  sign("gills", "brown gills", "gills are brown", "gills brown"),
  sign(
    "gills",
    "swollen gills",
    "gills bulge, covers stand off",
    "flared gills",
    "gill covers flared",
    "flared gill covers",
    "gills swollen",
  ),
  sign(
    "gills",
    "patchy gills",
    "gills are mottled or dying in places",
    "gill rot",
    "gill necrosis",
    "mottled gills",
  ),
  sign("gills", "mucus on the gills", "slime hangs from the gills", "slimy gills"),
  sign("gills", "short gill covers", "gill covers are short or curled", "curled gill covers"),

  sign(
    "mouth",
    "white mouth",
    "a white rim or film at the mouth",
    "mouth rot",
    "white lips",
    "film at the mouth",
  ),
  sign("mouth", "mouth open", "the mouth stays open", "cannot close its mouth", "locked jaw"),

  sign(
    "body",
    "swollen belly",
    "the belly is round",
    "swollen",
    "bloated",
    "bloating",
    "distended belly",
    "ascites",
    "swollen body",
  ),
  sign("body", "pine cone", "all scales stand out of a swollen body", "pine-cone", "pinecone", "dropsy"),
  sign(
    "body",
    "thin",
    "the belly is hollow, the back is a knife",
    "knife back",
    "emaciation",
    "emaciated",
    "wasting",
    "hollow belly",
    "sunken belly",
    "skinny",
  ),
  sign(
    "body",
    "bent spine",
    "the back is bent",
    "bent back",
    "crooked spine",
    "curved spine",
    "scoliosis",
    "spinal curvature",
  ),
  sign("body", "egg-bound", "full of eggs and cannot lay them", "egg bound"),
  sign("body", "milky muscle", "the flesh is white or opaque", "milky", "opaque muscle", "white muscle"),
  sign("body", "missing limbs", "legs or feelers are gone", "lost legs", "lost feelers", "short feelers"),

  sign(
    "vent",
    "white faeces",
    "faeces are white or stringy",
    "stringy faeces",
    "stringy poo",
    "white feces",
    "stringy feces",
    "white poo",
    "mucous faeces",
  ),
  sign("vent", "red vent", "the vent is red or swollen", "inflamed vent", "swollen vent"),
  sign(
    "vent",
    "worms at the vent",
    "worms hang from the vent",
    "red worms",
    "worms hanging out",
    "worms from the vent",
    "worms from vent",
  ),
  sign("vent", "prolapse", "the gut hangs out", "prolapsed vent", "gut hangs out"),

  sign("shell", "white ring", "a white ring behind the head before a moult", "ring of death"),
  sign(
    "shell",
    "failed moult",
    "stuck in its old shell, or dead after a moult",
    "failed molt",
    "stuck in moult",
    "stuck in molt",
    "moult problem",
  ),
  sign("shell", "rust spots", "brown or black spots on the shell", "shell spots", "black spots"),
  sign(
    "shell",
    "worms on the shell",
    "small guests on head or shell",
    "worms on the head",
    "guests on the shell",
  ),
  sign("shell", "green mass", "a green mass below the belly that is no eggs", "green fungus"),
  sign(
    "shell",
    "shell erosion",
    "the shell is worn, white or pitted",
    "eroded shell",
    "pitted shell",
    "thin shell",
  ),
  sign("shell", "closed shell", "does not come out of its shell", "retracted", "stays closed"),

  sign("eggs", "lost eggs", "the eggs that were carried are gone", "dropped eggs"),
  sign("eggs", "white eggs", "eggs have turned white", "eggs white"),
  sign("eggs", "fungused eggs", "eggs with tufts on them", "eggs with fungus", "furry eggs"),
];

export const signGrades = ["mild", "moderate", "severe"] as const;
/**
 * How bad a sign is. Of a lesion: mild up to a tenth of the body, moderate up to a fifth, severe above (zebrafish health glossary on humane endpoints;
 * scored by share of the body). Of behaviour it is the keeper's judgement.
 */
export type SignGrade = (typeof signGrades)[number];

/** One of the signs of a text, as it was written. */
export interface SeenSign {
  /** Offsets in the text. */
  readonly start: number;
  readonly end: number;
  readonly written: string;
  /** Undefined for what the vocabulary does not know. */
  readonly sign: Sign | undefined;
  readonly grade: SignGrade | undefined;
  /** What is said beside the sign: `cotton tuft at the mouth` is a tuft, and `at the mouth`. */
  readonly rest: string;
}

/** Every word and phrase, the longest first: what says more is meant. */
const phrases: readonly { readonly phrase: string; readonly sign: Sign }[] = signVocabulary
  .flatMap((each) => [each.word, ...each.also].map((phrase) => ({ phrase, sign: each })))
  .sort((a, b) => b.phrase.length - a.phrase.length || (a.phrase < b.phrase ? -1 : 1));

/** The signs of a text: its parts between commas, and at an `and` between two signs, each with the longest phrase of the vocabulary it holds. */
export function signsIn(text: string): SeenSign[] {
  const seen: SeenSign[] = [];
  let from = 0;
  for (const part of partsOf(text)) {
    const start = from + part.length - part.trimStart().length;
    const written = part.trim();
    from += part.length + (/^ and /i.test(text.slice(from + part.length)) ? " and ".length : 1);
    if (written !== "") seen.push({ start, end: start + written.length, written, ...readSign(written) });
  }
  return seen;
}

const partsOf = (text: string): string[] =>
  text.split(/[,;]/).flatMap((part) => {
    const pieces = part.split(/ and /i);
    return pieces.every((piece) => readSign(piece).sign !== undefined) ? pieces : [part];
  });

function readSign(written: string): Pick<SeenSign, "sign" | "grade" | "rest"> {
  const lower = written.toLowerCase();
  const grade = signGrades.find((word) => isWithin(lower, word) >= 0);
  const found = phrases.find(({ phrase }) => isWithin(lower, phrase) >= 0);
  if (found === undefined) return { sign: undefined, grade, rest: written };
  const at = isWithin(lower, found.phrase);
  const left = `${written.slice(0, at)} ${written.slice(at + found.phrase.length)}`;
  const rest = grade === undefined ? left : left.replace(new RegExp(`\\b${grade}\\b`, "i"), " ");
  return { sign: found.sign, grade, rest: rest.replace(/\s+/g, " ").trim() };
}

/** Where whole words stand in a text; -1 where they do not. `no flashing` is no flashing. */
function isWithin(text: string, phrase: string): number {
  for (let at = text.indexOf(phrase); at >= 0; at = text.indexOf(phrase, at + 1)) {
    const before = text.slice(0, at);
    const isWhole = !/[\p{L}\p{N}]$/u.test(before) && !/^[\p{L}\p{N}]/u.test(text.slice(at + phrase.length));
    if (isWhole && !/(?:^|\s)(?:no|not|without|never)\s+$/.test(before)) return at;
  }
  return -1;
}
