import { text as backupText } from '../../words/compiled/window/backup.ts';
import { text as railText } from '../../words/compiled/window/rail.ts';
import { text as belongingText } from '../../words/compiled/window/belongings.ts';
import { text as leavingText } from '../../words/compiled/window/leaving.ts';
import { text as ledgerText } from '../../words/compiled/window/ledger.ts';
import { text as recordText } from '../../words/compiled/window/books/record.ts';
import { text as scaleText } from '../../words/compiled/window/scale.ts';
import { text as stationText } from '../../words/compiled/window/stations.ts';
import { text } from '../../words/compiled/window/shop.ts';

/** The groups of the Shop in their order. */
const GROUPS = [
  'shop', 'letterhead', 'money', 'cold', 'coolers', 'scale', 'pickup', 'records', 'belongings', 'people', 'stations', 'ledger', 'backups', 'help',
] as const; // prettier-ignore
export type Group = (typeof GROUPS)[number];

/** The groups in their order, each with its name. */
export function groupNames(): Record<Group, string> {
  return {
    shop: text.about,
    letterhead: text.letterhead,
    money: text.money,
    cold: text.cold,
    coolers: railText.coolers,
    scale: scaleText.title,
    pickup: leavingText.terms,
    records: recordText.setTitle,
    belongings: belongingText.kindsTitle,
    people: text.staff,
    stations: stationText.title,
    ledger: ledgerText.title,
    backups: backupText.heading,
    help: text.help,
  };
}

/** The part of the address that names a group: `/shop?at=backups`. */
export const isGroup = (name: unknown): name is Group => GROUPS.some((group) => group === name);
