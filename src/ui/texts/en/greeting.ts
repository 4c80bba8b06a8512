/** Texts of the first start, and of the setup that a new book lacks. */
export const greetingText = {
  purpose: 'From the hook to the package: every weight in one book, on this computer, and nowhere else.',
  fivePlaces: 'The five places that matter most',
  places: [
    { name: 'Rail', says: 'What do I cut next?' },
    { name: 'Table', says: 'Do the weights add up?' },
    { name: 'Grinder', says: 'How much fat goes in?' },
    { name: 'Quote', says: 'How much meat, and what does it cost?' },
    { name: 'Season', says: 'What did the season give?' },
  ],
  own: 'Your own book',
  ownHow: 'Three answers and the first animal can come in. Prices, coolers and who works here can wait.',
  begin: 'Start an empty book',
  name: 'Name of the shop',
  nameHint: 'It heads bills, labels and the record book.',
  scale: 'The scale shows',
  pounds: 'Pounds',
  kilos: 'Kilograms',
  currency: 'Money is counted in',
  later: 'All three can be changed later, in Shop.',
  open: 'Open the book',
  looking: 'Look around first',
  lookingHow:
    'A made-up shop in the middle of its season: animals on the rail, batches in the grinder, last year’s figures. A short tour shows the five places that matter. Nothing there is kept, and your own book waits.',
  demo: 'Look around in the demo',
} as const;

/** Setup to complete before the first animal leaves, on the Rail of a new book. */
export const firstText = {
  title: 'When there is a minute',
  hint: 'None of it keeps the first animal waiting.',
  prices: 'Put in your own prices',
  pricesHow: 'Those in the book are made up, so that quotes can be tried.',
  staff: 'Write in who works here',
  staffHow: 'Their initials stand beside every weight.',
  coolers: 'Write in your coolers',
  coolersHow: 'Then the Rail tells what hangs where and how cold it is.',
  card: 'Hang up the quick card',
  cardHow: 'The job, the keys and the cautions on one page.',
} as const;

/** Empty states, with the step that adds something. */
export const beginText = {
  takeIn: 'Check in an animal',
  railEmpty: 'The rail is empty',
  railEmptyHow:
    'Everything that hangs stands here, with how long and what is next. Check in the first animal: hunter, species, weight. A ticket comes out, and the hook appears above.',
  nothingHangs: 'Nothing hangs',
  allCut: 'All that came in is cut. New animals start at Intake.',
  tableEmptyHow:
    'Here an animal is weighed part by part. It comes to the table from the rail, and onto the rail at Intake.',
  toTable: 'Open the Table',
  noAnimals: (season: number) => `No animal of the ${season} season is in the book yet.`,
  noAnimalsHow: 'Each animal that comes in has a line here, with what became of every part of it.',
  nothingToReport: 'The report draws itself from weighings: check in an animal and weigh it at the Table.',
  typeWeight: 'Type the weight',
} as const;
