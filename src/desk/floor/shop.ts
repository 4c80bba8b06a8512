import type { PricedLine, ShopSettings, ShopView } from '../contract/contract.ts';

/** Settings by which the floor counts, writes dates and marks what is due; the others are the office's own. */
const BLANK = {
  shopAddress: '', shopPhone: '', shopLicense: '', shopTaxNumber: '', terms: '', dropOffTerms: '', dropOffTermsIn: {}, paymentMethods: ['cash'],
  currency: 'USD', quoteValidDays: 0, pickupMessage: '', unclaimedFirstDays: 0, unclaimedSecondDays: 0, unclaimedLastDays: 0,
  donationPrograms: [], retentionYears: 0, lateDays: 0, secondBackupFolder: '',
} satisfies Partial<ShopSettings>; // prettier-ignore

const unpriced = (line: PricedLine): PricedLine => ({ ...line, unitPriceMinor: 0 });

/** Of `shop.get`: species, products, coolers and cautions, with no price, no path and none of the office's settings. */
export const shopForFloor = (view: ShopView): ShopView => ({
  ...view,
  bookPath: '',
  settings: { ...view.settings, ...BLANK },
  settingsReplaced: [],
  extras: view.extras.map(unpriced),
  hourLines: view.hourLines.map(unpriced),
  lastBackup: null,
});
