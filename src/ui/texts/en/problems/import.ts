/** Messages about imported tables. */
import { wordFor, words } from '../common.ts';
import { plural } from '../../plural.ts';
import { massIn, type Wording } from '../../wording.ts';

const SINCE: Readonly<Record<string, string>> = {
  hunter: 'has got something else since, or was changed by hand',
  animal: 'was worked on or changed since',
  weighing: 'had one of these weights corrected since',
  part_none: 'had a part that the file says there is none of changed since',
};

export const importWording: Readonly<Record<string, Wording>> = {
  'sheet.empty': () => 'This file is empty. Choose another one.',
  'sheet.not-text': () =>
    'This file is a workbook, not a table of text. In your spreadsheet, save the sheet as CSV, and choose that file.',
  'sheet.too-large': () => 'This file is too large. Split it into parts of at most 64 MB.',
  'sheet.too-many-rows': (p) =>
    `This table has more than ${p.most} rows. Split it into parts, one for each season.`,
  'sheet.row-too-long': (p) =>
    `Row ${p.row} is far too long: a quote (") is probably missing near it. Fix it, or pick another separator.`,
  'sheet.quote': (p) =>
    `From row ${p.row} on, a quote (") is opened and never closed. Fix it in your spreadsheet and choose the file again.`,
  'sheet.gone': () => 'Gambrel no longer has this file. Choose it again.',
  'sheet.torn': () => 'The file did not arrive whole. Choose it again.',
  'sheet.lacks': () => 'This is missing. Fill it in.',
  'sheet.no-column': () => 'No column holds this. Pick its column above, or say what holds for all rows.',
  'sheet.date': (p) =>
    `“${p.typed}” is not a date. Write it like 2023-11-04, or check which comes first, day or month.`,
  'sheet.word': (p) => `“${p.typed}” is not understood. Say above what it stands for.`,
  'logger.columns': () =>
    'No row of this file has a day, a time and a temperature. Save the readings of the logger as CSV and choose that file.',
  'sheet.year': (p) =>
    `“${p.typed}” would be in the year ${String(p.date).slice(0, 4)}. Years run from 1950 to 2099. Fix it in the file.`,
  'logger.too-old': (p) =>
    `This reading is of ${p.date}. The clock of the logger was not set, or day and month are read the wrong way round.`,
  'logger.clock': (p) => `“${p.typed}” is no time of day. Write it like 14:30 or 2:30 PM.`,
  'logger.ahead': (p) =>
    `This reading of ${p.date} lies in the future. Check which comes first, day or month, and the clock of the logger.`,
  'logger.nothing-new': (p) =>
    `All ${plural(Number(p.count), 'reading', 'readings')} of this file are in the book already. There is nothing to bring in.`,
  'logger.unknown': () => 'There is no such file in this book. Look at the list again.',
  'logger.undone': (p) => `${p.name} was voided already.`,
  'sheet.released-before': () => 'It was picked up before it was received. Check both dates.',
  'sheet.parts-over': (p, format) =>
    `Its parts weigh ${massIn(p, 'grams', format)}, more than the animal with ${massIn(p, 'baseGrams', format)}. It teaches nothing like this.`,
  'sheet.cuts-alone': () =>
    'It has whole cuts and take-home meat, but no trim, so its meat cannot be told. Fill in the trim, or leave the column of whole cuts out.',
  'sheet.number-twice': (p) =>
    `Several animals had the old number ${p.typed}. Write Gambrel’s own ticket in its place, such as 23-0147.`,
  'sheet.problems': (p) =>
    `${plural(Number(p.count), 'problem', 'problems')} must be fixed first, from row ${p.row} on. Nothing was brought in.`,
  'sheet.no-rows': (p) =>
    Number(p.count) > 0
      ? 'Everybody in this table is in the book already. There is nothing to bring in.'
      : 'There is no row to bring in below the headings. Check which row holds the headings.',
  'sheet.doubts': (p) =>
    `${plural(Number(p.count), 'weight is', 'weights are')} unlikely, from row ${p.row} on. Look at them, then bring all in anyway if they are right.`,
  'sheet.none-of': (p) =>
    `Only fat, sinew, bone and damage can be none. Give the ${wordFor(words.part, String(p.what)).toLowerCase()} a weight, or leave this row out.`,
  'sheet.hung-again': (p, format) =>
    Number(p.count) === 1
      ? `Ticket ${p.ticket} already has a hanging weight of ${massIn(p, 'grams', format)}, and this one would be added to it. That is right for a second side or piece. If the same carcass was weighed again, take one of the two out.`
      : `Ticket ${p.ticket} already has ${Number(p.count)} hanging weights, ${massIn(p, 'grams', format)} together, and this one would be added to them. That is right for another side or piece. If one was weighed again, take its other weight out.`,
  'sheet.twice': (p) =>
    `This very file was brought in before, as ${p.name}. Undo that first, unless everything is to be in the book twice.`,
  'import.unknown': () => 'This file is not among those that were brought in.',
  'import.undone': (p) => `${p.name} was undone already.`,
  'import.since': (p) =>
    `This cannot be undone any more: ${p.name} ${SINCE[String(p.what)] ?? 'was changed since'}. Take that back first, if it was a mistake.`,
  'import.later-ticket': (p) =>
    `This cannot be undone any more: ticket ${p.name} was given after it, and tickets have no gaps.`,
  'choice.encoding': () => 'Pick how the letters of the file are written.',
  'choice.separator': () => 'Pick what stands between the columns: comma, semicolon or tab.',
  'choice.decimal': () => 'Pick the decimal mark: point or comma.',
  'choice.dates': () => 'Pick what comes first in a date: the day or the month.',
  'choice.table': () => 'Pick what the table holds: hunters, animals or weights.',
  'choice.take-out': () => 'Pick what to take out.',
  'export.busy': () =>
    'Another file is being made right now. Wait until it is ready, then press the button again.',
  'export.gone': () => 'Gambrel no longer has this file ready. Press the button again.',
  'export.not-empty': () =>
    'A whole book can only fill an empty one, and this one has hunters or animals in it. Start Gambrel with a new book for that.',
  'export.format': () => 'This file is no book that Gambrel took out. Choose one whose name ends in .json.',
  'export.newer': () => 'This book was taken out by a newer Gambrel. Bring this one up to date first.',
  'export.torn': (p) =>
    `This file is not whole: it breaks off or was changed near line ${p.row}. Take the book out again, or choose another copy.`,
  'export.row': (p) =>
    `Something near line ${p.row} of this file cannot be in a book: it was changed by another program. Nothing was brought in. Choose another copy.`,
  'hunter.gone': (p) =>
    `The personal details of “${p.name}” were removed from the book. Write this person in as a new hunter.`,
  'hunter.removed': () => 'The personal details of this hunter were removed already.',
  'hunter.animal-here': (p) =>
    `${p.name} has an animal here that was not handed over. Finish that first; the details are needed until then.`,
  'hunter.still-kept': (p) =>
    `${p.name} was here last on ${p.date}, and the shop keeps records for ${plural(Number(p.years), 'year', 'years')}. The details can be removed after that.`,
};
