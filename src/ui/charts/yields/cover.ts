/** Text about the number of correct quotes. */
import type { QuoteCoverage } from '../../../bridge/contract.ts';
import { text } from '../../../words/compiled/window/season/check.ts';
import type { Format } from '../../texts/format.ts';

export type Cover = QuoteCoverage & { name: string; link: string | null };

/** Whether the number of correct quotes is consistent with valid ranges. */
export function isHonest({ held, honest }: QuoteCoverage): boolean {
  return honest.low <= held && held <= honest.high;
}

/** The bias of the observed values relative to the quotes. */
export function biasWords({ bias }: QuoteCoverage, format: Format): string {
  const share = format.share(Math.abs(bias ?? 0), 0);
  if (bias === null || share === format.share(0, 0)) return text.asQuoted;
  return bias < 0 ? text.lighter({ share }) : text.heavier({ share });
}
