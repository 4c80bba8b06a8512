/**
 * How a hanging weight divides, as a tree of two-way splits:
 *
 *     hanging -> take-home | loss
 *     take-home -> saved fat | meat;  meat -> whole cuts | trim
 *     loss -> bone | rest;  rest -> sinew | rest;  rest -> damage | shrink
 *
 * Each split is a share of its own whole, so an animal weighed only twice (hook and take-home) still informs the first one,
 * and the parts always add up to the whole.
 */
import type { Brought } from '../species/species.ts';

export const SPLITS = ['takeHome', 'fatSaved', 'wholeCuts', 'bone', 'sinew', 'damage'] as const;
export type Split = (typeof SPLITS)[number];

/** The first seven add up to the hanging weight; meat = whole cuts + trim; take-home = meat + saved fat. */
export const PARTS = [
  'wholeCuts', 'trim', 'fatSaved', 'bone', 'sinew', 'damage', 'shrink', 'meat', 'takeHome', 'loss',
] as const; // prettier-ignore
export type Part = (typeof PARTS)[number];

/** The whole that the shares refer to: the carcass on the hook, bone-in pieces received, or boned meat received. */
export type Base = 'carcass' | 'quarters' | 'boned';

const BASES: Readonly<Record<Brought, Base>> = {
  whole: 'carcass',
  skinned: 'carcass',
  quarters: 'quarters',
  primals: 'quarters',
  boned: 'boned',
};

/** The base for a carcass condition, or undefined for an unknown word. */
export function baseOf(brought: Brought): Base | undefined {
  return BASES[brought];
}

/**
 * The parts of `whole` grams given each split's share. Boned meat has no bone: its share there is ignored.
 * @example divide(100, { takeHome: 0.6, fatSaved: 0, wholeCuts: 0.5, bone: 0.5, sinew: 0.5, damage: 0.5 }, 'carcass').trim // 30
 */
export function divide(
  whole: number,
  share: Readonly<Record<Split, number>>,
  base: Base,
): Record<Part, number> {
  const takeHome = whole * share.takeHome;
  const loss = whole - takeHome;
  const fatSaved = takeHome * share.fatSaved;
  const meat = takeHome - fatSaved;
  const wholeCuts = meat * share.wholeCuts;
  const bone = base === 'boned' ? 0 : loss * share.bone;
  const sinew = (loss - bone) * share.sinew;
  const damage = (loss - bone - sinew) * share.damage;
  const shrink = loss - bone - sinew - damage;
  const trim = meat - wholeCuts;
  return { wholeCuts, trim, fatSaved, bone, sinew, damage, shrink, meat, takeHome, loss };
}

/** Margin by which shares are moved away from 0 and 1 before the logit, so that it stays finite. */
const LOGIT_MARGIN = 0.0025;

/** The logit of a share with a margin at 0 and 1: ln(q / (1 - q)), q = 0.0025 + 0.995 share. Finite on [0, 1]. */
export function logit(share: number): number {
  const q = LOGIT_MARGIN + (1 - 2 * LOGIT_MARGIN) * share;
  return Math.log(q / (1 - q));
}

/** The inverse of `logit` on [0, 1], clamped to it. */
export function inverseLogit(y: number): number {
  const q = 1 / (1 + Math.exp(-y));
  return Math.min(1, Math.max(0, (q - LOGIT_MARGIN) / (1 - 2 * LOGIT_MARGIN)));
}
