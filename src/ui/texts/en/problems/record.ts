/** Messages about the record book and the agency's requirements. */
import type { Wording } from '../../wording.ts';

export const recordWording: Readonly<Record<string, Wording>> = {
  'choice.record-set': () => 'Pick a place from the list, or “No agency picked”.',
  'choice.record-field': () => 'One of the required fields is not known. Reload the page.',
  'choice.state': () => 'Pick whether to see what is still here, what has left, or both.',
  'records.too-many': (p) =>
    `That is more than ${p.most} records, too many to show at once. Pick one season, or fewer days.`,
  'retention.range': () => 'Type for how many years records are kept, a whole number from 1 to 50.',
  'edit.nothing': (p) => `The record of ${p.ticket} says that already. Change something first.`,
  'edit.other-season': (p) =>
    `That day moves ${p.ticket} from season ${p.before} to season ${p.season}. It may get a new ticket there; the old one still finds it.`,
  'edit.still-here': (p) =>
    `${p.ticket} was not handed over yet, so nobody has it. That is said when it is fetched.`,
  'edit.left-before-received': (p) => `${p.ticket} cannot have left before it came in. Look at both days.`,
  'edit.after-left': (p) => `${p.ticket} had left the shop by then. It came in before it left.`,
  'edit.pieces': (p) =>
    `${p.ticket} has a piece (${p.primal}) that ${p.name} does not have. Take its weights and orders back first, then change the species.`,
};
