import type { text } from '../../words/compiled/window/keys.ts';

/** A line of the list of keys. What is shown stands in the words under `code`; what it does is fetched, as `key.CODE`. */
interface KeyLine {
  code: keyof typeof text.shown;
  /** Names in code; a test compares them with the keys that the window handles. */
  keys: readonly string[];
  /** Frequently used, so listed on the wall card too. */
  wall?: true;
}

/** All keys of the window. */
export const keyLines: readonly KeyLine[] = [
  { code: 'find', keys: ['/', 'k'], wall: true },
  { code: 'ticket', keys: ['Enter'], wall: true },
  { code: 'enter', keys: ['Enter'], wall: true },
  { code: 'saveForm', keys: ['Enter'], wall: true },
  { code: 'parts', keys: ['C', 'T', 'F', 'S', 'B', 'D'], wall: true },
  { code: 'none', keys: ['Enter'] },
  { code: 'upDown', keys: ['ArrowUp', 'ArrowDown'] },
  { code: 'scale', keys: [' ', 'F2'] },
  { code: 'question', keys: ['Y', 'N', 'Escape'], wall: true },
  { code: 'weightQuestion', keys: ['M', 'R', 'V', 'L'] },
  { code: 'ready', keys: ['R'] },
  { code: 'checkIns', keys: ['F4'] },
  { code: 'primal', keys: [] },
  { code: 'choices', keys: ['1–9'] },
  { code: 'carcass', keys: ['ArrowLeft', 'ArrowUp', 'ArrowRight', 'ArrowDown', 'Enter', ' '] },
  { code: 'books', keys: ['ArrowLeft', 'ArrowRight'] },
  { code: 'findOnPage', keys: ['f'] },
  { code: 'undo', keys: ['z'], wall: true },
  { code: 'escape', keys: ['Escape'] },
  { code: 'places', keys: ['Alt+0–9'], wall: true },
  { code: 'help', keys: ['?'], wall: true },
  { code: 'handbook', keys: ['F1'], wall: true },
];
