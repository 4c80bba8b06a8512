/** Messages about donated, returned and unclaimed meat. */
import { massIn, type Wording } from '../../wording.ts';

export const leavingWording: Readonly<Record<string, Wording>> = {
  'donation.program': () => 'Pick a program from the list. Programs are set up in Shop.',
  'donation.more': (p, format) =>
    `${massIn(p, 'grams', format)} is more than what is left of ${p.ticket}: ${massIn(p, 'leftGrams', format)}. Type less.`,
  'donation.not-noticed': (p) =>
    `${p.ticket} counts as unclaimed only after the last notice. Record the notices at Pickup first.`,
  'donation.before-received': () => 'It cannot have been donated before it came in. Check the date.',
  'donation.unknown': () => 'This donation is not in the book. Reload the page.',
  'donation.voided': (p) => `This donation was voided already${p.by ? ` by ${p.by}` : ''}: ${p.reason}.`,
  'donation.left': (p) => `${p.ticket} left the shop with this donation. Reopen ${p.ticket}; that voids it.`,
  'donation.too-many': (p) => `${p.ticket} has ${p.count} donations already. Void those entered by mistake.`,
  'unprocessed.stated': (p) => `${p.ticket} goes back as it came already.`,
  'unprocessed.packed': (p) =>
    `Meat of ${p.ticket} is ground or packed, so it does not go back as it came. Hand it over as usual.`,
  'unprocessed.none': (p) => `${p.ticket} is not marked to go back as it came.`,
  'unprocessed.too-many': (p) => `This was said of ${p.ticket} ${p.count} times. It stays as it is.`,
  'notice.given': (p) => `The ${p.step} notice for ${p.ticket} was given already. Void it if that is wrong.`,
  'notice.order': (p) => `The ${p.step} notice for ${p.ticket} comes first. Record that one.`,
  'notice.before-ready': () =>
    'It cannot have been given before the meat was ready, or before the notice that came first.',
  'notice.unknown': () => 'This notice is not in the book. Reload the page.',
  'notice.followed': (p) => `The ${p.step} notice was given after it. Void that one first.`,
  'notice.too-many': (p) => `${p.ticket} has ${p.count} notices already. It takes no more.`,
  'program.twice': () => 'Two programs have the same name. Change one of them.',
};
