import type * as broodCards from "../../../language/features/brood-cards.ts";
import type * as cards from "../../../language/features/cards.ts";
import type * as cases from "../../../language/features/case-cards.ts";
import type * as courseCards from "../../../language/features/course-cards.ts";
import type { ExposureCard } from "../../../language/features/exposure-cards.ts";
import type * as feeding from "../../../language/features/feed-matrix-card.ts";
import type * as shipping from "../../../language/features/shipping-cards.ts";
import type { FilePlace, Placed } from "../../../language/server/protocol.ts";

/** Cards as they come to the preview: with places as lines of files. */
export type Place = FilePlace;
/** Of what a case may have reached, what the preview shows: the picture comes drawn. */
export type CaseCard = Omit<Placed<cases.CaseCard>, "exposure"> & {
  readonly exposure: Pick<Placed<ExposureCard>, "windowText" | "hold" | "past" | "ended"> | null;
};
export type CaseItemCard = Placed<cases.CaseItemCard>;
export type Card = TankCard | DayCard | CaseCard;
export type TankCard = Placed<cards.TankCard>;
export type DayCard = Placed<cards.DayCard>;
export type DayTankCard = Placed<cards.DayTankCard>;
export type WaterCard = Placed<cards.WaterCard>;
export type RemedyCard = Placed<cards.RemedyCard>;
export type ResidentCard = Placed<cards.ResidentCard>;
export type FeedMatrixCard = Placed<feeding.FeedMatrixCard>;
export type DutyCard = Placed<cards.DutyCard>;
export type FindingCard = Placed<cards.FindingCard>;
export type RoundCard = Placed<cards.RoundCard>;
export type WhyCard = Placed<cards.WhyCard>;
export type BroodCard = Placed<broodCards.BroodCard>;
export type CourseCard = Placed<courseCards.CourseCard>;
export type BathCard = Placed<courseCards.BathCard>;
export type FreeCard = Placed<shipping.FreeCard>;
export type QuarantineCard = Placed<import("../../../language/features/quarantine-cards.ts").QuarantineCard>;
export type LightCard = Placed<import("../../../language/features/light-cards.ts").LightCard>;
export type PopulationCard = Placed<import("../../../language/features/population-cards.ts").PopulationCard>;
