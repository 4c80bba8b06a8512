/** A cure as its packet states it: what it holds, for which uses, and what is wrong with a strength as typed. */
import { requireFinite, ValidationError } from '../values/validation-error.ts';
import type { Finding } from './finding.ts';
import type { Agent, CureClass } from './limits.ts';

export interface CureMix {
  readonly id: string;
  /** Fraction of the packet's weight: 6.25 % is 0.0625. Null where it was not read off the packet; never assumed. */
  readonly nitrite: number | null;
  readonly nitrate: number | null;
  /** Erythorbate or ascorbate, 0 for none. */
  readonly accelerator: number | null;
  /** Sodium where left out. */
  readonly nitriteAs?: 'sodium' | 'potassium';
  /** Salt in the mix; where left out, all that is no agent counts as salt. */
  readonly salt?: number;
  /** The uses that the packet names, or null where it names none. */
  readonly for?: readonly CureClass[] | null;
}

export const AGENTS: readonly Agent[] = ['nitrite', 'nitrate', 'accelerator'];

/** Packets of cure hold 0.4 to 6.25 % of nitrite, some 11 %: a fraction above this is no packet's. Our choice. */
const STRONGEST_MIX = 0.15;

/** Molar masses of sodium and potassium nitrite, g/mol. */
const SODIUM_NITRITE = 68.9953;
const POTASSIUM_NITRITE = 85.1038;

/**
 * Sodium nitrite that has as much nitrite as so much potassium nitrite.
 * @example asSodium(148) // 119.98: the two figures of the rule for bacon
 */
export function asSodium(potassiumNitrite: number): number {
  return (potassiumNitrite * SODIUM_NITRITE) / POTASSIUM_NITRITE;
}

/** @example asPotassium(120) // 148.02 */
export function asPotassium(sodiumNitrite: number): number {
  return (sodiumNitrite * POTASSIUM_NITRITE) / SODIUM_NITRITE;
}

export type StrengthCode = 'cure.strength-missing' | 'cure.strength-percent' | 'cure.strength-unlikely';

/**
 * What is wrong with the strengths as typed: missing, a percentage in place of a fraction (above 1, a hundred times too much), or
 * stronger than any packet and not pure.
 */
export function strengthFindings(mix: CureMix): Finding<StrengthCode>[] {
  return AGENTS.flatMap((agent): Finding<StrengthCode>[] => {
    const strength = mix[agent];
    const told = { cure: mix.id, agent };
    if (strength === null) return [{ code: 'cure.strength-missing', weight: 'stop', with: told }];
    if (strength > 1) return [{ code: 'cure.strength-percent', weight: 'stop', with: { ...told, strength } }];
    const odd = agent === 'nitrite' && strength > STRONGEST_MIX && strength < 1;
    return odd ? [{ code: 'cure.strength-unlikely', weight: 'stop', with: { ...told, strength } }] : [];
  });
}

/**
 * Grams of the pure agent in so many grams of the mix.
 * @throws ValidationError `cure.strength-missing`, `cure.strength-percent`, `share.out-of-range`, `grams.negative`,
 *   `number.not-finite`
 * @example agentGramsIn({ id: 'pink', nitrite: 0.0625, nitrate: 0, accelerator: 0 }, 'nitrite', 100) // 6.25
 */
export function agentGramsIn(mix: CureMix, agent: Agent, grams: number): number {
  const strength = mix[agent];
  const field = `${mix.id}.${agent}`;
  if (strength === null) throw new ValidationError('cure.strength-missing', field);
  if (requireFinite(strength, field) < 0)
    throw new ValidationError('share.out-of-range', field, { share: strength });
  if (strength > 1) throw new ValidationError('cure.strength-percent', field, { strength });
  if (requireFinite(grams, 'grams') < 0) throw new ValidationError('grams.negative', 'grams', { grams });
  return grams * strength;
}

/** Grams of salt in so many grams of the mix: what the packet says, else all that is no agent. */
export function saltGramsIn(mix: CureMix, grams: number): number {
  if (mix.salt !== undefined) return grams * mix.salt;
  return AGENTS.reduce((left, agent) => left - agentGramsIn(mix, agent, grams), grams);
}
