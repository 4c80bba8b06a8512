import type { ShopSettings } from '../../bridge/contract.ts';

/** Settings that other cards of the page edit: record book, letterhead, donations and notices. */
const ELSEWHERE = [
  'recordSet', 'recordFields', 'retentionYears', 'lateDays', 'shopAddress', 'shopPhone', 'shopLicense', 'shopTaxNumber',
  'terms', 'dropOffTerms', 'paymentMethods', 'belongingKinds', 'unclaimedFirstDays', 'unclaimedSecondDays',
  'unclaimedLastDays', 'donationPrograms',
] as const; // prettier-ignore
type SettingElsewhere = (typeof ELSEWHERE)[number];

/** Settings as text fields. */
interface TypedSettings extends Omit<
  ShopSettings,
  | 'hangingReadyDays'
  | 'hangingLimitDays'
  | 'coolerLimitC'
  | 'quoteValidDays'
  | 'pickupLimitDays'
  | 'detailEvery'
  | SettingElsewhere
> {
  readyDays: string;
  limitDays: string;
  /** In the shop's scale: °F with pounds, °C with kilograms. */
  cooler: string;
  quoteDays: string;
  pickupDays: string;
  /** Weighs every nth animal in detail. */
  detailEvery: string;
}

export type WrongSettings = Partial<
  Record<'readyDays' | 'limitDays' | 'cooler' | 'quoteDays' | 'pickupDays' | 'detailEvery', true>
>;

/** Stored settings as editable text. */
export function typeSettings(stored: ShopSettings): TypedSettings {
  const {
    hangingReadyDays,
    hangingLimitDays,
    coolerLimitC,
    quoteValidDays,
    pickupLimitDays,
    detailEvery,
    ...rest
  } = stored;
  const shown = Object.entries(rest).filter(([key]) => !ELSEWHERE.some((one) => one === key));
  return {
    ...(Object.fromEntries(shown) as Omit<typeof rest, SettingElsewhere>),
    readyDays: String(hangingReadyDays),
    limitDays: String(hangingLimitDays),
    cooler: stored.unit === 'lb' ? String(Math.round((coolerLimitC * 9) / 5 + 32)) : String(coolerLimitC),
    quoteDays: String(quoteValidDays),
    pickupDays: String(pickupLimitDays),
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
  const { readyDays, limitDays, cooler, quoteDays, pickupDays, detailEvery, ...rest } = typed;
  const numbers = {
    hangingReadyDays: wholeNumber(readyDays),
    hangingLimitDays: wholeNumber(limitDays),
    quoteValidDays: wholeNumber(quoteDays),
    pickupLimitDays: wholeNumber(pickupDays),
    detailEvery: wholeNumber(detailEvery),
    coolerLimitC: cooler === before.cooler ? stored.coolerLimitC : celsius(cooler, stored.unit),
  };
  const wrong: WrongSettings = {
    ...(numbers.hangingReadyDays === null && { readyDays: true }),
    ...(numbers.hangingLimitDays === null && { limitDays: true }),
    ...(numbers.quoteValidDays === null && { quoteDays: true }),
    ...(!numbers.pickupLimitDays && { pickupDays: true }),
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

function wholeNumber(text: string): number | null {
  return /^\s*\d{1,3}\s*$/.test(text) ? Number(text) : null;
}

/** To a tenth of a degree, the precision of a cooler's thermometer. */
function celsius(text: string, unit: 'lb' | 'kg'): number | null {
  if (!/^\s*[-−]?\d{1,2}(?:[.,]\d)?\s*$/.test(text)) return null;
  const degrees = Number(text.trim().replace(',', '.').replace('−', '-'));
  return Math.round((unit === 'lb' ? ((degrees - 32) * 5) / 9 : degrees) * 10) / 10;
}
