/** All keys of the window. `keys` has their names in code; a test compares the two. */
interface KeyLine {
  shown: string;
  does: string;
  keys: readonly string[];
  /** Frequently used, so listed on the wall card too. */
  wall?: true;
}

export const keyLines: readonly KeyLine[] = [
  { shown: '/  or  Ctrl K', does: 'Find a ticket or a hunter', keys: ['/', 'k'], wall: true },
  {
    shown: '147 Enter',
    does: 'Open ticket 147 of this season, where no field is open; a barcode does the same',
    keys: ['Enter'],
    wall: true,
  },
  { shown: 'Enter', does: 'Save the weight; in a form, on to the next field', keys: ['Enter'], wall: true },
  { shown: 'Ctrl Enter', does: 'Save the form: check in, start the batch', keys: ['Enter'], wall: true },
  {
    shown: 'C T F S B D',
    does: 'At an empty weight: whole cuts, trim, fat, sinew, bone, damage',
    keys: ['C', 'T', 'F', 'S', 'B', 'D'],
    wall: true,
  },
  {
    shown: '0 Enter',
    does: 'At fat, sinew, bone or damage: there is none of it',
    keys: ['Enter'],
  },
  {
    shown: '↑ ↓',
    does: 'At the weight: the part before or after',
    keys: ['ArrowUp', 'ArrowDown'],
  },
  {
    shown: 'Space  or  F2',
    does: 'At an empty weight: take what the scale shows',
    keys: [' ', 'F2'],
  },
  {
    shown: 'Y  N',
    does: 'At a question: yes, save it as typed; no, save nothing and go back. Esc is no',
    keys: ['Y', 'N', 'Escape'],
    wall: true,
  },
  {
    shown: 'M  R  V  L',
    does: 'At a question about a weight: take what was probably meant, replace the earlier one, void it, answer it later',
    keys: ['M', 'R', 'V', 'L'],
  },
  { shown: 'R', does: 'At an empty weight, with all of it packed: ready for pickup', keys: ['R'] },
  {
    shown: 'A letter',
    does: 'At an empty weight on primals: the primal that shows this letter',
    keys: [],
  },
  {
    shown: '← →  or  1 2 3 …',
    does: 'Among choices: move, or pick by number',
    keys: ['1–9'],
  },
  {
    shown: '← ↑ → ↓  Enter',
    does: 'On the drawing of a carcass: walk from primal to primal, and pick one',
    keys: ['ArrowLeft', 'ArrowUp', 'ArrowRight', 'ArrowDown', 'Enter', ' '],
  },
  { shown: '← →', does: 'Among the books: the one before or after', keys: ['ArrowLeft', 'ArrowRight'] },
  {
    shown: 'Ctrl F',
    does: 'In a browser: find on the page; a long list then stands there whole',
    keys: ['f'],
  },
  { shown: 'Ctrl Z', does: 'Undo the last entry', keys: ['z'], wall: true },
  {
    shown: 'Esc',
    does: 'Close a list, a sheet or an explained word; leave the tour',
    keys: ['Escape'],
  },
  {
    shown: 'Alt 1 … 9',
    does: 'The places, from Rail to Shop',
    keys: ['Alt+1–9'],
    wall: true,
  },
  { shown: '?', does: 'Keys and help', keys: ['?'], wall: true },
];

export const helpText = {
  title: 'Keys and help',
  more: 'More to read',
  close: 'Close',
} as const;
