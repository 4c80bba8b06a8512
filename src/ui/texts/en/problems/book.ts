/** Messages about a book that does not open, a failed second backup, and a backup that cannot be restored. */
import type { With, Wording } from '../../wording.ts';

/**
 * An unexpected part of the database schema.
 * @example '“watch” (a trigger) was added to it'
 */
function alteredIn({ how, what, name }: With): string {
  if (how === undefined) return 'the number of its version does not fit what is in it';
  const part = `“${String(name)}” (${what === 'index' ? 'an' : 'a'} ${String(what)})`;
  if (how === 'added') return `${part} was added to it`;
  return how === 'missing' ? `${part} is missing from it` : `${part} is not as Gambrel made it`;
}

export const bookWording: Readonly<Record<string, Wording>> = {
  'book.folder': (p) =>
    `The folder of ${p.path} cannot be used for a record book. Check that it is there and on a drive of this computer: drives on a network are not fit for it.`,
  'book.read-only': (p) =>
    `The book ${p.path} can be read but not written. Allow writing to it and to its folder, then try again.`,
  'book.full': (p) =>
    `The disk is full, and nothing was kept just now. Free some space on the disk that holds ${p.path}, then try again.`,
  'book.drive': (p) =>
    `The drive with the book ${p.path} does not answer. Was a stick taken out, or did the network go? Bring it back, then try again. If it stays, the drive may be failing: open a backup.`,
  'book.damaged': (p) =>
    `The book ${p.path} is damaged. The file was left as it is. Open the newest backup below; the damaged file is kept beside it.`,
  'book.changed': (p) =>
    `The book ${p.path} is not as Gambrel left it. The drive may be failing, or somebody copied another file there. Open the newest backup, or open this file as it is if you exchanged it yourself.`,
  'book.foreign': (p) =>
    `The file ${p.path} is not a Gambrel book, or its beginning was overwritten. It was left as it is. Open the newest backup below; the file is kept beside it.`,
  'book.altered': (p) =>
    `The book ${p.path} was changed by another program: ${alteredIn(p)}. Nothing in it was run, and the file was left as it is. Keep its records in a clean book, or open a backup from before.`,
  'book.not-altered': () => 'This book is built as Gambrel builds one, so there is nothing to leave out.',
  'book.misfit': (p) =>
    `The records of ${p.path} do not fit into a clean book: some are not as Gambrel writes them. Nothing was changed. Open the newest backup below.`,
  'book.link': (p) =>
    `A link lies at ${p.path}, where Gambrel keeps a file of its own, and Gambrel does not write through it. Remove the link, then try again.`,
  'book.backups': (p) =>
    `Backups cannot be kept in ${p.path}. Check that it is a folder which this account may read and write, and that its drive is there, then try again.`,
  'book.newer': (p) =>
    `The book ${p.path} was written by a newer Gambrel. It is whole: install the newer Gambrel on this computer, then start it again.`,
  'book.locked': () => 'Another Gambrel has this book open. Close it there, then try again.',
  'book.missing': (p) =>
    `The book is no longer at ${p.path}, but there are backups of it. Put the file back and try again, or open the newest backup below.`,
  'book.absent': (p) =>
    `There is no book at ${p.path}. If it lies on a stick or another drive, bring that back, then try again. Or begin a new, empty book there.`,
  'book.addon': (p) =>
    `A part of Gambrel that reads the book could not be loaded. Reinstall Gambrel; your book is untouched: ${p.path}. If you start Gambrel with npm, run npm ci first.`,
  'book.migration': (p) =>
    `The book ${p.path} could not be brought up to date. It was left as it was. Open a backup below, or go back to the Gambrel that you had.`,
  'book.backup': (p) =>
    `No sound backup of ${p.path} could be made. Check that its disk is well and has room, then try again.`,

  'book.other-opening': () =>
    'Another book is open now: the demo, your own book, or a backup. Nothing was saved. This window shows the open book; enter it again there if it belongs there.',

  'second.missing': (p) =>
    `The second place for backups is not there: ${p.path}. Plug in the stick or the drive, then press Back up now.`,
  'second.unreadable': (p) =>
    `The folder ${p.path} cannot be read, so what lies there is not in the list. Check that it is a folder which this account may read, and that its drive answers.`,
  'second.full': (p) =>
    `The second place for backups is full: ${p.path}. Take something off it or use another one, then press Back up now.`,
  'second.own-folder': (p) =>
    `The backups of this book are kept in ${p.path} already. For a second place pick a folder on another drive, such as a USB stick.`,
  'second.read-only': (p) =>
    `The second place for backups cannot be written: ${p.path}. Check the slide on the stick, or pick another folder.`,
  'second.drive': (p) =>
    `The second place for backups does not answer: ${p.path}. Take the stick out and plug it in again, then press Back up now.`,
  'second.bad': () =>
    'The copy in the second place could not be read back whole and was removed. The stick may be worn out: use another one.',
  'second.unlocked': () =>
    'The copies in the second place are locked, but this book has no passphrase, so no open copy was put among them. Set the passphrase again below, or choose to have no lock.',

  'temporary.full': (p) =>
    `The folder for temporary files is full: ${p.path}. Nothing in the book was changed. Free some space on that disk, then try again.`,
  'temporary.folder': (p) =>
    `The folder for temporary files cannot be written: ${p.path}. Nothing in the book was changed. Check that it is there and allows writing, then try again.`,

  'backup.bad': () => 'This backup is damaged and cannot be opened. Nothing was changed. Take the next one.',
  'backup.none-before': () =>
    'No backup of this book is from before personal details were removed. Nothing needs doing.',
  'backup.altered': (p) =>
    `This backup was changed by another program: ${alteredIn(p)}. Nothing in it was run or changed. Take another one, or open only its records.`,
  'backup.times': () =>
    'In this backup a date or time cannot be read, so some pages would not open. Nothing was changed. Take another one, or open only its records: each such date is then set to that of the entry before or after it.',
  'backup.misfit': () =>
    'The records of this backup do not fit into a clean book: some are not as Gambrel writes them. Nothing was changed. Take another one.',
  'backup.gone': () => 'This backup is no longer there. Plug in the stick if it was on one, or take another.',
  'backup.newer': () => 'This backup is from a newer Gambrel. Install that one first, then open it.',
  'backup.passphrase': () =>
    'This is not the passphrase of this backup. Nothing was changed. Look at capitals and spaces, then try again.',
  'backup.demo': () => 'A backup cannot be opened in the demo. Leave the demo first.',
  'passphrase.needed': () => 'This backup is locked. Type its passphrase.',
  'passphrase.short': () =>
    'A passphrase needs at least 8 letters. A few plain words in a row are easy to keep.',
};
