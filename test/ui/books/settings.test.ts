import { describe, expect, it } from 'vitest';
import type { PriceLineRow, ShopSettings } from '../../../src/desk/contract/contract.ts';
import { emptyLine, readLine, typeLine } from '../../../src/ui/books/price-line.ts';
import { placeRange } from '../../../src/ui/quote/range-bar.ts';
import { ageOf, isOld } from '../../../src/ui/backup/age.ts';
import { changesOf, typeSettings } from '../../../src/ui/shop/settings-form.ts';

const stored: ShopSettings = {
  shopName: 'Cold Creek', unit: 'lb', step: 0.02, smallStep: 1, currency: 'USD', locale: 'en-US', dayOrder: 'locale', clock: 'locale', zone: 'UTC',
  seasonStartsMonth: 7, hangingReadyDays: 4, hangingLimitDays: 7, coolerLimitC: 4.4, quoteValidDays: 30, pickupLimitDays: 14, pickupMessage: '', belongingKinds: [], unclaimedFirstDays: 14, unclaimedSecondDays: 30, unclaimedLastDays: 60, donationPrograms: [], detailEvery: 10, cutWhileHeld: false,
  recordSet: 'general', recordFields: ['tag'], retentionYears: 3, lateDays: 1, secondBackupFolder: '', theme: 'system',
  shopAddress: '', shopPhone: '', shopLicense: '', shopTaxNumber: '', terms: '', dropOffTerms: '', dropOffTermsIn: {}, paymentMethods: ['cash', 'card'],
}; // prettier-ignore

describe('settings as text fields', () => {
  it('are unchanged without edits, although 4.4°C is displayed as 40°F', () => {
    expect(typeSettings(stored).cooler).toBe('40');
    expect(changesOf(typeSettings(stored), stored)).toEqual({ changes: {}, wrong: {} });
  });

  it('save only the changed ones', () => {
    const typed = { ...typeSettings(stored), cooler: '38', limitDays: '8', theme: 'dark' as const };
    expect(changesOf(typed, stored).changes).toEqual({
      coolerLimitC: 3.3,
      hangingLimitDays: 8,
      theme: 'dark',
    });
  });

  it('save nothing while a number is invalid', () => {
    const { changes, wrong } = changesOf(
      { ...typeSettings(stored), readyDays: 'four', shopName: 'New' },
      stored,
    );
    expect(changes).toEqual({});
    expect(wrong).toEqual({ readyDays: true });
  });
});

describe('the age of a backup', () => {
  const now = new Date('2026-11-25T12:00:00Z');
  it.each([
    ['2026-11-25T11:59:30Z', 'just now'],
    ['2026-11-25T11:15:00Z', '45 minutes ago'],
    ['2026-11-25T09:00:00Z', '3 hours ago'],
    ['2026-11-20T12:00:00Z', '5 days ago'],
    ['2026-11-25T12:05:00Z', 'just now'],
  ])('%s is %s', (at, said) => expect(ageOf(at, now)).toBe(said));

  it('is a warning from two days on', () => {
    expect(isOld('2026-11-23T12:00:01Z', now)).toBe(false);
    expect(isOld('2026-11-23T12:00:00Z', now)).toBe(true);
  });
});

describe('a price line as text fields', () => {
  const row: PriceLineRow = {
    code: 'cut', label: 'Cut and wrap', basis: 'hanging', amountMinor: 110, rate: null, unit: 'lb',
    species: ['elk'], brought: null, products: [], kinds: [], recipes: [], least: 60, fatSource: null, taxRate: 0.065,
  }; // prettier-ignore

  it('round-trips without edits', () => {
    expect(readLine(typeLine(row, 'lb', 'USD'), 'USD', ['cut'])).toEqual({ value: row, wrong: {} });
  });

  it('parses a discount with a minus as a negative rate without an amount', () => {
    const { value } = readLine(
      { ...emptyLine('lb'), label: 'Early bird', basis: 'percent', rate: '-10' },
      'USD',
      [],
    );
    expect(value).toMatchObject({ rate: -0.1, amountMinor: null, code: 'early-bird', unit: null });
  });

  it('has no tax rate for a percentage or a deposit, whatever the hidden field contains', () => {
    for (const basis of ['percent', 'deposit'] as const) {
      const typed = { ...emptyLine('lb'), label: 'Early bird', basis, rate: '10', amount: '50', tax: 'six' };
      expect(readLine(typed, 'USD', []).value?.taxRate).toBe(0);
    }
  });

  it('parses a discount in money', () => {
    const typed = { ...emptyLine('lb'), label: 'Veteran', basis: 'extra', amount: '-10' };
    expect(readLine(typed, 'USD', []).value?.amountMinor).toBe(-1000);
  });

  it('gives a new line a unique code', () => {
    const typed = { ...emptyLine('lb'), label: 'Cut!', amount: '5' };
    expect(readLine(typed, 'USD', ['cut', 'cut-2']).value?.code).toBe('cut-3');
  });

  it.each([
    [{ amount: 'much' }, 'amount'],
    [{ basis: 'hanging', amount: '-5' }, 'amount'],
    [{ label: ' ' }, 'label'],
    [{ tax: '60' }, 'tax'],
    [{ basis: 'product', products: [], kinds: [] }, 'products'],
    [{ basis: 'percent', rate: '' }, 'rate'],
  ])('reports %j at its field', (typed, field) => {
    const read = readLine({ ...emptyLine('lb'), label: 'x', amount: '5', ...typed }, 'USD', []);
    expect(read.value).toBeNull();
    expect(Object.keys(read.wrong)).toEqual([field]);
  });
});

describe('a range on its bar', () => {
  it('keeps the order and the proportions, and leaves room at the high end', () => {
    const at = placeRange({ low: 20, mean: 25, high: 30 });
    expect(at.from).toBe(10);
    for (const [share, of26] of [
      [at.low, 10],
      [at.mean, 15],
      [at.high, 20],
    ] as const)
      expect(share * 26).toBeCloseTo(of26, 9);
    expect(placeRange({ low: 0, mean: 0, high: 0 })).toEqual({ from: 0, low: 0, mean: 0, high: 0 });
  });
});
