/** Limits of curing agents as data (`resources/cure-limits.json`), and the classes that they distinguish. The core reads no files. */
import type { Sourced } from '../species/species.ts';
import type { Application } from './ingoing.ts';

export type Agent = 'nitrite' | 'nitrate' | 'accelerator';

/** What the figures distinguish: how the agent gets into the meat, and whether it is bacon. */
export const CURE_CLASSES = [
  'ground',
  'pumped',
  'immersed',
  'dry-rubbed',
  'bacon-pumped',
  'bacon-immersed',
  'bacon-dry',
] as const;
export type CureClass = (typeof CURE_CLASSES)[number];

/**
 * `ceiling` not above; `level` that and no other; `floor` at least; `finished` a ceiling of the finished product, which only an
 * analysis shows.
 */
export type LimitKind = 'ceiling' | 'level' | 'floor' | 'finished';

export interface CureLimit extends Sourced {
  readonly code: string;
  readonly agent: Agent;
  readonly classes: readonly CureClass[];
  readonly kind: LimitKind;
  /** Parts per million, ingoing on the green weight unless `finished`; of nitrite as sodium nitrite. */
  readonly ppm: number;
  /** The rule in its own units. */
  readonly asWritten: string;
}

export interface CuredProduct {
  readonly ground: boolean;
  readonly bacon: boolean;
  /** Cooked or smoked within days, unlike a product that dries or ages for weeks. */
  readonly cookedSoon: boolean;
  /** Smoked or dried at low heat, where the cure is part of what keeps it. */
  readonly lowHeat: boolean;
  readonly keep: 'refrigerated' | 'frozen' | 'shelf-stable';
}

/**
 * The class that the figures put this product and method into, or null where they have none, as for ground bacon or cure mixed dry
 * into whole pieces: then nothing is compared and the batch does not start.
 */
export function classOf(
  { ground, bacon }: Pick<CuredProduct, 'ground' | 'bacon'>,
  { method }: Pick<Application, 'method'>,
): CureClass | null {
  if (ground) return bacon || method !== 'mixed-in' ? null : 'ground';
  switch (method) {
    case 'mixed-in':
      return null;
    case 'pumped':
      return bacon ? 'bacon-pumped' : 'pumped';
    case 'immersed':
      return bacon ? 'bacon-immersed' : 'immersed';
    case 'rubbed':
      return bacon ? 'bacon-dry' : 'dry-rubbed';
  }
}

export function isBacon(cureClass: CureClass): boolean {
  return cureClass.startsWith('bacon-');
}
