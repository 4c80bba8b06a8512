import type { SettingReplaced } from '../../bridge/contract.ts';
import { text } from '../../words/compiled/window/shop.ts';

type Setting = SettingReplaced['setting'];

/** Settings whose name is the caption of their field under another name. */
const CAPTIONS = {
  shopName: 'name',
  unit: 'unit',
  step: 'step',
  smallStep: 'smallStep',
  currency: 'currency',
  locale: 'locale',
  dayOrder: 'dayOrder',
  clock: 'clock',
  zone: 'zone',
  shopAddress: 'address',
  shopPhone: 'phone',
  shopLicense: 'license',
  shopTaxNumber: 'taxNumber',
  terms: 'terms',
  dropOffTerms: 'dropOffTerms',
  paymentMethods: 'paymentMethods',
  seasonStartsMonth: 'seasonStarts',
  hangingReadyDays: 'ready',
  hangingLimitDays: 'limit',
  coolerLimitC: 'cooler',
  quoteValidDays: 'quoteDays',
  pickupLimitDays: 'pickupDays',
  pickupMessage: 'pickupMessage',
  detailEvery: 'detailEvery',
  secondBackupFolder: 'folder',
  theme: 'theme',
} as const satisfies Partial<Record<Setting, keyof typeof text>>;

function nameOf(setting: Setting): string {
  if (setting in CAPTIONS) return text[CAPTIONS[setting as keyof typeof CAPTIONS]];
  return text.names[(setting === 'recordSet' ? 'recordFields' : setting) as keyof typeof text.names];
}

/** A stored setting that cannot be used, and what is used instead. */
export function replacedText({ setting, kept, used }: SettingReplaced): string {
  return setting === 'zone'
    ? text.replacedZone({ kept, used })
    : text.replaced({ kept, used, name: nameOf(setting) });
}
