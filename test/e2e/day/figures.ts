/**
 * Every figure of the day, computed by hand from the prices below and the weights of `people.ts`. Money is in cents.
 * Each amount is rounded half up to a cent; the tax of a bill is 6 % of the sum of its taxed lines, rounded once.
 */

/** Prices in cents per animal, pound or piece. All but caping are taxed. */
export const PRICES = {
  deer: 11_000,
  skinning: 3000,
  elkPerLb: 110,
  piecesPerLb: 95,
  sausagePerLb: 325,
  backFatPerLb: 225,
  caping: 5000,
  deposit: 5000,
} as const;
export const TAX = 0.06;

/**
 * The first batch: summer sausage, no fat. Trim 18.00 + 12.00 + 10.00 + 20.00 + 15.00 = 75.00 lb; 72 packages of 72.00 lb,
 * so each pound put in makes 0.96 lb: 17.28, 11.52, 9.60, 19.20, 14.40. Packages 17 + 11 + 9 + 19 + 14 = 70; the two left
 * go to the largest rests, .60 of Cal and .52 of Al.
 */
export const FIRST_BATCH = {
  product: 'Summer sausage',
  packages: 72,
  packed: '72.00',
  trims: { bea: '18.00', al: '12.00', cal: '10.00', dee: '20.00', flo: '15.00' },
  shares: ['17', '12', '10', '19', '14'],
} as const;

/**
 * The second batch: bratwurst at 25 % fat. Trim 30.00 + 20.00 + 13.70 = 63.70 lb of 7.13 % fat; back fat has 88.69 %.
 * 63.70 × (25 − 7.13) / (88.69 − 25) = 63.70 × 17.87 / 63.69 = 17.873 lb of back fat, on a scale of twentieths 17.85.
 * 78 packages of 78.00 lb: 36.73, 24.49 and 16.78; whole ones 36 + 24 + 16 = 76, the two left go to .78 of Max and .73 of Kay.
 */
export const SECOND_BATCH = {
  product: 'Bratwurst',
  target: '25',
  fat: '17.85',
  packages: 78,
  packed: '78.00',
  trims: { kay: '30.00', lou: '20.00', max: '13.70' },
  shares: ['37', '24', '17'],
} as const;

/** Bills, in the order in which they are made. */
export const BILLS = {
  // 110.00 + 11.52 lb × 3.25 = 37.44: 147.44; tax 8.8464 → 8.85.
  al: { net: 14_744, tax: 885, total: 15_629 },
  // 110.00 + skinning 30.00 + 14.40 lb × 3.25 = 46.80: 186.80; tax 11.208 → 11.21.
  flo: { net: 18_680, tax: 1121, total: 19_801 },
  // 300 lb × 1.10 = 330.00; tax 19.80.
  eli: { net: 33_000, tax: 1980, total: 34_980 },
  // 24.6 lb × 0.95 = 23.37; tax 1.4022 → 1.40.
  hal: { net: 2337, tax: 140, total: 2477 },
  // 11.3 lb × 0.95 = 10.735 → 10.74; tax 0.6444 → 0.64.
  ida: { net: 1074, tax: 64, total: 1138 },
  // 110.00 + 30.00 + 30/63.70 of 78 lb = 36.73469 lb × 3.25 = 119.3878 → 119.39, and of the fat 8.40659 lb × 2.25 =
  // 18.9148 → 18.91: 278.30 taxed, + caping 50.00 = 328.30. A tenth off is 32.83, of it 27.83 of what is taxed:
  // tax 250.47 × 6 % = 15.0282 → 15.03. Net 328.30 − 32.83.
  kay: { net: 29_547, tax: 1503, total: 31_050 },
  // 110.00 + 24.48980 lb × 3.25 = 79.5918 → 79.59 + 5.60440 lb × 2.25 = 12.6099 → 12.61: 202.20; tax 12.132 → 12.13.
  lou: { net: 20_220, tax: 1213, total: 21_433 },
  // 110.00 + 16.77551 lb × 3.25 = 54.5204 → 54.52 + 3.83901 lb × 2.25 = 8.6378 → 8.64: 173.16; tax 10.3896 → 10.39.
  max: { net: 17_316, tax: 1039, total: 18_355 },
} as const;

/** 60 and 40 % of 198.01: 118.806 and 79.204; the cent that is left goes to the larger rest. */
export const PAIR = { flo: 11_881, gus: 7920 } as const;

/** Payments in cents. */
export const PAID = {
  // Deposits at drop-off.
  alDeposit: 5000,
  beaDeposit: 5000,
  calDeposit: 5000,
  eliDeposit: 5000,
  kayDeposit: 5000,
  maxDeposit: 20_000,
  // 156.29 − 50.00.
  al: 10_629,
  flo: PAIR.flo,
  // 349.80 − 50.00 = 299.80, in two payments.
  eliCash: 10_000,
  eliCard: 19_980,
  hal: 2477,
  ida: 1138,
  // 310.50 − 50.00.
  kay: 26_050,
  // Of 214.33; 154.33 stays open.
  lou: 6000,
  // 183.55 − 200.00.
  maxRefund: -1645,
} as const;

/** Totals by method, in the till and in the accountant's journal. */
export const TILL = {
  float: 15_000,
  // Deposits of Al, Cal, Kay 150.00; Al 106.29, Eli 100.00, Hal 24.77, Lou 60.00; refund − 16.45.
  cash: 42_461,
  // Deposits of Bea 50.00, Eli 50.00, Max 200.00; Flo 118.81, Kay 260.50.
  check: 67_931,
  // Eli 199.80, Ida 11.38.
  card: 21_118,
  // 424.61 + 679.31 + 211.18.
  total: 131_510,
  // 150.00 + 424.61.
  expected: 57_461,
  // 5 × 100 + 3 × 20 + 1 × 10 + 4 × 1 + 2 × 0.25.
  counted: 57_450,
  short: 11,
} as const;
export const DRAWER = { '$100.00': 5, '$20.00': 3, '$10.00': 1, '$1.00': 4, '$0.25': 2 } as const;

/** Open balances in the evening: 214.33 − 60.00, and Gus's share, which is on hold. */
export const OPEN = { lou: 15_433, gus: PAIR.gus, total: 23_353 } as const;

/** All bills: 147.44 + 186.80 + 330.00 + 23.37 + 10.74 + 295.47 + 202.20 + 173.16, and their taxes. */
export const BILLED = { net: 136_918, tax: 7945 } as const;

/** @example dollars(15_629) // '$156.29' */
export const dollars = (cents: number): string =>
  `${cents < 0 ? '-' : ''}$${Math.floor(Math.abs(cents) / 100)}.${String(Math.abs(cents) % 100).padStart(2, '0')}`;
/** The same as typed. */
export const typed = (cents: number): string => dollars(Math.abs(cents)).slice(1);
