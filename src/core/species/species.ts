/**
 * The shape of what is known beforehand about each kind of game: `resources/species.json` holds one
 * `SpeciesProfile` a species, `resources/cautions.json` one `Caution` a warning. Types only; the core is
 * handed the profiles, it reads no files. Masses in grams, shares as fractions, every figure with its source.
 */

import type { Age, Brought, Legs, Sex } from '../../trade/animal.ts';

export type { Age, Brought, Legs, Sex };
/** Shot damage as the shop judges it at the hook. */
export type Damage = 'none' | 'some' | 'heavy' | 'unknown';

/**
 * How far a figure can be trusted. `measured`: weighed by somebody who published it in a journal, a thesis or
 * proceedings; `official`: stated by an agency; `extension`: published by a university's extension; `assumption`: ours, with
 * a wide spread. A figure that was carried over from another species is an assumption, whoever weighed the other.
 */
export type Grade = 'measured' | 'official' | 'extension' | 'assumption';

/** Where a figure is from. */
export interface Sourced {
  readonly grade: Grade;
  /** How it was arrived at, in words. */
  readonly source: string;
  /** Codes into `resources/sources.json`; none where an assumption rests on nothing published. */
  readonly cites: readonly string[];
}

/** A share (0 to 1) with its animal-to-animal standard deviation. */
export interface Share extends Sourced {
  readonly mean: number;
  readonly sd: number;
  /** Means of the sexes where the literature gives them; `mean` stands for an animal of unknown sex. */
  readonly bySex?: { readonly male: number; readonly female: number };
}

/** A prior for a share: the published or assumed mean counts as much as `animals` animals of the shop's own. */
export interface SharePrior extends Share {
  readonly animals: number;
  /** The range of means met in print, for the band on charts; not a range of single animals. An assumption has no band. */
  readonly low: number;
  readonly high: number;
}

/** Hanging weights in grams. Outside `low`..`high` is unusual; outside `least`..`most` is surely mistyped: ask. */
export interface HangingWeights extends Sourced {
  readonly least: number;
  readonly low: number;
  readonly typical: number;
  readonly high: number;
  readonly most: number;
}

/** From the whole animal to field-dressed, and from there to the hook. */
export interface DressedRatios {
  readonly liveToDressed: Share;
  readonly dressedToHanging: Share;
}

/**
 * Weight ratios from one stage to the next. Field-dressed is the animal without its insides, head and hide still on;
 * hunters and agencies weigh it with its lower legs on, some studies with the lower legs taken off at knee and hock.
 */
export interface StageRatios extends DressedRatios {
  /** The same two for an animal whose lower legs are already off. */
  readonly legsOff: DressedRatios;
  /** Given where it was published directly; then it is used instead of the product of the other two. */
  readonly liveToHanging?: Share;
}

/** How what is lost between hook and package divides; the four means sum to 1. */
export interface LossPrior {
  readonly bone: Share;
  /** Sinew, silverskin, crust and fat that is thrown. */
  readonly sinew: Share;
  readonly damage: Share;
  /** Drip, drying and whatever the scale cannot explain. */
  readonly shrink: Share;
  /** How many animals of the shop's own these shares count for. */
  readonly animals: number;
}

/** One cut of the first breaking-down; `share` is of the hanging weight, both sides together when `pair`. */
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
  /** Which carcass drawing fits; the cougar borrows the bear's. */
  readonly body: 'cervid' | 'pronghorn' | 'boar' | 'bear' | 'bison';
  /** Species of one family lend each other what the shop has learned. */
  readonly family: 'deer' | 'pronghorn' | 'pig' | 'cattle' | 'carnivore';
  readonly words: { readonly male: string; readonly female: string; readonly young: string };
  readonly hangingGrams: HangingWeights;
  readonly ratios: StageRatios;
  /** Fat of trim for the grinder; `ndb` is the USDA food number, null where there is none. */
  readonly trimFat: Share & { readonly ndb: string | null };
  /** Boneless take-home (whole cuts, trim and own fat saved, before any fat is added) as a share of hanging. */
  readonly takeHome: SharePrior;
  /** The same for bone-in quarters and primals, as a share of the weight received. */
  readonly takeHomeOfQuarters: SharePrior;
  /** The same for meat boned in the field, as a share of the weight received. */
  readonly takeHomeOfBoned: SharePrior;
  /** Whole cuts as a share of the meat (take-home without saved fat); the rest is trim for the grinder. */
  readonly wholeCuts: Share & { readonly animals: number };
  readonly loss: LossPrior;
  /** Own fat saved as a share of hanging. */
  readonly ownFat: Share & { readonly animals: number };
  readonly primals: readonly Primal[];
  readonly primalsFrom: Sourced;
  /** Codes into `resources/cautions.json`. */
  readonly cautions: readonly string[];
  /** Only in a species of a shop's own: the code of the supplied one whose figures it took over. */
  readonly like?: string;
}

/** A place in the building where cautions are shown. */
export type CautionPlace = 'intake' | 'rail' | 'table' | 'grinder' | 'label' | 'pick-up';

/** A short warning of our own wording; it always defers to the local agency or health department. */
export interface Caution {
  readonly code: string;
  /** What can go wrong, as a heading of the list. */
  readonly hazard: string;
  readonly title: string;
  readonly text: string;
  /** At every animal, at species that name it, or only after a positive result. */
  readonly when: 'always' | 'species' | 'positive result';
  /** The places in the building where it is shown. */
  readonly shown: readonly CautionPlace[];
  /** Where published figures differ: each with who says it, and which is told; the safer one. */
  readonly differs: string | null;
  readonly source: string;
  readonly url: string;
  /** The day on which the source was read, `YYYY-MM-DD`. */
  readonly read: string;
}
