/** Texts of the wall card: the whole job on one page, legible from two steps away. */
export const cardText = {
  title: 'Quick card',
  hint: 'The job, the keys and the cautions on one page for the wall. Fits A4 and Letter.',
  open: 'Open the quick card',
  print: 'Print',
  job: 'The job',
  steps: [
    ['Check in', 'Intake: hunter, species, weight. Write the ticket on the tag.'],
    ['Hang', 'In the cooler. Read its thermometer on the Rail.'],
    ['Weigh', 'Table: the hanging weight before the first cut.'],
    ['Cut', 'Trim, bone, fat, sinew, damage: each on the scale as it comes off, 0 for none.'],
    [
      'Grind',
      'Grinder: ask for the fat, weigh in what it says. Clean it after an animal on hold, and record that.',
    ],
    ['Pack', 'Weigh the packages, print the labels.'],
    ['Bill', 'Pickup: make the bill, take the payment.'],
    ['Hand over', 'Never on hold, never ground with one on hold. Write who took it; say how to cook it.'],
  ],
  weights: 'How a weight may be typed',
  bare: { lb: 'A bare number is pounds.', kg: 'A bare number is kilograms.' },
  samples: {
    lb: ['18.62', '18 1/2', '18 lb 6 oz', '12 oz', '8.4 kg'],
    kg: ['8.45', '8,45', '8450 g', '18 lb 6 oz', '12 oz'],
  },
  wrong: 'Wrong? Weigh it again: the old one stays in the book, struck through. Nothing is lost.',
  keys: 'Keys',
  safety: 'Safety',
  first: 'Local rules come first. Ask your health department and your wildlife agency.',
} as const;
