import type { ShopSettings } from '../../bridge/contract.ts';

/** Settings whose groups read them by themselves: letterhead, money, pickup, record book, belongings. */
const ELSEWHERE = [
  'recordSet', 'recordFields', 'retentionYears', 'lateDays', 'shopAddress', 'shopPhone', 'shopLicense', 'shopTaxNumber',
  'currency', 'quoteValidDays', 'pickupLimitDays', 'pickupMessage', 'terms', 'dropOffTerms', 'dropOffTermsIn', 'paymentMethods', 'belongingKinds', 'unclaimedFirstDays', 'unclaimedSecondDays',
  'unclaimedLastDays', 'donationPrograms',
] as const; // prettier-ignore
type SettingElsewhere = (typeof ELSEWHERE)[number];

/** Settings as text fields. */
interface TypedSettings extends Omit<
  ShopSettings,
  'hangingReadyDays' | 'hangingLimitDays' | 'coolerLimitC' | 'detailEvery' | SettingElsewhere
> {
  readyDays: string;
  limitDays: string;
  /** In the shop's scale: °F with pounds, °C with kilograms. */
  cooler: string;
  /** Weighs every nth animal in detail. */
  detailEvery: string;
}

export type WrongSettings = Partial<Record<'readyDays' | 'limitDays' | 'cooler' | 'detailEvery', true>>;

/** Stored settings as editable text. */
export function typeSettings(stored: ShopSettings): TypedSettings {
  const { hangingReadyDays, hangingLimitDays, coolerLimitC, detailEvery, ...rest } = stored;
  const shown = Object.entries(rest).filter(([key]) => !ELSEWHERE.some((one) => one === key));
  return {
    ...(Object.fromEntries(shown) as Omit<typeof rest, SettingElsewhere>),
    readyDays: String(hangingReadyDays),
    limitDays: String(hangingLimitDays),
    cooler: stored.unit === 'lb' ? String(Math.round((coolerLimitC * 9) / 5 + 32)) : String(coolerLimitC),
    detailEvery: String(detailEvery),
  };
}

/**
 * Parses the fields into the changed settings. `wrong` marks invalid numbers; nothing is changed while there is one.
 * A temperature whose text is unchanged keeps its stored precision.
 */
export function changesOf(
  typed: TypedSettings,
  stored: ShopSettings,
  unread: readonly string[] = [],
): { changes: Partial<ShopSettings>; wrong: WrongSettings } {
  const before = typeSettings(stored);
  const { readyDays, limitDays, cooler, detailEvery, ...rest } = typed;
  const numbers = {
    hangingReadyDays: wholeNumber(readyDays),
    hangingLimitDays: wholeNumber(limitDays),
    detailEvery: wholeNumber(detailEvery),
    coolerLimitC: cooler === before.cooler ? stored.coolerLimitC : celsius(cooler, stored.unit),
  };
  const wrong: WrongSettings = {
    ...(numbers.hangingReadyDays === null && { readyDays: true }),
    ...(numbers.hangingLimitDays === null && { limitDays: true }),
    ...(!numbers.detailEvery && { detailEvery: true }),
    ...(numbers.coolerLimitC === null && { cooler: true }),
  };
  if (Object.keys(wrong).length > 0) return { changes: {}, wrong };
  const next = { ...rest, ...numbers };
  const changed = Object.entries(next).filter(
    ([key, value]) => unread.includes(key) || stored[key as keyof ShopSettings] !== value,
  );
  return { changes: Object.fromEntries(changed) as Partial<ShopSettings>, wrong };
}

/** Days and counts of up to three digits; null for anything else. */
export function wholeNumber(text: string): number | null {
  return /^\s*\d{1,3}\s*$/.test(text) ? Number(text) : null;
}

/** To a tenth of a degree, the precision of a cooler's thermometer. */
function celsius(text: string, unit: 'lb' | 'kg'): number | null {
  if (!/^\s*[-−]?\d{1,2}(?:[.,]\d)?\s*$/.test(text)) return null;
  const degrees = Number(text.trim().replace(',', '.').replace('−', '-'));
  return Math.round((unit === 'lb' ? ((degrees - 32) * 5) / 9 : degrees) * 10) / 10;
}
