import type { AnimalPage } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/ladder.ts';
import type { Format } from '../texts/format.ts';

/**
 * The take-home so far or expected, as a sentence for the hunter on the phone; empty without a weight.
 * @example 'Take home so far 30.00 lb, 50.2% of hanging weight; animals like this usually give 51–63%.'
 */
export function takeHomeSentence(
  page: Pick<AnimalPage, 'ladder' | 'expected' | 'takeHomeGrams'>,
  format: Format,
): string {
  if (!page.ladder) return '';
  const { baseGrams, base } = page.ladder;
  const usual = page.expected.find(({ part }) => part === 'take-home');
  const mostly = usual ? format.shareRange(usual.low, usual.high) : '';
  if (page.takeHomeGrams > 0) {
    const share = format.share(page.takeHomeGrams / baseGrams);
    return text.soFar({ mass: format.mass(page.takeHomeGrams), share, base, usual: mostly });
  }
  if (!usual) return '';
  const expected = format.massRange(usual.low * baseGrams, usual.high * baseGrams, 1);
  return text.expect({ range: expected, share: mostly, base });
}
