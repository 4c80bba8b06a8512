/** A shop with prices that are made up for the test, and what a bill says in figures. */
import type { BillView, CallInput, QuoteResult } from '../../../src/bridge/contract.ts';
import { freshDesk, type FreshDesk } from '../fresh-desk.ts';

export type PriceInput = CallInput<'prices.save'>['lines'][number];

/** One price line; what it does not name is left open. */
export function priced(code: string, basis: PriceInput['basis'], more: Partial<PriceInput> = {}): PriceInput {
  return {
    code, basis, label: code, amountMinor: null, rate: null, unit: null, species: null, brought: null, products: [], kinds: [], recipes: [], least: null,
    fatSource: null, taxRate: 0, ...more,
  }; // prettier-ignore
}

export async function pricedShop(
  lines: readonly PriceInput[],
  { unit = 'lb', taxRule = 'per line' }: { unit?: 'lb' | 'kg'; taxRule?: 'per line' | 'per bill' } = {},
): Promise<FreshDesk> {
  const shop = await freshDesk(unit);
  await shop.call('prices.save', { name: 'Prices', validFrom: '2026-08-01', taxRule, lines: [...lines] });
  return shop;
}

/** Grinds trim of one or more animals, with bought fat, and packs all of it. */
export async function grind(
  shop: FreshDesk,
  job: {
    trim: Readonly<Record<number, string>>;
    fat?: { source: string; typed: string };
    product?: string;
    count: number;
    packed: string;
  },
): Promise<void> {
  const { trim, fat, product = 'Ground', count, packed } = job;
  const lot = fat && (await shop.call('fat.receive', { source: fat.source, typed: '60' }));
  const { id: batchId } = await shop.call('grinder.start', {
    animals: Object.keys(trim).map((id) => ({ id: Number(id) })), fat: fat?.source ?? 'none',
    targetFat: fat ? 0.12 : null, product,
  }); // prettier-ignore
  for (const [id, typed] of Object.entries(trim))
    await shop.call('grinder.weighIn', { batchId, animalId: Number(id), part: 'trim', typed });
  if (fat && lot)
    await shop.call('grinder.weighIn', { batchId, fatLotId: lot.id, part: 'fat added', typed: fat.typed });
  await shop.call('grinder.pack', { batchId, product, count, typed: packed });
  await shop.call('grinder.finish', { batchId });
}

/** A bill in cents: each line by its code, and the sums. */
export interface InFigures {
  lines: Record<string, number>;
  tax: number;
  total: number;
}

export async function draftOf(
  shop: FreshDesk,
  animalId: number,
  beside: { minutes?: Readonly<Record<string, number>>; extras?: Record<string, number> } = {},
): Promise<InFigures> {
  if (beside.extras) await shop.call('bills.setExtras', { animalId, pricedExtras: beside.extras });
  for (const [lineCode, minutes] of Object.entries(beside.minutes ?? {}))
    await shop.call('bills.addHours', { animalId, lineCode, minutes });
  return figures((await shop.call('bills.get', { animalId })).draft);
}

export function figures(sums: BillView['draft'] | BillView['bill']): InFigures {
  if (!sums) throw new Error('no sums');
  return {
    lines: Object.fromEntries(sums.lines.map(({ code, amountMinor }) => [code, amountMinor])),
    tax: sums.taxMinor,
    total: sums.totalMinor,
  };
}

/** What a quote holds most likely, in cents. */
export function quotedFigures({ price }: QuoteResult): InFigures {
  if (!price) throw new Error('no price');
  const lines = Object.fromEntries(price.lines.map(({ code, mean }) => [code, mean]));
  const { tax = 0, ...rest } = lines;
  return { lines: rest, tax, total: price.mean };
}
