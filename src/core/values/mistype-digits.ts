/** Slips in the digits themselves, as keystrokes: the decimal mark stays where it was typed. */
import type { Reading } from './reading.ts';

/** The part of a reading that a slip changes. */
export type Typed = Omit<Reading, 'typed'>;

export type MistypeKind =
  | 'digits-swapped'
  | 'decimal-slipped'
  | 'wrong-unit'
  | 'digit-wrong'
  | 'digit-missing'
  | 'digit-doubled'
  | 'tare-left-in';

const FIGURES = ['0', '1', '2', '3', '4', '5', '6', '7', '8', '9'] as const;

/** Candidate readings if one digit, or one pair of neighbours, is wrong. May contain duplicates. */
export function digitSlips({ digits, decimals, unit }: Typed): [MistypeKind, Typed[]][] {
  const text = String(digits).padStart(decimals + 1, '0');
  const places = [...text];
  const mark = text.length - decimals;
  const meant = (figures: string, after: number): Typed => ({
    digits: Number(figures),
    decimals: after,
    unit,
  });
  const swapped = places.slice(1).map((next, i) => {
    const pair = `${next}${places[i]}`;
    return meant(text.slice(0, i) + pair + text.slice(i + 2), decimals);
  });
  const wrong = places.flatMap((_, i) =>
    FIGURES.map((figure) => meant(text.slice(0, i) + figure + text.slice(i + 1), decimals)),
  );
  // A digit omitted beside the mark may belong to either side of it.
  const missing = [...places, ''].flatMap((_, i) =>
    FIGURES.flatMap((figure) => {
      const figures = text.slice(0, i) + figure + text.slice(i);
      return [
        ...(i <= mark ? [meant(figures, decimals)] : []),
        ...(decimals > 0 && i >= mark ? [meant(figures, decimals + 1)] : []),
      ];
    }),
  );
  const doubled = places.slice(1).flatMap((figure, i) => {
    if (figure !== places[i]) return [];
    const figures = text.slice(0, i) + text.slice(i + 1);
    return [meant(figures, i + 1 < mark ? decimals : decimals - 1)];
  });
  return [
    ['digits-swapped', swapped],
    ['digit-wrong', wrong],
    ['digit-missing', missing],
    ['digit-doubled', doubled],
  ];
}
