/**
 * The data known beforehand about each kind of game: `resources/species.json` holds one `SpeciesProfile` per
 * species, `resources/cautions.json` one `Caution` per warning. Types only: the core receives the profiles and
 * reads no files. Masses in grams, shares as fractions, every figure with its source.
 */

import type { Age, Brought, Legs, Sex } from '../../trade/animal.ts';

export type { Age, Brought, Legs, Sex };
/** Shot damage as the shop judges it at intake. */
export type Damage = 'none' | 'some' | 'heavy' | 'unknown';

/**
 * How far a figure can be trusted. `measured`: weighed by somebody who published it in a journal, a thesis or
 * proceedings; `official`: stated by an agency; `extension`: published by a university's extension; `assumption`:
 * ours, with a wide spread. A figure copied from another species is an assumption, whatever its own grade.
 */
export type Grade = 'measured' | 'official' | 'extension' | 'assumption';

/** Where a figure is from. */
export interface Sourced {
  readonly grade: Grade;
  /** How it was derived, in words. */
  readonly source: string;
  /** Codes into `resources/sources.json`; none where an assumption rests on nothing published. */
  readonly cites: readonly string[];
}

/** A share (0 to 1) with its animal-to-animal standard deviation. */
export interface Share extends Sourced {
  readonly mean: number;
  readonly sd: number;
  /** Means of the sexes where the literature gives them; `mean` applies to an animal of unknown sex. */
  readonly bySex?: { readonly male: number; readonly female: number };
}

/** A prior for a share: the published or assumed mean counts as much as `animals` animals of the shop's own. */
export interface SharePrior extends Share {
  readonly animals: number;
  /** The range of published means, for the band on charts; not a range of single animals. An assumption has no band. */
  readonly low: number;
  readonly high: number;
}

/**
 * Hanging weights in grams. Outside `low`..`high` is unusual; outside `least`..`most` is certainly a typing error:
 * ask.
 */
export interface HangingWeights extends Sourced {
  readonly least: number;
  readonly low: number;
  readonly typical: number;
  readonly high: number;
  readonly most: number;
}

/** From live to field-dressed weight, and from there to hanging weight. */
export interface DressedRatios {
  readonly liveToDressed: Share;
  readonly dressedToHanging: Share;
}

/**
 * Weight ratios from one stage to the next. Field-dressed is the animal without its entrails, head and hide still
 * on; hunters and agencies weigh it with its lower legs on, some studies with the lower legs removed at knee and
 * hock.
 */
export interface StageRatios extends DressedRatios {
  /** The same two for an animal with its lower legs removed. */
  readonly legsOff: DressedRatios;
  /** The ratio published directly; it replaces the product of the other two. */
  readonly liveToHanging?: Share;
}

/** How the loss between hook and package divides; the four means sum to 1. */
export interface LossPrior {
  readonly bone: Share;
  /** Sinew, silverskin, crust and discarded fat. */
  readonly sinew: Share;
  readonly damage: Share;
  /** Drip, drying and measurement error. */
  readonly shrink: Share;
  /** Prior sample size of these shares, in animals. */
  readonly animals: number;
}

/** One primal; `share` is of the hanging weight, both sides together when `pair`. */
export interface Primal {
  readonly code: string;
  readonly name: string;
  readonly pair: boolean;
  readonly share: number;
}

export interface SpeciesProfile {
  readonly code: string;
  readonly name: string;
  readonly many: string;
  /** Which carcass drawing is used; the cougar uses the bear's. */
  readonly body: 'cervid' | 'pronghorn' | 'boar' | 'bear' | 'bison';
  /** Species of one family share what the shop's data teach. */
  readonly family: 'deer' | 'pronghorn' | 'pig' | 'cattle' | 'carnivore';
  readonly words: { readonly male: string; readonly female: string; readonly young: string };
  readonly hangingGrams: HangingWeights;
  readonly ratios: StageRatios;
  /** Fat of trim for grinding; `ndb` is the USDA food number, null where there is none. */
  readonly trimFat: Share & { readonly ndb: string | null };
  /** Boneless take-home (whole cuts, trim and saved own fat, without added fat) as a share of hanging weight. */
  readonly takeHome: SharePrior;
  /** The same for bone-in quarters and primals, as a share of the received weight. */
  readonly takeHomeOfQuarters: SharePrior;
  /** The same for meat boned in the field, as a share of the received weight. */
  readonly takeHomeOfBoned: SharePrior;
  /** Whole cuts as a share of the meat (take-home without saved fat); the rest is trim for the grinder. */
  readonly wholeCuts: Share & { readonly animals: number };
  readonly loss: LossPrior;
  /** Own fat saved as a share of hanging weight. */
  readonly ownFat: Share & { readonly animals: number };
  readonly primals: readonly Primal[];
  readonly primalsFrom: Sourced;
  /** Codes into `resources/cautions.json`. */
  readonly cautions: readonly string[];
  /** Only in a species added by a shop: the code of the supplied species whose figures it uses. */
  readonly like?: string;
}

/** A place in the window where cautions are shown. */
export type CautionPlace = 'intake' | 'rail' | 'table' | 'grinder' | 'label' | 'pick-up' | 'unclaimed';

/** A short warning in our own words; it always defers to the local agency or health department. */
export interface Caution {
  readonly code: string;
  /** The hazard, as a heading of the list. */
  readonly hazard: string;
  readonly title: string;
  /** The title in a line of several, where it would be too long for it; null: as it is. */
  readonly short: string | null;
  readonly text: string;
  /** For every animal, for species that name it, or only after a positive result. */
  readonly when: 'always' | 'species' | 'positive result';
  /** The places in the window where it is shown. */
  readonly shown: readonly CautionPlace[];
  /** Where published figures differ: each with its source, and which one is shown (the safer). */
  readonly differs: string | null;
  readonly source: string;
  readonly url: string;
  /** The day on which the source was read, `YYYY-MM-DD`. */
  readonly read: string;
}
