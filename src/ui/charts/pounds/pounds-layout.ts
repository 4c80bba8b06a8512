import type { PoundsReport } from '../../../bridge/contract.ts';
import { type Fate, HOME, LOST } from '../drawing/part-paint.ts';

/** One stream from the hook to its fate: its slice of the bar, and its slot at the end. */
export interface Stream {
  fate: Fate;
  grams: number;
  /** Top of its slice of the bar, and of its end, in pixels. */
  from: number;
  to: number;
  tall: number;
}

export interface PoundsLayout {
  streams: Stream[];
  /** The bar of the hanging weight, and the excess weight. */
  base: { top: number; tall: number };
  over: { top: number; tall: number } | null;
  /** The end of the take-home. */
  home: { grams: number; top: number; tall: number };
  bottom: number;
}

/** Two lines of text fit beside a stream's end, however thin it is. */
const SLOT = 44;
const GAP = 8;
/** Gap between take-home and losses. */
const BREAK = 26;

/** Grams of each fate; zeros are left out. */
export function fatesOf(view: PoundsReport): Map<Fate, number> {
  const parts = new Map<Fate, number>(view.parts.map(({ part, grams }) => [part, grams]));
  parts.set('shrink', view.shrinkGrams).set('unexplained', view.unexplainedGrams);
  return new Map(
    [...HOME, ...LOST].flatMap((fate) => {
      const grams = parts.get(fate) ?? 0;
      return grams > 0 ? [[fate, grams] as const] : [];
    }),
  );
}

/** Everything that was weighed or is explained: the shares add up to one, even where parts exceed their animals. */
export function weighedOf({ baseGrams, overGrams }: Pick<PoundsReport, 'baseGrams' | 'overGrams'>): number {
  return baseGrams + overGrams;
}

/**
 * Lays out the streams from `top` down: the bar is `tall` pixels for all weighed parts, and every end has room for
 * its name, so that ends are separated where the slices of the bar touch.
 */
export function layPounds(view: PoundsReport, top: number, tall: number): PoundsLayout {
  const fates = fatesOf(view);
  const all = [...fates.values()].reduce((total, grams) => total + grams, 0);
  const scale = all > 0 ? tall / all : 0;
  const streams: Stream[] = [];
  let [from, slot] = [top, top];
  for (const [fate, grams] of fates) {
    const before = streams.at(-1)?.fate;
    if (before && isHome(before) && !isHome(fate)) slot += BREAK;
    const height = grams * scale;
    const room = Math.max(height, SLOT);
    streams.push({ fate, grams, from, to: slot + (room - height) / 2, tall: height });
    from += height;
    slot += room + GAP;
  }
  const base = { top, tall: Math.max(0, all - view.overGrams) * scale };
  const over = view.overGrams > 0 ? { top: top + base.tall, tall: view.overGrams * scale } : null;
  const homes = streams.filter(({ fate }) => isHome(fate));
  const grams = homes.reduce((total, stream) => total + stream.grams, 0);
  const [first, last] = [homes[0], homes.at(-1)];
  const middle = first && last ? (first.to + last.to + last.tall) / 2 : top;
  return {
    streams,
    base,
    over,
    home: { grams, top: middle - (grams * scale) / 2, tall: grams * scale },
    bottom: Math.max(slot - GAP, from),
  };
}

export function isHome(fate: Fate): boolean {
  return HOME.some((one) => one === fate);
}
