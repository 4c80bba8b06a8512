/**
 * The layers of the house and the rooms of each layer, lowest first. `arrows.config.js` makes rules of them: an import,
 * of a type too, may point to a room that stands before its own and never to one after it.
 */

/** For each folder, the folders that it must not reach. */
export const layers = {
  'src/core': ['src/book', 'src/desk', 'src/demo', 'src/bridge', 'src/ui', 'electron'],
  'src/book': ['src/core', 'src/desk', 'src/demo', 'src/bridge', 'src/ui', 'electron'],
  'src/desk': ['src/demo', 'src/bridge', 'src/ui', 'electron'],
  'src/demo': ['src/bridge', 'src/ui', 'electron'],
  'src/bridge': ['src/core', 'src/book', 'src/demo', 'src/ui', 'electron'],
  'src/ui': ['src/desk', 'src/book', 'src/demo', 'src/bridge/server', 'electron'],
};

/** No room uses the files at the root of its layer. */
export const rooms = {
  'src/core': [
    'values',
    'stats',
    'species',
    'yield',
    'balance',
    'blend',
    'fat',
    'pricing',
    'forecast',
    'cold',
    'scale',
    'sheet',
  ],
  'src/book': ['migrations', 'file', 'changes', 'records', 'sums', 'text'],
  'src/desk': [
    'contract',
    'input',
    'supplied',
    'learning',
    'session',
    'worker',
    'animal',
    'pricing',
    'records',
    'weighing',
    'coolers',
    'shelf',
    'bring',
    'take-out',
    'quotes',
    'costing',
    'shop',
    'files',
    'grinder',
    'bills',
    'animals',
    'season',
  ],
};

/** What of the core the window may use: light and pure, never the solver or the fitting code. */
export const lightCore = [
  'values/units',
  'values/reading',
  'values/money',
  'values/dates',
  'values/csv',
  'values/zone',
  'stats/quantile',
  'scale/line',
  'species/cutting',
];
