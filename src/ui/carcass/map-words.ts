import { ordersText as text } from '../texts/en/orders.ts';

/** One primal of the map. */
export interface MapPrimal {
  code: string;
  name: string;
  /** There is one on either side. */
  pair: boolean;
}

/** What the map says about a primal. */
export interface MapFact {
  text: string;
  /** Not there: hatched. */
  dim?: boolean;
  /** Something does not fit: marked. */
  odd?: boolean;
  /** A colour of the sheet of colours to tint it with, such as `--part-trim`. */
  tone?: string;
}

/** What a reader of the screen hears of a primal. */
export function spokenPrimal(primal: MapPrimal, fact: MapFact | undefined): string {
  const said = [primal.name, primal.pair ? text.pair : '', fact?.text, fact?.odd ? text.odd : ''];
  return said.filter(Boolean).join(', ');
}
