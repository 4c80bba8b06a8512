/**
 * The shop before it opens: letterhead, staff, prices, a lot of back fat, a donation program, and one returning
 * hunter.
 */
import type { CallInput } from '../../../src/bridge/contract.ts';
import { USUAL_INSTRUCTIONS } from '../../../src/desk/animal/instructions.ts';
import { openShop, type ShopWindow } from '../shop-window.ts';
import { FIRST_BATCH, PRICES, TAX } from './figures.ts';
import { GUESTS, type Who } from './people.ts';

export interface Day extends ShopWindow {
  /** The animals received so far. */
  tickets: Record<Who, string>;
  ids: Record<Who, number>;
  today: string;
}

type Line = CallInput<'prices.save'>['lines'][number];
const line = (more: Pick<Line, 'code' | 'label' | 'basis'> & Partial<Line>): Line => ({
  amountMinor: null, rate: null, unit: null, species: null, brought: null, fatSource: null, taxRate: TAX, ...more,
}); // prettier-ignore
const LINES = [
  line({ code: 'deer', label: 'Deer: cut and wrap', basis: 'animal', amountMinor: PRICES.deer, species: ['mule-deer'], brought: ['whole', 'skinned'] }),
  line({ code: 'elk', label: 'Elk: cut and wrap', basis: 'hanging', unit: 'lb', amountMinor: PRICES.elkPerLb, species: ['elk'] }),
  line({ code: 'pieces', label: 'Quarters and boned meat', basis: 'hanging', unit: 'lb', amountMinor: PRICES.piecesPerLb, brought: ['quarters', 'boned'] }),
  line({ code: 'skinning', label: 'Skinning', basis: 'animal', amountMinor: PRICES.skinning, brought: ['whole'] }),
  line({ code: 'sausage', label: 'Sausage making', basis: 'product', unit: 'lb', amountMinor: PRICES.sausagePerLb, kinds: ['sausage'] }),
  line({ code: 'fat', label: 'Pork back fat added', basis: 'fat', unit: 'lb', amountMinor: PRICES.backFatPerLb, fatSource: 'pork-back-fat' }),
  line({ code: 'caping', label: 'Caping for a mount', basis: 'extra', amountMinor: PRICES.caping, taxRate: 0 }),
  line({ code: 'deposit', label: 'Deposit', basis: 'deposit', amountMinor: PRICES.deposit, taxRate: 0 }),
]; // prettier-ignore
const EARLIER_DAYS = 20;

export async function openDay(): Promise<Day> {
  const shop = await openShop();
  const { call, page } = shop;
  await call('shop.saveSettings', {
    changes: {
      shopAddress: '12 Creek Road\nLaramie',
      shopPhone: '307-555-0199',
      shopLicense: 'P-1182',
      terms: 'Due at pickup.',
      donationPrograms: [{ name: 'Hunters Share', paysMinor: 150, paysUnit: 'lb' }],
    },
  });
  await call('shop.addStaff', { initials: 'MK', name: 'Mika Koski' });
  await call('prices.save', {
    name: 'Fall prices',
    validFrom: '2020-01-01',
    taxRule: 'per bill',
    lines: LINES,
  });
  await call('fat.receive', { source: 'pork-back-fat', typed: '40.00', costTyped: '1.20', costUnit: 'lb' });
  const { today } = await call('shop.get', {});
  const on = new Date(Date.parse(`${today}T12:00:00Z`) - EARLIER_DAYS * 86_400_000)
    .toISOString()
    .slice(0, 10);
  const { id } = await call('intake.takeIn', {
    hunter: { name: GUESTS.al.name, phone: GUESTS.al.phone }, species: 'mule-deer', sex: 'male', age: 'adult', brought: 'skinned',
    receivedOn: on, weights: [{ stage: 'received', typed: '70' }], confirmed: true,
    instructions: { ...USUAL_INSTRUCTIONS, grindProduct: FIRST_BATCH.product },
  }); // prettier-ignore
  await call('table.weigh', {
    animalId: id,
    stage: 'packed',
    part: 'package',
    product: 'Steaks',
    count: 20,
    typed: '30',
  });
  await call('animals.setStage', { id, stage: 'ready', answer: 'weighed before', confirmed: true });
  await call('pickup.release', { id, to: GUESTS.al.name, on, unpaidBy: 'MK', confirmed: true });
  await page.evaluate(() => {
    const counter = Object.assign(window, { timesPrinted: 0 });
    window.print = () => void (counter.timesPrinted += 1);
  });
  return { ...shop, tickets: {} as Day['tickets'], ids: {} as Day['ids'], today };
}

/** The number of prints. */
export const timesPrinted = ({ page }: Pick<Day, 'page'>): Promise<number> =>
  page.evaluate(() => (window as unknown as { timesPrinted: number }).timesPrinted);
