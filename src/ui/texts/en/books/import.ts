import type { ImportField, ImportKind, WordField } from '../../../../bridge/contract.ts';
import { plural } from '../../plural.ts';

const animals = (n: number): string => plural(n, 'animal', 'animals');
const hunters = (n: number): string => plural(n, 'hunter', 'hunters');
const weights = (n: number): string => plural(n, 'weight', 'weights');
const nones = (n: number): string => plural(n, '“none” of a part', '“none” of a part');
/** Weights, and parts that the table states as none. */
const told = ({ weighings, none }: { weighings: number; none: number }): string =>
  [(weighings > 0 || none === 0) && weights(weighings), none > 0 && nones(none)]
    .filter(Boolean)
    .join(' and ');

/** Texts of importing tables and exporting the book. */
export const importText = {
  title: 'Import',
  intro:
    'Import from a spreadsheet: save it there as CSV, and choose that file here. Nothing is saved before you press the big button.',
  what: 'What is in the file',
  kinds: { animals: 'Animals of earlier seasons', hunters: 'Hunters', weighings: 'Weights' } satisfies Record<
    ImportKind,
    string
  >,
  kindNotes: {
    animals: 'one row for each animal',
    hunters: 'one row for each person',
    weighings: 'one row for each weight',
  } satisfies Record<ImportKind, string>,
  choose: 'The file (CSV)',
  reading: 'Reading the file …',
  rows: (name: string, n: number) => `${name}: ${plural(n, 'row', 'rows')}`,
  columns: 'Which column is what',
  columnsHint: 'Picked by the headings. Change what is wrong; it is remembered for the next file.',
  column: (heading: string) => `column “${heading}”`,
  others: (n: number) => `More that a file may tell (${n})`,
  notIn: '— not in the file —',
  sameForAll: 'the same for all rows:',
  always: (field: string) => `${field}, on every row`,
  pick: '— pick —',
  layout: 'How the file is written',
  separator: 'Between columns',
  separators: { ',': 'Comma', ';': 'Semicolon', '\t': 'Tab' },
  headingRow: 'Row of the headings',
  noHeadings: 'none',
  decimal: 'Decimal mark',
  decimals: { '.': 'Point: 84.6', ',': 'Comma: 84,6' },
  dates: 'Dates',
  dateOrders: { 'month first': 'Month first: 11/4/2023', 'day first': 'Day first: 4/11/2023' },
  unit: 'Weights without a unit',
  encoding: 'Letters',
  encodings: {
    'utf-8': 'UTF-8',
    'utf-16le': 'UTF-16',
    'utf-16be': 'UTF-16 (reversed)',
    'windows-1252': 'Windows',
  },
  unknown: 'Words that need a meaning',
  unknownHint: 'The file uses these words. Say once what each stands for.',
  means: (word: string, rows: number) => `“${word}” (${plural(rows, 'row', 'rows')}) means`,
  first: 'The first rows, as they will be read',
  row: 'Row',
  problems: (n: number) => `${plural(n, 'problem', 'problems')} to fix first`,
  doubts: (n: number) => `${plural(n, 'weight', 'weights')} to look at`,
  onlyFirst: (n: number) => `The first ${n} are listed.`,
  fixInFile: 'Fix them in your spreadsheet, save it, and choose the file again; or change the columns above.',
  field: 'Where',
  problem: 'What is wrong, and how to fix it',
  fine: 'Every row can be read.',
  twice: (name: string) =>
    `This file was brought in before, as ${name}. Bringing it in again would enter everything twice.`,
  importNow: (
    kind: ImportKind,
    counts: { animals: number; hunters: number; weighings: number; none: number },
  ) =>
    `Import ${kind === 'animals' ? animals(counts.animals) : kind === 'hunters' ? hunters(counts.hunters) : told(counts)}`,
  anyway: 'They are right: bring all in',
  with: (counts: { hunters: number; weighings: number; none: number; known: number }, kind: ImportKind) =>
    kind === 'animals'
      ? `With ${told(counts)}, and ${counts.hunters === 0 ? 'no new hunter' : plural(counts.hunters, 'new hunter', 'new hunters')}. They come in as finished animals of their season and teach what such animals yield.`
      : kind === 'hunters' && counts.known > 0
        ? `${plural(counts.known, 'row is', 'rows are')} of people in the book already; they stay as they are.`
        : '',
  done: (file: string) => `${file} is in the book.`,
  undone: (file: string) => `${file} was taken out again.`,
  history: 'Brought in before',
  when: 'When',
  file: 'File',
  held: 'What it wrote',
  wrote: (counts: { animals: number; hunters: number; weighings: number; none: number }) =>
    [
      counts.animals && animals(counts.animals),
      counts.hunters && hunters(counts.hunters),
      counts.weighings && weights(counts.weighings),
      counts.none && nones(counts.none),
    ]
      .filter(Boolean)
      .join(', '),
  undo: 'Undo',
  undoOf: (file: string) => `Undo ${file}`,
  wasUndone: 'undone',

  out: 'Export',
  outIntro:
    'Your records are yours. Everything can be taken out at any time, and nothing in the book changes by it.',
  outs: {
    tables: {
      label: 'Tables for a spreadsheet (.zip)',
      note: 'one CSV file for each kind, safe to open; hunters, animals and weights can be brought in again',
    },
    text: { label: 'The whole book as text (.json)', note: 'fills an empty book exactly as this one is' },
    book: { label: 'The book itself (.gambrel)', note: 'an SQLite file, as a backup is' },
    description: { label: 'What the tables mean (.txt)', note: 'every table and column in plain words' },
  },
  packing: 'Getting it ready …',
  fill: 'Fill an empty book',
  fillHint: 'Choose a whole book that was taken out as text (.json). Settings and prices come with it.',
  filled: (n: number) => `The book is filled: ${animals(n)}.`,

  hunterFile: 'Everything about this hunter (.zip)',
  hunterFileHint: 'To hand over when he or she asks what you keep.',
  remove: 'Remove personal details',
  removeHint:
    'Takes name, numbers, addresses and every note and reason about this hunter’s animals, batches and money out of the book for good. Weights, days and money stay. Backups made before still have it, and can be replaced. Not while an animal is here, nor before the years of keeping are over.',
  removeWhy: 'Why they are removed',
  removed: 'The personal details were removed.',
  removedNotWiped:
    'The personal details were removed. Traces are left in unused parts of the file, because the disk is full or another program has the book open; Gambrel wipes them as soon as it can.',

  fields: {
    name: 'Hunter’s name',
    phone: 'Phone',
    email: 'Email',
    address: 'Address',
    licence: 'License',
    pooling: 'Never pooled',
    receivedOn: 'Date received',
    species: 'Species',
    oldNumber: 'Your old number',
    sex: 'Sex',
    age: 'Age',
    brought: 'Brought as',
    origin: 'Wild or farm',
    tag: 'Tag',
    killDate: 'Date killed',
    killArea: 'Where killed',
    live: 'Live weight',
    dressed: 'Field-dressed weight',
    received: 'Weight received',
    hanging: 'Hanging weight',
    wholeCuts: 'Whole cuts',
    trim: 'Trim for grinding',
    fatSaved: 'Fat saved',
    sinew: 'Sinew and silverskin',
    bone: 'Bone',
    cutAway: 'Damage cut away',
    takeHome: 'Take-home meat, no fat added',
    packages: 'Packages',
    condition: 'Condition or notes',
    damage: 'Shot damage, in words',
    releasedOn: 'Date picked up',
    releasedTo: 'Picked up by',
    ticket: 'Ticket or old number',
    what: 'What was weighed',
    weight: 'Weight',
    tare: 'Container',
    product: 'Product',
    note: 'Note',
  } satisfies Record<ImportField, string>,
  /** Names of meanings that have no text elsewhere. */
  meanings: {
    origin: { hunter: 'Wild', farm: 'Farm stock' },
    pooling: { yes: 'Yes', no: 'No' },
    what: {
      'live/carcass': 'Live weight',
      'dressed/carcass': 'Field-dressed weight',
      'received/carcass': 'Weight received',
      'hanging/carcass': 'Hanging weight',
      'cut/whole cuts': 'Whole cuts',
      'cut/trim': 'Trim',
      'cut/fat saved': 'Fat saved',
      'cut/sinew': 'Sinew',
      'cut/bone': 'Bone',
      'cut/damage': 'Damage',
      'packed/package': 'Packages',
    },
  } satisfies Partial<Record<WordField, Record<string, string>>>,
};
