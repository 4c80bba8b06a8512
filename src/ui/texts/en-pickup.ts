import { plural } from './plural.ts';

/** Words of the Pick-up. */
export const pickupText = {
  heading: 'Pick-up',
  ready: 'Packed and ready',
  nothing: 'Nothing waits to be picked up.',
  nothingHow: 'When an animal is packed at the Table and marked ready, it waits here for its hunter.',
  toRail: 'To the Rail',
  ticket: 'Ticket',
  hunter: 'Hunter',
  species: 'Species',
  waits: 'Waits',
  today: 'since today',
  days: (n: number) => plural(n, 'day', 'days'),
  packages: 'Packages',
  weight: 'Weight',
  state: 'State',
  held: 'on hold',
  canGo: 'can go',
  handOver: 'Hand over',
  handOverOf: (ticket: string) => `Hand over ${ticket}`,
  why: 'Why held',
  heldSentence: (reason: string) =>
    `On hold: ${reason}. It stays in the cooler until the hold is ended on the animal's own page.`,
  openAnimal: 'Open the animal',
  to: 'Handed to',
  toHint: 'Who really takes it, by name.',
  note: 'Note',
  carries: (packages: string, mass: string) => `${packages}, ${mass}.`,
  tell: 'Tell the hunter',
  cook: (f: number, c: number) =>
    `Ground meat is cooked to ${f} °F (${c} °C) in the middle, checked with a thermometer.`,
  confirm: 'Hand it over',
  cancel: 'Cancel',
  done: (ticket: string, to: string) => `${ticket} was handed to ${to}.`,
};
