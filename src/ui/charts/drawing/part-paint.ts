import type { CutPart, LossKind } from '../../../bridge/contract.ts';
import type { ChartColours } from './colours.ts';
import type { PathShape, Pattern } from './scene.ts';

/** Where a pound on the hook can go: into a weighed part, or where no scale followed it. */
export type Fate = CutPart | LossKind;
type Tone = Exclude<keyof ChartColours, 'font'>;

interface PartPaint {
  letter: string;
  tone: Tone;
  /** Of letters upon it. */
  ink: Tone;
  /** What no scale has seen is never plain. */
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
};

/** What goes home, and what does not, in the order that pictures show them. */
export const HOME = ['whole cuts', 'trim', 'fat saved'] as const satisfies readonly Fate[];
export const LOST = [
  'bone',
  'sinew',
  'damage',
  'shrink',
  'unexplained',
] as const satisfies readonly LossKind[];

export const letterOf = (fate: Fate): string => PAINT[fate].letter;
export const inkOf = (fate: Fate, colours: ChartColours): string => colours[PAINT[fate].ink];

/** A shape filled as its fate is. */
export function painted(fate: Fate, d: string, colours: ChartColours): PathShape {
  const { tone, pattern } = PAINT[fate];
  return {
    kind: 'path',
    d,
    fill: colours[tone],
    stroke: fate === 'unexplained' ? colours.steel : colours.card,
    strokeWidth: 1,
    ...(pattern ? { pattern: { kind: pattern.kind, ink: colours[pattern.ink] } } : {}),
  };
}

/** The same as a pale stream towards it, upon which ink can be read. */
export function streamed(fate: Fate, d: string, colours: ChartColours): PathShape {
  const { tone } = PAINT[fate];
  return { kind: 'path', d, fill: colours[fate === 'unexplained' ? 'steel' : tone], opacity: 0.32 };
}
