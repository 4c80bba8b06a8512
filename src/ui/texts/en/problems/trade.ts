/** Messages about rules of the trade, except those about weights (`problems.ts`). */
import { wordFor, words } from '../common.ts';
import { readySentence } from '../animal/ready.ts';
import { plural } from '../../plural.ts';
import { massIn, type With, type Wording } from '../../wording.ts';

/** Why an animal is on hold: 'sample pending, number L26-118'. */
const held = (p: With): string =>
  [wordFor(words.hold, String(p.reason)).toLowerCase(), p.sample ? `number ${p.sample}` : '']
    .filter(Boolean)
    .join(', ');

/** Why an animal is closed. */
const LEFT: Readonly<Record<string, string>> = {
  released: 'was picked up',
  disposed: 'was disposed of',
  canceled: 'was canceled',
};

export const tradeWording: Readonly<Record<string, Wording>> = {
  // Missing data.
  'animal.unknown': () => 'This animal is not in the book.',
  'ticket.unknown': (p) => `There is no ticket ${p.ticket} in the book. Check the number on the tag.`,
  'hunter.unknown': () => 'This hunter is not in the book.',
  'hunter.needed': () => 'Who brought it? Pick a hunter or type a name.',
  'species.unknown': () => 'Pick a species from the list.',
  'primal.unknown': (p) => `This species has no piece called “${p.primal}”. Pick from the list.`,
  'primal.needed': () => 'Pick on the carcass which piece is on the scale.',
  'primal.not-brought': (p) =>
    `No ${String(p.primal).toLowerCase()} came in with ${p.ticket}. Pick a piece that did.`,
  'weighing.unknown': () => 'This weight is not in the book.',
  'quote.taken': ({ quote }) =>
    `An animal was already taken in from quote ${quote}. Take this one in without it, or make it a quote of its own.`,
  'quote.unknown': () => 'This quote is not in the book.',
  'batch.unknown': () => 'This batch is not in the book.',
  'fat.unknown': () => 'This kind of fat is not in the list. Pick one from it.',
  'fat.lot-unknown': () => 'This lot of fat is not in the book.',
  'hold.none': (p) => `${p.ticket} is not on hold.`,
  // Not allowed in the current state.
  'animal.closed': (p) =>
    `${p.ticket} ${LEFT[String(p.stage)] ?? 'has left'}, so its weights, orders and trim stay as they are. To put something right, open ${p.ticket} and press “Reopen”.`,
  'animal.not-left': (p) => `${p.ticket} is still in the shop, so there is nothing to reopen.`,
  'weighing.voided': (p) => `This weight was voided already${p.by ? ` by ${p.by}` : ''}: ${p.reason}.`,
  'none.weighed': (p) =>
    p.stage === 'grinder'
      ? 'Its own fat went into the grinder already. Void that weight first.'
      : `${wordFor(words.part, String(p.part))} is weighed already. Void that weight first.`,
  'none.stated': (p) =>
    `That ${p.ticket} has no ${wordFor(words.part, String(p.part)).toLowerCase()} is in the book already.`,
  'none.unknown': () => 'This statement is not in the book. Reload the page.',
  'none.voided': (p) => `This statement was voided already${p.by ? ` by ${p.by}` : ''}: ${p.reason}.`,
  'temperature.unknown': () => 'This reading is not in the book. Reload the page.',
  'temperature.voided': (p) => `This reading was voided already by ${p.by}.`,
  'weighing.not-voided': () => 'This weight was not voided. Nothing needs to be undone.',
  'weighing.replaced': () => 'This weight was corrected or restored already. Reload the page.',
  'temperature.not-voided': () => 'This reading is in the book. Nothing needs to be undone.',
  'payment.restored': () => 'This payment was restored already. Reload the page.',
  'payment.not-voided': () => 'This payment was not voided. Nothing needs to be undone.',
  'weighing.used': (p, format) =>
    `${massIn(p, 'grams', format)} of this ${p.part} is in the grinder already. Take it back there first.`,
  'release.held': (p) =>
    `${p.ticket ?? 'This animal'} is on hold. It is not handed over before the result is in: enter the result at the Table.`,
  'cut.held': (p) =>
    `${p.ticket} is on hold (${held(p)}) and is not cut, ground or packed before the result is in. When it is, enter it at the Table. Whether held animals may be cut is set in Shop.`,
  'cut.positive': (p) =>
    `${p.ticket} tested positive (${held(p)}). Nothing of it is cut, ground or packed any more: follow the steps of its hold at the Table.`,
  'hold.positive': (p) =>
    `${p.ticket} tested positive: its hold is not lifted. Record its disposal, or correct the result if it was entered wrongly.`,
  'result.nothing-to-correct': (p) => `${p.ticket} has no test result yet that could be voided.`,
  'result.reason': (p) => `${p.ticket} already has a result: ${p.before}. Say why it is corrected.`,
  'result.before-kill': () => 'It cannot have been tested before it was killed. Check both dates.',
  'result.other-sample': (p) =>
    `${p.ticket} waits for sample ${p.sample}, and this result is for ${p.typed}. Is it the right animal?`,
  'pooled.held': (p) =>
    `${p.ticket} was ground in batch ${p.batch} with ${p.other}, which is on hold. It is not set ready or handed over before that result is in.`,
  'pooled.positive': (p) =>
    `${p.ticket} was ground in batch ${p.batch} with ${p.other}, which tested positive. It is not set ready or handed over: ask your wildlife agency or the health department what happens to it.`,
  'pooled.through-grinder': (p) =>
    `${p.ticket} is in batch ${p.batch}, which went through the grinder after ${p.from} with ${p.other}, which tested positive, and no cleaning is recorded in between. It is not set ready or handed over: ask your wildlife agency or the health department. If the grinder was taken apart and cleaned in between, record that cleaning with its time.`,
  'batch.affected': (p) =>
    `The meat of ${p.ticket}, which tested positive, reached batch ${p.batch}. Weigh nothing more into it; begin a new batch once the grinder is clean.`,
  'affected.not': (p) =>
    `The positive result of ${p.other} does not reach ${p.ticket}. Look at the list on the page of ${p.other}.`,
  'affected.unknown': () => 'This note is not in the book.',
  'affected.voided': () => 'This note was voided already.',
  'cleaning.future': () => 'This time is still to come. Enter when the grinder was cleaned.',
  'time.unreadable': () => 'This is not a time of day. Type it as hours and minutes, for example 18:30.',
  'ready.amounts': (p, format) =>
    `${p.ticket}: ${readySentence({ ...p, unpacked: String(p.unpacked), notMade: String(p.notMade) }, (grams) => format.mass(Number(grams)))} Weigh again or pack the rest, or say why it is right.`,
  'sheet.twice': (p) =>
    `Row ${p.before} has “${p.said}” too. Take one of them out if they are the same animal.`,
  'cleaning.unknown': () => 'This cleaning is not in the book.',
  'cleaning.voided': () => 'This cleaning was voided already.',
  'batch.held-alone': (p) =>
    `${p.ticket} is on hold and is ground by itself, never with other animals. Make it a batch of its own, and clean the grinder after it.`,
  'batch.held-in': (p) =>
    `Batch ${p.batch} was ground with meat of ${p.ticket} in it, which is on hold, so no animal’s weight is taken out of it. Correct the weight if it was misread. If ${p.ticket} was never in this batch, end its hold or correct its result first.`,
  'batch.reached-out': (p) =>
    `The meat of ${p.ticket}, which tested positive, reached batch ${p.batch} with ${p.other}, and only this weight keeps it there. Correct the weight if it was misread. If the grinder was taken apart and cleaned in between, record that cleaning with its time. If ${p.ticket} never tested positive, correct its result first.`,
  'dispose.reason': (p) =>
    `${p.ticket} has no positive result. Say why it is done away with, for example: spoiled, condemned by the inspector.`,
  'animal.not-hanging': (p) => `${p.ticket} does not hang any more, so it takes no place in a cooler.`,
  'cooler.unknown': () => 'This cooler is not in use. Pick another one.',
  'cooler.record-days': (p) =>
    `The last day must not be before the first, and a record holds at most ${p.most} days. Pick other days.`,
  'cooler.twice': (p) => `There is a cooler called ${p.cooler} already. Give this one another name.`,
  'cooler.in-use': (p) =>
    `${plural(Number(p.count), 'animal hangs', 'animals hang')} in ${p.cooler}. Hang them elsewhere first.`,
  'release.not-ready': (p) => `${p.ticket} is not ready yet. Finish packing first.`,
  'trim.none': (p) => `${p.ticket} has no trim left to grind. Weigh its trim at the Table first.`,
  'trim.not-enough': (p, format) =>
    `Only ${massIn(p, 'leftGrams', format)} trim of ${p.ticket} is left, not ${massIn(p, 'grams', format)}. Weigh more trim at the Table, or put less in.`,
  'trim.twice': () => 'The same animal is picked twice.',
  'trim.choose': () => 'Pick at least one animal whose trim waits.',
  'fat.not-enough': (p, format) =>
    `Only ${massIn(p, 'leftGrams', format)} of ${p.lot} is left, not ${massIn(p, 'grams', format)}.`,
  'fat.none-left': (p) => `Nothing is left of ${p.lot}.`,
  'fat.more-than-came': (p, format) =>
    `${massIn(p, 'grams', format)} is more than ever came in of ${p.lot} (${massIn(p, 'startGrams', format)}). Weigh again, or buy the rest in as a new lot.`,
  'fat.as-counted': (p, format) =>
    `That is what the book has of ${p.lot} already: ${massIn(p, 'grams', format)}. Nothing needs changing.`,
  'fat.choose': () => 'Pick which fat goes in.',
  'fat.too-lean': (p) =>
    `${p.source ?? 'This'} is too lean to bring it there. Pick a fatter source, a lower target, or check its fat percentage.`,
  'batch.done': (p) =>
    `Batch ${p.batch} is finished, so its weights stay as they are. Reopen the batch to put something right, or start another one.`,
  'batch.not-done': (p) => `Batch ${p.batch} is not finished, so there is nothing to reopen.`,
  'batch.no-pooling': (p) =>
    `${p.hunter ?? 'This hunter'} does not want it mixed with other animals. Grind ${p.ticket ?? 'it'} alone.`,
  'batch.not-in': (p) => `This animal is not part of batch ${p.batch}.`,
  'batch.nothing-in': (p) => `Nothing was weighed into batch ${p.batch} yet.`,
  'batch.nothing-out': (p) => `Nothing was packed from batch ${p.batch} yet. Weigh the packages first.`,
  'batch.more-out': (p, format) =>
    `${massIn(p, 'outGrams', format)} would come out of batch ${p.batch}, and only ${massIn(p, 'inGrams', format)} went in. Weigh again, weigh in what is missing, or say why it is right, for example: 5 lb of ice water.`,
  'batch.too-much-out': (p, format) =>
    `${massIn(p, 'outGrams', format)} cannot come out of batch ${p.batch}: only ${massIn(p, 'inGrams', format)} went in. Check the unit and the decimal point; if a weight that went in is wrong, take it back and weigh it in again.`,
  'quote.stage': () => 'An animal brought like this has no such weight. Pick another kind of weight.',
  // Invalid input.
  'weights.too-many': (p) =>
    `This ${p.of === 'batch' ? 'batch' : 'animal'} has ${p.count} weights already, and no more fit. Void small ones and weigh them again in one larger tote.`,
  'hold.too-many': (p) =>
    `Ticket ${p.ticket} was put on hold ${p.count} times, and no more fit. End the hold that lasts and leave the animal where it is until it is clear.`,
  'result.too-many': (p) =>
    `Ticket ${p.ticket} has ${p.count} test results in the book, and no more fit. Keep the laboratory’s sheet with the animal’s papers.`,
  'note.too-many': (p) =>
    `Ticket ${p.ticket} has ${p.count} notes already, and no more fit. Write this one on its card.`,
  'affected.too-many': (p) =>
    `Ticket ${p.ticket} has ${p.count} notes about positive results already, and no more fit. Write this one on its card.`,
  'orders.too-many': (p) =>
    `The cutting instructions of ticket ${p.ticket} were changed ${p.count} times, and no more changes fit. Write this one on its card.`,
  'staff.too-many': (p) =>
    `The shop has ${p.count} people in its list already, and no more fit. Use initials that are in it.`,
  'cooler.too-many': (p) =>
    `The shop has ${p.count} coolers already, and no more fit. Put one away that is not used.`,
  'fat.too-many': (p) =>
    `There are ${p.count} lots of bought fat on hand already, and no more fit. Throw out or count to nothing what is not there any more.`,
  'text.needed': () => 'This cannot stay empty.',
  'text.too-long': () => 'That is too long. Shorten it.',
  'list.too-long': () => 'That is more than can be entered at once. Enter it in smaller parts.',
  'text.control': () => 'There is a character in it that cannot be printed. Type it again.',
  'id.needed': () => 'Pick one first.',
  'count.extras': () => 'Of an extra there are 1 to 99. Type how many again.',
  'count.range': () => 'Type how many, a whole number from 1.',
  'share.range': () => 'Type a percentage from 0 to 100.',
  'fat.range': () => 'Type a fat percentage from 0.5 to 60.',
  'patty.size': () => 'A patty weighs between 20 g and 500 g. Check the number and the unit.',
  'pieces.twice': () => 'One piece is listed twice. List it once, with how many came.',
  'primal.twice': () => 'One piece has two orders. Say once what becomes of it.',
  'package.size': () => 'A package weighs between 50 g and 25 kg. Check the number and the unit.',
  'days.range': () => 'Type a whole number of days that can be.',
  'month.range': () => 'Pick a month.',
  'date.unreadable': () => 'That is not a date. Type it as the field shows, or pick it from the calendar.',
  'date.year': () => 'The year cannot be right: years run from 1950 to 2099. Check the year.',
  'date.long-ago': (p, format) =>
    `${format.longDay(String(p.date))} is long ago. Check the year, and keep it if the day is right.`,
  'date.far-ahead': (p, format) =>
    `${format.longDay(String(p.date))} is a long way off. Check the year, and keep it if the day is right.`,
  'date.killed-long-before': (p, format) =>
    `It was killed on ${format.longDay(String(p.date))}, long before it came in. Check both dates, and keep them if they are right.`,
  'prices.never-apply': (p, format) =>
    `Prices from ${format.longDay(String(p.date))} are in use already, so these would never be. Check the date, and keep it if it is right.`,
  'clock.impossible': (p, format) =>
    `The clock of this computer says ${format.longDay(String(p.today))}. Set the computer’s date and time, then try again. Nothing was saved.`,
  'clock.ahead': (p, format) =>
    `The clock of this computer says ${format.longDay(String(p.today))}, and the newest entry in the book is from ${format.longDay(String(p.last))}. Set the computer’s date, or say above that it is right. Nothing was saved.`,
  'clock.behind': (p, format) =>
    `The clock of this computer says ${format.longDay(String(p.today))}, and the book already has entries up to ${format.longDay(String(p.last))}. Set the computer’s date, or say above that it is right. Nothing was saved.`,
  'date.future': () => 'That day is still to come.',
  'date.killed-after-received': () => 'It cannot have been killed after it came in. Check both dates.',
  'date.disposed-before-received': () => 'It cannot have been disposed of before it came in.',
  'date.promised-before-received': () => 'It cannot be promised for a day before it came in.',
  'reading.tare': (p) =>
    `The container (${p.tare}) weighs as much as everything together (${p.typed}). Check both.`,
  'temperature.range': (p) =>
    `“${p.typed}” is not a meat temperature. Type degrees, for example 36 F or 2 C.`,
  'temperature.unreadable': (p) =>
    `“${p.typed}” is not a temperature. Type degrees, for example 36 F or 2 C.`,
  'money.empty': () => 'Type an amount.',
  'money.unreadable': (p) => `“${p.typed}” is not an amount of money.`,
  'money.ambiguous': (p) => `“${p.typed}” can be read two ways. Type it without marks between thousands.`,
  'money.too-fine': (p) => `“${p.typed}” has more decimals than the currency.`,
  'money.too-large': () => 'That amount is too large.',
  'money.other-currency': (p) => `“${p.typed}” is in another currency; the shop counts in ${p.currency}.`,
  'price.amount': () =>
    'A price needs an amount of money; a discount or surcharge a percentage; a deposit one of the two.',
  'price.unit': () => 'A price by weight needs a unit, lb or kg.',
  'price.twice': (p) => `Two price lines are called ${p.code}. Give each its own code.`,
  'price.discount-over-all': () =>
    'The discounts for one kind of animal come to more than everything together. Make them smaller.',
};
