import { plural } from '../plural.ts';

/** Texts of labels and tags, and of the pages that print them. Amounts and dates are already formatted. */
export const labelText = {
  net: (shop: string, other: string) => `NET WT ${shop} (${other})`,
  /** For packages weighed together: each shows its share of the total. */
  average: (count: number) => `on average: ${count} were weighed together`,
  forHunter: (hunter: string) => `For ${hunter}`,
  packed: (day: string) => `Packed ${day}`,
  batch: (name: string) => `Batch ${name}`,
  ingredients: (weighed: readonly string[], also: string) =>
    `Ingredients: ${weighed.join(', ')}${also ? `. Also in it: ${also}` : ''}.`,
  fatOf: (species: string) => `${species} fat`,
  ofAnimal: (name: string, animal: string) => `${name} (${animal})`,
  cook: (f: number, c: number) => `Cook to ${f}°F (${c}°C) in the middle.`,
  /** Our own wording: the statement on the federal label implies an inspection that hunters' game never had. */
  frozen: 'KEEP FROZEN',
  /** Cooked or dried by the shop: its shelf life depends on the process. */
  asShopSays: 'Ask the shop how to keep and serve it.',
  care: 'Thaw it in a dish in the refrigerator. Trust a thermometer, not the color. Hot water and soap for all that it touched raw.',

  came: 'Came in',
  brought: 'Brought',
  tag: 'Tag',
  licence: 'License',
  killed: 'Killed',
  promised: 'Promised',
  hangsIn: 'Hangs in',
  hold: 'HOLD',
  holdWhy: (reason: string, sample: string) =>
    `${reason}${sample ? ` ${sample}` : ''}. Keep apart, do not hand over.`,

  size: 'Label',
  sizes: {
    '4x3': '4 × 3 in',
    '4x2': '4 × 2 in',
    'roll-62': '62 mm roll',
    letter: 'Letter sheet',
    a4: 'A4 sheet',
    '4x6': '4 × 6 in',
    band: 'Wrist band',
  },
  sizeNotes: {
    '4x3': 'one a page',
    '4x2': 'one a page',
    'roll-62': 'cut at 100 mm',
    letter: '10 labels, 4 × 2 in',
    a4: '10 labels, 99 × 56 mm',
    '4x6': 'tied or stapled',
    band: '25 × 250 mm',
  },
  whose: 'Whose',
  everybody: 'Everybody’s',
  used: 'Places already used on the first sheet',
  usedProblem: 'Type how many of the 10 are gone, 0 to 9.',
  also: (product: string) => `Also in ${product}`,
  alsoHint:
    'Spices, cheese, milk powder, mustard, soy: whatever was not weighed in goes on the label as well. It is kept with the product.',
  copies: 'Labels',
  copiesOf: (what: string) => `Labels of ${what}`,
  copiesProblem: 'Type a whole number, 0 to 200.',
  product: 'Product',
  hunter: 'Hunter',
  weight: 'A package weighs',
  batchTitle: (name: string) => `Labels for batch ${name}`,
  animalTitle: (ticket: string) => `Labels for ${ticket}`,
  tagTitle: (ticket: string) => `Carcass tag of ${ticket}`,
  tagCopies: 'Tags',
  tagCopiesHint: 'One for each piece that hangs.',
  fetching: 'Fetching what goes on it …',
  nothing: 'Nothing is packed yet',
  nothingHow: 'Labels are made from the weights of packages: weigh those first.',
  printLabels: 'Print labels',
  printTag: 'Print the carcass tag',
  print: (labels: number, pages: number) =>
    labels === pages
      ? `Print ${plural(labels, 'label', 'labels')}`
      : `Print ${plural(labels, 'label', 'labels')} on ${plural(pages, 'sheet', 'sheets')}`,
  printTags: (tags: number) => `Print ${plural(tags, 'tag', 'tags')}`,
  printHint: 'Shown as large as printed. In the print dialog: paper of this size, scale 100%, no margins.',
  tooMuch: 'This does not fit on the label. Pick a larger one, or shorten the text.',
  preview: 'What is printed',
  /** Below a label that is printed this often. */
  times: (n: number) => `× ${n}`,
};
