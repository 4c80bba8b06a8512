import type { CutPart, LossKind } from '../../../bridge/contract.ts';
import type { Paint, Pattern, Tone } from './paint.ts';

/** Where the hanging weight can go: into a weighed part, or into an unweighed loss. */
export type Fate = CutPart | LossKind;

interface PartPaint {
  letter: string;
  tone: Tone;
  /** Color of text on it. */
  ink: Tone;
  /** Unweighed losses always have a pattern. */
  pattern?: { kind: Pattern; ink: Tone };
}

/** Letter and fill of each fate; the letters are those of the weight ladder. */
const PAINT: Readonly<Record<Fate, PartPaint>> = {
  'whole cuts': { letter: 'C', tone: 'lean', ink: 'onLean' },
  trim: { letter: 'T', tone: 'trim', ink: 'onTrim' },
  'fat saved': { letter: 'F', tone: 'fat', ink: 'onFat' },
  bone: { letter: 'B', tone: 'bone', ink: 'onBone' },
  sinew: { letter: 'S', tone: 'sinew', ink: 'onSinew' },
  damage: { letter: 'D', tone: 'damage', ink: 'onDamage' },
  shrink: { letter: 'Sh', tone: 'shrink', ink: 'ink', pattern: { kind: 'dots', ink: 'card' } },
  unexplained: { letter: '?', tone: 'card', ink: 'ink', pattern: { kind: 'hatch', ink: 'steel' } },
  grinder: { letter: 'G', tone: 'steel', ink: 'ink', pattern: { kind: 'cross', ink: 'card' } },
  smokehouse: { letter: 'W', tone: 'shrink', ink: 'ink', pattern: { kind: 'dots', ink: 'card' } },
};

/** Take-home and losses, in the order of the pictures. */
export const HOME = ['whole cuts', 'trim', 'fat saved'] as const satisfies readonly Fate[];
export const LOST = [
  'bone',
  'sinew',
  'damage',
  'shrink',
  'unexplained',
] as const satisfies readonly LossKind[];

export const letterOf = (fate: Fate): string => PAINT[fate].letter;
export const inkOf = (fate: Fate): Tone => PAINT[fate].ink;

/** The fill of a fate. */
export function paintOf(fate: Fate): Paint {
  const { tone, pattern } = PAINT[fate];
  return pattern ? { pattern: pattern.kind, ink: pattern.ink, on: tone } : tone;
}

/** The same as a pale stream, on which text is readable. */
export function streamOf(fate: Fate): Paint {
  return { tone: fate === 'unexplained' ? 'steel' : PAINT[fate].tone, strength: 0.32 };
}
