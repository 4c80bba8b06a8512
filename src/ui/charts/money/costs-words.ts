/** A service's figures in sentences. */
import type { CostingView, Measured, ServiceAnswer, SpeciesMargin } from '../../../bridge/contract.ts';
import { GRAMS_PER } from '../../../core/values/units.ts';
import { text } from '../../../words/compiled/window/costs.ts';
import type { Format } from '../../texts/format.ts';

/** The fee per finished unit, fat charges included; null if unknown. */
export function feeOf({ fee }: ServiceAnswer): number | null {
  return fee && fee.service + fee.fat;
}

/** Whether bought fat is part of the cost or of the fee. */
export function hasFat({ parts, fee }: Pick<ServiceAnswer, 'parts' | 'fee'>): boolean {
  return parts.fat > 0 || (fee?.fat ?? 0) > 0;
}

/** @example finding(grinding, format) // 'Grinding: the cost is $0.38 a pound and you charge $0.45, which leaves 16%.' */
export function finding(answer: ServiceAnswer, format: Format): string {
  const service = text.service[answer.code];
  const name = hasFat(answer) ? text.withFat({ service }) : service;
  const cost = format.money(answer.cost);
  const fee = feeOf(answer);
  if (fee === null) return text.noFee({ service: name, cost, unit: format.unit });
  if (fee === 0 || answer.margin === null) return text.noPrice({ service: name, cost, unit: format.unit });
  const taken = format.money(fee);
  if (taken === cost) return text.even({ service: name, cost, unit: format.unit });
  return answer.margin < 0
    ? text.lost({ service: name, cost, fee: taken, unit: format.unit, loss: format.money(answer.cost - fee) })
    : text.left({
        service: name,
        cost,
        fee: taken,
        unit: format.unit,
        share: format.share(answer.margin, 0),
      });
}

/** One figure behind the cost, with its origin. */
export function figureSentence(code: ServiceAnswer['code'], measured: Measured, format: Format): string {
  const words = text.figure[code === 'cutting' ? 'cutting' : 'grinding'][measured.figure];
  const from = measured.from > 0 ? text.middle[measured.of]({ n: measured.from }) : text.assumed;
  return `${words({ value: valueOf(measured, format) })} (${from})`;
}

function valueOf({ figure, value }: Measured, format: Format): string {
  if (figure === 'received') return format.mass(value, 0);
  if (figure === 'fatPerKg')
    return text.perUnit({
      money: format.money((value * GRAMS_PER[format.unit]) / 1000),
      unit: format.unit,
    });
  return format.share(value, value < 0.1 ? 1 : 0);
}

/** Margin of a species as a fraction of its income; null without income. */
export function leftShare({ incomeMinor, cost }: SpeciesMargin): number | null {
  return incomeMinor > 0 ? (incomeMinor - cost) / incomeMinor : null;
}

/** The species with the highest and the lowest margin. Empty without income. */
export function speciesFinding(rows: readonly SpeciesMargin[], format: Format): string {
  const known = rows.flatMap((row) => {
    const share = leftShare(row);
    return share === null ? [] : [{ name: row.name, share }];
  });
  known.sort((a, b) => b.share - a.share);
  const [best, worst] = [known[0], known.at(-1)];
  if (!best || !worst) return '';
  const written = (share: number): string => format.share(share, 0);
  return known.length === 1
    ? text.speciesOne({ name: best.name, share: written(best.share) })
    : text.speciesBest({
        best: best.name,
        share: written(best.share),
        worst: worst.name,
        worstShare: written(worst.share),
      });
}

/** Cost of the season's bought fat, compared with the fat charges. */
export function fatFinding(
  { usedGrams, unpricedGrams, cost, chargedMinor }: CostingView['fat'],
  { weighs, mass, money }: Pick<Format, 'weighs' | 'mass' | 'money'>,
): string {
  if (!weighs(usedGrams)) return text.noFat;
  if (usedGrams - unpricedGrams <= 0) return text.fatUnknown({ mass: mass(usedGrams, 0) });
  const used = mass(usedGrams, 0);
  const sentence =
    chargedMinor > 0
      ? text.fatPaid({ mass: used, cost: money(cost), charged: money(chargedMinor) })
      : text.fatFree({ mass: used, cost: money(cost) });
  return weighs(unpricedGrams)
    ? `${sentence} ${text.fatUnpriced({ mass: mass(unpricedGrams, 0) })}`
    : sentence;
}

/** Distance from a range: '$5.00 over', '1.20 lb under', 'within'. */
export function offText(off: number, write: (amount: number) => string): string {
  if (off === 0) return text.within;
  return off > 0 ? text.over({ amount: write(off) }) : text.under({ amount: write(-off) });
}
