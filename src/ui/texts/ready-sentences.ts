import { text } from '../../words/compiled/problems/hints.ts';
import type { Format } from './format.ts';

/** What does not add up when an animal is marked ready; 0 or '' where nothing is wrong. */
type Doubts = Partial<
  Record<
    'cutGrams' | 'groundGrams' | 'packedGrams' | 'overGrams' | 'missingGrams' | 'unpacked' | 'notMade',
    unknown
  >
>;

/**
 * The doubts as sentences.
 * @example readySentences({ cutGrams: 9000, packedGrams: 4000, missingGrams: 5000, … }, format)
 * // '19.84 lb was cut; 8.82 lb is packed and 0.00 lb went to the grinder. 11.02 lb is missing.'
 */
export function readySentences(doubts: Doubts, format: Format): string {
  const grams = {
    cutGrams: Number(doubts.cutGrams),
    groundGrams: Number(doubts.groundGrams),
    packedGrams: Number(doubts.packedGrams),
  };
  const [overGrams, missingGrams] = [Number(doubts.overGrams), Number(doubts.missingGrams)];
  const { unpacked, notMade } = doubts;
  return [
    overGrams > 0 ? text.readyOver({ ...grams, overGrams }, format) : '',
    missingGrams > 0 ? text.readyMissing({ ...grams, missingGrams }, format) : '',
    unpacked ? text.readyUnpacked({ batches: String(unpacked) }) : '',
    notMade ? text.readyNotMade({ products: String(notMade) }) : '',
  ]
    .filter(Boolean)
    .join(' ');
}
