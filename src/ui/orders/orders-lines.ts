import type { AlsoGround, FatSourceCard, Instructions, PricedLine } from '../../bridge/contract.ts';
import { text as chargesText } from '../../words/compiled/window/charges.ts';
import { ordersText } from '../texts/en/animal/orders.ts';
import type { Format } from '../texts/format.ts';
import { pattyText } from '../texts/patty.ts';

/** One line of the instructions: the pieces or product, and how it is processed. */
interface OrderLine {
  kind: 'cut' | 'grind' | 'pack';
  head: string;
  text: string;
}

interface Primal {
  code: string;
  name: string;
}

/**
 * Cutting instructions as short lines: pieces with the same instruction together, then ground products (those with an
 * amount first), then packing.
 * @example { kind: 'cut', head: 'Hind leg, Loin', text: 'steaks ¾ in' }
 */
export function ordersLines(
  orders: Instructions,
  primals: readonly Primal[],
  lists:
    { readonly fatSources: readonly FatSourceCard[]; readonly extras: readonly PricedLine[] } | undefined,
  format: Format,
): OrderLine[] {
  const fats = lists?.fatSources ?? [];
  const ground =
    orders.cutsShare === 1 && orders.primals.length === 0 ? [] : grindLines(orders, fats, format);
  return [
    ...(orders.primals.length > 0 ? primalLines(orders, primals) : [shareLine(orders.cutsShare, format)]),
    ...ground,
    { kind: 'pack', head: ordersText.packages, text: format.mass(orders.packageGrams) },
    ...Object.entries(orders.pricedExtras).map(([code, count]) => ({
      kind: 'pack' as const,
      head: '',
      text: chargesText.counted({
        extra: lists?.extras.find((one) => one.code === code)?.label ?? code,
        count,
      }),
    })),
    ...orders.extras.map((extra) => ({ kind: 'pack' as const, head: '', text: extra })),
  ];
}

/** The lines as one sentence. */
export function ordersSummary(lines: readonly OrderLine[]): string {
  return lines.map(({ head, text }) => (head ? `${head}: ${text}` : text)).join(' · ');
}

function shareLine(cutsShare: number, format: Format): OrderLine {
  if (cutsShare === 0) return { kind: 'cut', head: '', text: ordersText.allGround };
  if (cutsShare === 1) return { kind: 'cut', head: '', text: ordersText.allKept };
  return { kind: 'cut', head: format.share(cutsShare, 0), text: ordersText.partKept };
}

function primalLines({ primals: orders }: Instructions, primals: readonly Primal[]): OrderLine[] {
  const groups = new Map<string, string[]>();
  for (const { primal, as, size } of orders.toSorted(
    (a, b) => Number(a.as === 'grind') - Number(b.as === 'grind'),
  )) {
    const text = [ordersText.uses[as].toLowerCase(), size].filter(Boolean).join(' ');
    const name = primals.find(({ code }) => code === primal)?.name ?? primal;
    groups.set(text, [...(groups.get(text) ?? []), name]);
  }
  return [...groups].map(([text, names]) => ({ kind: 'cut', head: names.join(', '), text }));
}

function grindLines(orders: Instructions, fats: readonly FatSourceCard[], format: Format): OrderLine[] {
  const made = madeOf(orders, fats, format);
  return [
    ...orders.alsoGround.map((also) => ({
      kind: 'grind' as const,
      head: also.product,
      text: ordersText.ofTrim(format.mass(also.grams), madeOf(also, fats, format)),
    })),
    {
      kind: 'grind',
      head: orders.grindProduct,
      text: orders.alsoGround.length > 0 ? ordersText.theRest(made) : made,
    },
  ];
}

function madeOf(
  { fat, targetFat, pattyGrams }: Pick<AlsoGround, 'fat' | 'targetFat' | 'pattyGrams'>,
  fats: readonly FatSourceCard[],
  format: Format,
): string {
  const mixed = fatLine(fat, targetFat, fats, format);
  return pattyGrams === null ? mixed : ordersText.pattiesOf(mixed, pattyText(pattyGrams, format));
}

function fatLine(
  fat: AlsoGround['fat'],
  target: AlsoGround['targetFat'],
  fats: readonly FatSourceCard[],
  format: Format,
): string {
  if (fat === 'none') return ordersText.noFatAdded;
  const name = fat === 'own' ? ordersText.ownFat : (fats.find(({ code }) => code === fat)?.name ?? fat);
  return target === null ? ordersText.asSuits(name) : ordersText.toFat(name, format.share(target));
}
