/** Messages about bills and payments. */
import { plural } from '../../plural.ts';
import { methodName } from '../bill.ts';
import { moneyIn, type Wording } from '../../wording.ts';

/** Why a bill would be incomplete. */
const LACKS: Readonly<Record<string, string>> = {
  'trim-waiting': 'some of its trim waits for the grinder',
  'open-batch': 'its grind is not finished',
  'nothing-packed': 'nothing of it is packed',
};

export const moneyWording: Readonly<Record<string, Wording>> = {
  'bill.stands': (p) => `Bill ${p.number} stands for this animal. Take it back first if it is wrong.`,
  'bill.no-prices': () => 'No prices are in force. Write your prices in under Books, then make the bill.',
  'bill.no-hanging': (p) =>
    `Ticket ${p.ticket} is charged by its hanging weight, which is missing. Weigh it at the Table first.`,
  'bill.below-zero': (p) =>
    `The discounts of ticket ${p.ticket} are more than all it is charged. Fix the prices, or remove a discount.`,
  'bill.not-weighed': (p) =>
    `Not all of ticket ${p.ticket} is weighed: ${LACKS[String(p.lack)] ?? 'something is missing'}. Bill it as it is?`,
  'bill.unpriced': (p) =>
    `No price for ${p.what}${Number(p.count) > 0 ? ` and ${plural(Number(p.count), 'other thing', 'other things')}` : ''}. Charge it as another line first, or bill without it?`,
  'bill.price-unused': (p) =>
    `The other price for “${p.line}”${Number(p.count) > 0 ? ` and ${plural(Number(p.count), 'other', 'others')}` : ''} changes nothing: the line is not on this bill. Change the prices or add a discount first, or bill without it?`,
  'adjustment.line': (p) =>
    `The prices in force have no line “${p.line}” that this can be done with. Pick another line.`,
  'adjustment.amount': () => 'This amount is too small. Type an amount of money, for example 15.00.',
  'adjustment.rate': () => 'A discount is above 0 and up to 100 percent. Type for example 10.',
  'adjustment.not-of-kind': () =>
    'Something is filled in that this kind of change does not have. Leave it out, or pick another kind.',
  'adjustment.unknown': () => 'This change of the bill is not in the book. Open the bill again.',
  'adjustment.voided': (p) => `This was voided already: ${p.reason}.`,
  'adjustment.too-many': (p) =>
    `Ticket ${p.ticket} has ${p.count} discounts and changes, the most that an animal may have. Put the rest into one free line on another bill.`,
  'hours.line': (p) => `The prices in force have no line “${p.line}” by the hour. Pick another line.`,
  'hours.unknown': () => 'These hours are not in the book. Open the animal again.',
  'hours.voided': (p) => `These hours were voided already: ${p.reason}.`,
  'hours.too-many': (p) =>
    `Ticket ${p.ticket} has ${p.count} entries of hours, the most that an animal may have. Void those that are wrong first.`,
  'bill.unknown': () => 'This bill is not in the book. Open the animal again.',
  'bill.voided': (p) => `Bill ${p.number} was voided already: ${p.reason}.`,
  'bill.not-voided': (p) => `Bill ${p.number} is not voided. Nothing needs to be undone.`,
  'bill.newer': (p) =>
    `Bill ${p.newer} of this animal was made after bill ${p.number}. Make a new bill instead.`,
  'bill.changed': (p) =>
    `Changes, hours or extras of this animal changed after bill ${p.number} was voided. Make a new bill instead.`,
  'payment.zero': () => 'An amount of money is more than nothing. Type what was paid, for example 45.50.',
  'payment.over': (p, format) =>
    `${moneyIn(p, 'amountMinor', format)} is more than the ${moneyIn(p, 'dueMinor', format)} that is still due. Save it anyway?`,
  'payment.refund': (p, format) =>
    `Only ${moneyIn(p, 'paidMinor', format)} was paid${p.payer ? ` by ${p.payer}` : ''}, so ${moneyIn(p, 'amountMinor', format)} cannot be given back. Type less.`,
  'payment.given-back': () =>
    'Money was given back since, and without this payment more would be given back than was taken. Void the refund first, then this one.',
  'payment.other-currency': (p) =>
    `This was paid in ${p.currency}, and the ticket now goes on in ${p.now}. Void what stands in ${p.now} first, then this line.`,
  'currency.accounts-open': (p) =>
    `Money is still open in ${p.currency} for ${p.tickets}${Number(p.count) > 5 ? ` and ${plural(Number(p.count) - 5, 'other animal', 'other animals')}` : ''}. Take or give back what is open, or take those bills back, then change the currency.`,
  'bill.other-currency': (p) =>
    `The prices in force are in ${p.currency}, and the shop counts in ${p.shop}. Save your prices in ${p.shop} under Books, then make the bill.`,
  'bill.paid-in-other-currency': (p) =>
    `Ticket ${p.ticket} was paid in ${p.paidIn}, and the bill would be in ${p.currency}. Give that money back first, then make the bill.`,
  'payment.too-many': (p) =>
    `Ticket ${p.ticket} has ${p.count} payments in the book already, and no more fit. Take the rest on another ticket.`,
  'bill.too-many': (p) =>
    `Ticket ${p.ticket} has had ${p.count} bills, and no more can be made. Write what is owed in a note at Pickup.`,
  'payment.unknown': () => 'This payment is not in the book. Open the animal again.',
  'payment.voided': (p) => `This payment was voided already: ${p.reason}.`,
  'release.no-bill': (p) =>
    `Ticket ${p.ticket} has no bill yet. Make the bill, or sign with your initials to hand it over without one.`,
  'release.unpaid': (p, format) =>
    `${moneyIn(p, 'dueMinor', format)} of ticket ${p.ticket} is not paid. Take the payment, or sign with your initials to hand it over unpaid.`,
  'minutes.range': () => 'Minutes are a number from 0 to 999, for example 45 or 0.9. Type them again.',
  'margin.range': () => 'What should be left of a fee is a percentage from 0 to 90. Type it again.',
  'note.not-ready': (p) => `Ticket ${p.ticket} does not wait at Pickup, so no call about it is kept there.`,
  'hours.range': () => 'Hours are from a minute to 100 hours. Type for example 1:30.',
  'choice.payment': () => 'Pick whether it is a deposit, a payment or money given back.',
  'till.future': () => 'A till is of today or of a day before. Pick another day.',
  'till.closed': (p) =>
    `The till of ${p.day} is closed (closing ${p.number}). Void that closing first, or enter it in the next till.`,
  'till.float': () => 'An opening float cannot be below zero. Leave out the minus.',
  'till.count': () => 'Cash counted cannot be below zero. Count the drawer again.',
  'till.count-missing': () =>
    'Nothing was counted. Type the total of the drawer, or how many there are of each note and coin.',
  'till.note': (p, format) =>
    `The drawer is ${format.money(Math.abs(Number(p.overMinor)), String(p.currency))} ${Number(p.overMinor) > 0 ? 'over' : 'short'}. Add a note that says why, or what you looked at.`,
  'till.changed': (p, format) =>
    `Something was entered meanwhile: now ${moneyIn(p, 'expectedMinor', format)} should be in the drawer. Look at the payments again, then close the day.`,
  'till.changed-method': (p, format) =>
    `Something was entered meanwhile: ${methodName(String(p.method)).toLowerCase()} is now ${moneyIn(p, 'totalMinor', format)}, and this page showed ${moneyIn(p, 'seenMinor', format)}. Look at the payments again, then close the day.`,
  'till.initials': () =>
    'Whoever closes the till signs it. Pick your initials at the top of the window first.',
  'till.unknown': () => 'This closing is not in the book. Open the day again.',
  'till.voided': (p) => `Closing ${p.number} is void already.`,
  'reminder.settled': (p) => `Nothing is open for ticket ${p.ticket}. Look at its bill again.`,
  'journal.span': () => 'The first day is after the last. Swap them, or pick other days.',
};
