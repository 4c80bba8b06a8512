import limitsJson from '../../../resources/cure-limits.json' with { type: 'json' };
import rulesJson from '../../../resources/composition-rules.json' with { type: 'json' };
import type { Application } from '../../../src/core/curing/ingoing.ts';
import type { CureLimit, CuredProduct } from '../../../src/core/curing/limits.ts';
import type { CureMix } from '../../../src/core/curing/mix.ts';
import type { CompositionRule } from '../../../src/core/curing/standards.ts';

export const LIMITS = limitsJson as readonly CureLimit[];
export const RULES = rulesJson as readonly CompositionRule[];

/** 100 lb in grams, and an ounce. */
export const HUNDRED = 45_359.237;
export const OUNCE = 28.349523125;

export const PINK: CureMix = { id: 'pink', nitrite: 0.0625, nitrate: 0, accelerator: 0 };
export const NUMBER_TWO: CureMix = { id: 'number two', nitrite: 0.0625, nitrate: 0.04, accelerator: 0 };
export const ERYTHORBATE: CureMix = { id: 'erythorbate', nitrite: 0, nitrate: 0, accelerator: 1 };

export const SAUSAGE: CuredProduct = {
  ground: true,
  bacon: false,
  cookedSoon: true,
  lowHeat: true,
  keep: 'refrigerated',
};
export const HAM: CuredProduct = { ...SAUSAGE, ground: false };
export const BACON: CuredProduct = { ...HAM, bacon: true };
export const GROUND: Application = { method: 'mixed-in', greenGrams: HUNDRED };
