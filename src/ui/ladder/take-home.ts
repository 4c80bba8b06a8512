import type { AnimalPage } from '../../bridge/contract.ts';
import { ladderText as text } from '../texts/en/animal/ladder.ts';
import type { Format } from '../texts/format.ts';

/**
 * The take-home so far or expected, as a sentence for the hunter on the phone; empty without a weight.
 * @example 'Take home so far 30.00 lb, 50.2% of hanging weight; such animals mostly give 51–63%.'
 */
export function takeHomeSentence(
  page: Pick<AnimalPage, 'ladder' | 'expected' | 'takeHomeGrams'>,
  format: Format,
): string {
  if (!page.ladder) return '';
  const { baseGrams, base } = page.ladder;
  const of = base === 'hanging' ? text.ofHanging : text.ofCameIn;
  const usual = page.expected.find(({ part }) => part === 'take-home');
  const mostly = usual ? format.shareRange(usual.low, usual.high) : '';
  if (page.takeHomeGrams > 0) {
    const share = format.share(page.takeHomeGrams / baseGrams);
    return text.soFar(format.mass(page.takeHomeGrams), of(share), mostly);
  }
  if (!usual) return '';
  const expected = format.massRange(usual.low * baseGrams, usual.high * baseGrams, 1);
  return text.expect(expected, of(mostly));
}
