/** Messages about belongings. */
import type { Wording } from '../../wording.ts';

export const belongingWording: Readonly<Record<string, Wording>> = {
  'belonging.unknown': () => 'This belonging is not in the book, or has left already. Reload the page.',
  'belonging.voided': (p) => `This belonging was voided already${p.by ? ` by ${p.by}` : ''}: ${p.reason}.`,
  'belonging.gone': (p, format) =>
    `The ${p.kind} left already on ${format.longDay(String(p.on))}. If that is wrong, press “Still here” first.`,
  'belonging.here': (p) => `The ${p.kind} is still here, so there is nothing to undo.`,
  'belonging.taxidermist': () => 'Type the name of the taxidermist.',
  'belonging.before-received': () => 'It cannot have left before the animal came in. Check the date.',
  'belonging.too-many': (p) =>
    `${p.ticket} has ${p.count} belongings, more than any animal brings. Void those entered by mistake.`,
  'release.belongings': (p) =>
    `Still here with ${p.ticket}: ${p.kinds}. Tick what goes along, or answer that it stays.`,
};
