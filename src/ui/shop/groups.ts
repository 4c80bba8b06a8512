import { text as backupText } from '../../words/compiled/window/backup.ts';
import { text as railText } from '../../words/compiled/window/rail.ts';
import { text as belongingText } from '../../words/compiled/window/belongings.ts';
import { text as leavingText } from '../../words/compiled/window/leaving.ts';
import { recordText } from '../texts/en/books/record.ts';
import { text as scaleText } from '../../words/compiled/window/scale.ts';
import { shopText } from '../texts/en/shop.ts';

/** The groups of the Shop in their order, each with its name. */
export const GROUPS = {
  shop: shopText.about,
  letterhead: shopText.letterhead,
  money: shopText.money,
  cold: shopText.cold,
  get coolers() {
    return railText.coolers;
  },
  get scale() {
    return scaleText.title;
  },
  get pickup() {
    return leavingText.terms;
  },
  records: recordText.setTitle,
  get belongings() {
    return belongingText.kindsTitle;
  },
  people: shopText.staff,
  get backups() {
    return backupText.heading;
  },
  help: shopText.help,
} as const;
export type Group = keyof typeof GROUPS;

/** The part of the address that names a group: `/shop?at=backups`. */
export const isGroup = (name: unknown): name is Group => typeof name === 'string' && name in GROUPS;
