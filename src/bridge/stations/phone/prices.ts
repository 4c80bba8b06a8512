/** The shop's price list beside the cuts, as sentences of the phone's page. */
import type { DraftSheet, DraftWay } from '../../../desk/contract/contract.ts';
import { text as english } from '../../../words/compiled/desk/phone.ts';
import type { HunterLanguage } from '../../../words/hunter-language.ts';
import { inLanguage } from '../../../words/of-desk.ts';

type Price = NonNullable<DraftSheet['prices']>['lines'][number];

/** Weights aside, what a price is for. */
const PER = ['animal', 'package', 'hour', 'minimum', 'deposit'] as const;

/** @param way what is charged for this way beyond what every animal of the species is; null: the latter */
export function priceLines(
  { prices }: DraftSheet,
  species: string,
  way: DraftWay | null,
  language: HunterLanguage,
): string[] {
  if (!prices) return [];
  const { per } = inLanguage(english, language);
  const said = ({ title, basis, amountMinor, rate, unit, least }: Price): string => {
    if (amountMinor === null) {
      const share = new Intl.NumberFormat(language, { style: 'percent', maximumFractionDigits: 1 });
      return `${title}: ${per({ price: share.format(rate ?? 0), per: basis === 'deposit' ? 'depositShare' : 'percent', least: null })}`;
    }
    const price = moneyText(amountMinor, prices.currency, language);
    const weight = unit && (basis === 'trim' ? (`trim${unit}` as const) : unit);
    return `${title}: ${per({ price, least: least === null ? null : String(least), per: weight ?? PER.find((one) => one === basis) ?? 'other' })}`;
  };
  return prices.lines
    .filter((line) => line.species === null || line.species.includes(species))
    .filter((line) => (way ? isOf(line, way) : !OF_WAYS.has(line.basis)))
    .map(said);
}

/** What depends on the hunter's choice, or on work that nobody knows yet. */
const OF_WAYS: ReadonlySet<string> = new Set(['product', 'trim', 'fat', 'extra']);

function isOf({ basis, code, fat }: Price, { charges, instructions }: DraftWay): boolean {
  if (basis === 'product' || basis === 'trim') return charges.includes(code);
  const fats: string[] = [instructions.fat, ...instructions.alsoGround.map((one) => one.fat)];
  return basis === 'fat' && fat !== null && fats.includes(fat);
}

function moneyText(minor: number, currency: string, language: HunterLanguage): string {
  const format = new Intl.NumberFormat(language, { style: 'currency', currency });
  return format.format(minor / 10 ** (format.resolvedOptions().maximumFractionDigits ?? 2));
}
