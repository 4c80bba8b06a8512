import { plural } from '../plural.ts';

/** Texts of backups and restoring. */
export const backupText = {
  heading: 'Backups',
  bookPath: 'The record book is this file',
  last: (age: string) => `The last good backup was made ${age}.`,
  none: 'There is no backup yet.',
  old: (age: string) => `The last good backup was made ${age}. Make one now.`,
  byItself:
    'Gambrel makes one by itself every half hour in which something was saved, and when it is closed.',
  justNow: 'just now',
  minutes: (n: number) => `${plural(n, 'minute', 'minutes')} ago`,
  hours: (n: number) => `${plural(n, 'hour', 'hours')} ago`,
  days: (n: number) => `${plural(n, 'day', 'days')} ago`,
  backUp: 'Back up now',
  backedUp: 'Backed up and checked.',
  backedUpTwice: 'Backed up and checked, here and in the second place.',

  second: 'Second place',
  secondThere: (folder: string) => `Copies go to ${folder} as well.`,
  secondAway: (folder: string) => `${folder} is not there now. Plug in the stick or the drive.`,
  secondNone: 'Backups lie on the same disk as the book. Set a second place, such as a USB stick.',

  othersRead:
    'Other accounts on this computer can read the book or its backups: the place where they are kept does not limit files to one account. Keep the book in your own user folder, on a disk of this computer.',
  othersReadAway:
    'Other accounts on this computer can read the copies in the second place. Lock them with a passphrase.',

  lock: 'Lock for copies that leave the shop',
  lockOn: 'Copies in the second place are locked with your passphrase.',
  lockOff: 'Anyone who finds the stick can read the copies on it.',
  lockSet: 'Lock them with a passphrase',
  lockChange: 'Change the passphrase',
  lockEnd: 'Take the lock away',
  lockKeep: 'Lock copies from now on',
  lockWarning:
    'Write it down and keep it away from the stick. Without it nobody can open those copies, nor can we. Copies made before keep the lock that they have.',
  lockDone: 'New copies in the second place are locked.',
  lockGone: 'New copies in the second place are not locked.',
  passphrase: 'Passphrase',
  passphraseAgain: 'The same again',
  passphraseHint: 'At least 8 letters; a few plain words in a row are easy to keep.',
  passphraseDiffers: 'The two are not the same. Type both again.',
  cancel: 'Cancel',

  list: 'What you can go back to',
  when: 'Made',
  age: 'Age',
  what: 'What',
  size: 'Size',
  megabytes: (n: string) => `${n} MB`,
  beside: 'Backup beside the book',
  away: 'Copy in the second place',
  setAside: 'The book as it was before another took its place',
  beforeUpdate: 'Before an update',
  locked: 'locked',
  otherBook: (shop: string) => (shop === '' ? 'of another book' : `of another book: ${shop}`),
  ofShop: (shop: string) => `of ${shop}`,
  ofUnknown: 'whose it is shows when it is opened',
  more: (n: number) => `Show ${plural(n, 'older one', 'older ones')}`,
  goBack: 'Restore this backup',
  elsewhere: 'Look in another folder',
  elsewhereHint: 'Where the stick or the other drive is, for example /media/usb or E:\\Backups.',
  lookThere: 'Look',

  title: (when: string) => `Restore the backup of ${when}`,
  holds: (animals: string, weights: string, payments: string) =>
    `It was checked just now and is whole: ${animals}, ${weights}, ${payments}.`,
  animals: (n: number, shown: string) => (n === 1 ? '1 animal' : `${shown} animals`),
  weights: (n: number, shown: string) => (n === 1 ? '1 weight' : `${shown} weights`),
  payments: (n: number, shown: string) => (n === 1 ? '1 payment' : `${shown} payments`),
  until: (when: string) => `Its newest entry is of ${when}.`,
  empty: 'Nothing was entered in it yet.',
  notOurs: (shop: string) =>
    `This is a backup of another book${shop === '' ? '' : `: ${shop}`}. Restore it only if you want to work in that book from now on.`,
  isOf: (shop: string) => `It is the book of ${shop}.`,
  keeps:
    'What was entered later is not in it. The book as it is now is kept, and you can come back to it in the same way.',
  bringsBack:
    'This backup is from before personal details were removed. Restoring it brings those details back: remove them again afterwards.',
  open: 'Restore',
  openLocked: 'Unlock it',
  recordsOnly: 'Look at its records only',
  leavesOut: 'Its records go into a clean book. Whatever another program may have built into it is left out.',
  repaired: (n: number) =>
    `In ${plural(n, 'entry', 'entries')} a date or time could not be read. It was set to that of the entry before or after it. The book keeps what stood there: see its audit table when you export the book.`,
  openRecords: 'Open its records in a clean book',
  opened: (when: string) => `The book is now as it was on ${when}.`,

  staleTitle: 'Older backups still hold what was removed',
  stale: (n: number) =>
    `${n === 1 ? 'This copy of the book is' : `These ${n} copies of the book are`} from before personal details were removed.`,
  renewHint:
    'A fresh backup is made and checked first, in the second place too if there is one; only then are the older ones deleted. After that you cannot go back to an earlier day. Copies that lie anywhere else are yours to delete.',
  staleList: 'Which they are',
  renew: 'Replace the backups',
  keepThem: 'Keep them',
  renewed: (n: number) => `A fresh backup is made, and ${plural(n, 'older one', 'older ones')} deleted.`,
  staleLeft: (paths: string) =>
    `Still there: ${paths}. Plug in the stick and press it again, or delete what you do not need by hand.`,
  holdsRemoved: 'holds removed details',

  notOpen: 'The record book is not open.',
  tryAgain: 'Try again',
  asItIs: 'Open it as it is',
  keepRecords: 'Keep the records in a clean book',
  keepRecordsHint:
    'All entries are taken over; what the other program built in is left out. The file as it is now stays beside the clean book.',
  keptRecords: 'The records are in a clean book now. The file as it was is kept beside it.',
  newBook: 'Start a new, empty book',
  newBookHint: 'The file that does not open is kept beside the new book.',
  nothing: 'No backup was found beside the book. If you have one on a stick, look there.',

  clockDoubt: {
    impossible: (today: string) =>
      `The clock of this computer says ${today}. Nothing can be saved until the computer’s date and time are set.`,
    ahead: (today: string, last: string) =>
      `Is today ${today}? The newest entry in the book is from ${last}. Nothing is saved until the computer’s date is set, or you say that it is right.`,
    behind: (today: string, last: string) =>
      `Is today ${today}? The book already has entries up to ${last}. Nothing is saved until the computer’s date is set, or you say that it is right.`,
  },
  clockIsRight: 'The date is right',
  clock: (last: string) =>
    `The clock of this computer is behind: the newest entry in the book is of ${last}. Set the date and time of the computer before you take an animal in; tickets and dates go by it.`,
};
