import { text } from '../../words/compiled/window/orders.ts';

/** One primal of the map. */
export interface MapPrimal {
  code: string;
  name: string;
  /** There is one on either side. */
  pair: boolean;
}

/** The fact shown for a primal. */
export interface MapFact {
  text: string;
  /** Absent: hatched. */
  dim?: boolean;
  /** Inconsistent: marked. */
  odd?: boolean;
  /** A color token to tint it with, such as `--part-trim`. */
  tone?: string;
}

/** The accessible name of a primal. */
export function spokenPrimal(primal: MapPrimal, fact: MapFact | undefined): string {
  const parts = [primal.name, primal.pair ? text.pair : '', fact?.text, fact?.odd ? text.odd : ''];
  return parts.filter(Boolean).join(', ');
}
