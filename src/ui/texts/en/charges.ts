/** Texts of extras, hours, and adjustments of bills and quotes. */
export const chargesText = {
  extras: 'Extras',
  extrasNone: 'No extras in the price book. Add lines charged “extra, each” under Books, Prices.',
  less: (extra: string) => `One less of ${extra}`,
  more: (extra: string) => `One more of ${extra}`,
  each: (price: string) => `${price} each`,
  /** @example counted('Caping', 2) // '2 × Caping' */
  counted: (extra: string, count: number) => (count === 1 ? extra : `${count} × ${extra}`),

  hours: 'Hours',
  work: 'Work',
  time: 'Time',
  timeTyped: 'Time, 1:30 or 90 min',
  timeProblem: 'Type a time, for example 1:30, 1.5 or 90 min.',
  addHours: 'Add hours',
  hoursAdded: (time: string, work: string) => `${time} of ${work.toLowerCase()} added.`,
  /** @example timeOf(90) // '1 h 30 min' */
  timeOf: (minutes: number) =>
    [minutes >= 60 ? `${Math.floor(minutes / 60)} h` : '', minutes % 60 > 0 ? `${minutes % 60} min` : '']
      .filter(Boolean)
      .join(' '),
  undone: 'undone',
  remove: 'Remove',
  removeOf: (what: string) => `Remove ${what}`,
  void: 'Void',
  voidOf: (what: string) => `Void ${what}`,
  voided: 'Voided.',
  voidedWhy: (why: string) => `Voided: ${why}`,

  adjustments: 'Discounts and changes',
  adjust: 'Add a discount or change',
  kind: 'What',
  kinds: {
    'amount off': 'Amount off',
    'percent off': 'Percent off',
    'free line': 'Free line',
    'other price': 'Other price',
  },
  label: 'Words on the bill',
  amount: 'Amount',
  rate: 'Percent',
  tax: 'Tax, percent',
  line: 'Line',
  newPrice: 'New price',
  newPricePer: (unit: string) => `New price per ${unit}`,
  reason: 'Reason',
  reasonHint: 'A discount prints its reason.',
  add: 'Add',
  cancel: 'Cancel',
  added: 'Added.',
  wrong: {
    label: 'Say what it is for.',
    amount: 'Type an amount of money above zero, for example 15.00.',
    price: 'Type a price, for example 0.95.',
    rate: 'Type a percentage above 0, up to 100.',
    tax: 'Type a percentage from 0 to 50, or leave it empty.',
    line: 'Pick a line.',
    reason: 'Type a reason.',
  },
  says: {
    'amount off': (amount: string) => `${amount} off`,
    'percent off': (share: string) => `${share} off`,
    'free line': (label: string, amount: string) => `${label}: ${amount}`,
    'other price': (line: string, price: string) => `${line}: ${price}`,
    'charge as': (product: string, line: string) => `${product} charged as ${line}`,
  },
  fromQuote: (quote: string) => `from quote ${quote}`,

  unpriced: {
    product: (name: string) => `No price for ${name}.`,
    extra: (name: string) => `No price for the extra “${name}”.`,
    hours: (name: string) => `No price for hours of “${name}”.`,
  },
  chargeAs: 'Charge it as:',
  chargeAsReason: 'No line for it',
  noLineToChargeAs: 'Add it to a line of the price book.',
  toPrices: 'Open prices',
};
