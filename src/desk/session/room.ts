import { randomUUID } from 'node:crypto';
import type { Book } from '../../book/book.ts';
import { seasonOf } from '../../core/values/dates.ts';
import { backupState, type BackupState } from './backup-keeping.ts';
import type { FatKnowledge } from '../learning/fat-knowledge.ts';
import { fatLearning } from '../learning/fat-learning.ts';
import { shrinkLearning, type HookShrink } from '../learning/hook-shrink.ts';
import { keptOfSeason, type KeptOfSeason } from './kept-of-season.ts';
import { localDate } from '../input/local-date.ts';
import type { SettingReplaced, ShopSettings } from '../contract/contract.ts';
import { readSettings, type ReadSettings } from './settings.ts';
import { speciesShelf, type SpeciesShelf } from '../supplied/species-shelf.ts';
import type { YieldKnowledge } from '../learning/yield-knowledge.ts';
import { yieldLearning } from '../learning/yield-learning.ts';

/** Where procedures work: one open book, its clock and what was learned from it. */
export interface DeskRoom {
  readonly book: Book;
  /**
   * Which opening of a book this is: new each time one is opened, and written nowhere. The same numbers mean other
   * animals in another book, so a call says which opening it is meant for.
   */
  readonly opening: string;
  readonly demo: boolean;
  readonly settings: ShopSettings;
  /** Settings of the book that cannot be used here, with what is gone by instead. */
  readonly settingsReplaced: readonly SettingReplaced[];
  /** The kinds of game that the shop knows. */
  readonly species: SpeciesShelf;
  /** The yield model as the book stands; learned again only after a change. */
  readonly yields: YieldKnowledge;
  /** What fat tests taught, as the book stands; what is still so is not learned again. */
  readonly fats: FatKnowledge;
  /** What the hook takes, as the book stands. */
  readonly shrink: HookShrink;
  /** What was worked out of a season; worked out again only once one of its animals changed. */
  readonly ofSeason: KeptOfSeason;
  /** UTC ISO moment. */
  now(): string;
  /** The shop's local date. */
  today(): string;
  /** The shop's local date at a moment. */
  dayOf(moment: string): string;
  season(): number;
  readonly backups: BackupState;
  /** Opens another book in place of this one. */
  readonly host: { openDemo(): Promise<DeskRoom>; leaveDemo(): Promise<DeskRoom> };
  /**
   * Whether another program wrote since this was last asked; all that was read or learned is then forgotten.
   * @throws BookTrouble `altered` when it built something into the book
   */
  othersWrote(): boolean;
  /** Reads the settings again; called after every change. */
  forget(): void;
  /** A call that may have written is over: kept, or all of it undone, and then what was looked up meanwhile is forgotten. */
  settle(kept: boolean): void;
  /** Learns yields again when next asked: weights or the stage of this animal changed; of any, where none is named. */
  relearn(animalId?: number): void;
  /** Looks at the kinds of game again, and learns all anew: one was added or changed. */
  reshelve(): void;
}

export function createRoom(options: {
  book: Book;
  demo: boolean;
  clock: () => Date;
  host: DeskRoom['host'];
}): DeskRoom {
  let settings: ReadSettings | undefined;
  const read = (): ReadSettings => (settings ??= readSettings(options.book));
  let species: SpeciesShelf | undefined;
  const learning = yieldLearning(options.book);
  const ofFat = fatLearning(options.book);
  const ofHook = shrinkLearning(options.book, (moment) => room.dayOf(moment));
  const { db } = options.book;
  const dataVersion = db.prepare<[], number>('PRAGMA data_version').pluck();
  const version = () => dataVersion.get();
  let seen = version();
  /** Something was looked up within a transaction that may yet be undone. */
  let unsettled = false;
  const lookedUp = <T>(found: T): T => {
    unsettled ||= db.inTransaction;
    return found;
  };
  const room: DeskRoom = {
    book: options.book,
    opening: randomUUID(),
    backups: backupState(options.book),
    demo: options.demo,
    host: options.host,
    ofSeason: keptOfSeason(options.book),
    get settings() {
      return read().settings;
    },
    get settingsReplaced() {
      return read().replaced;
    },
    get species() {
      return (species ??= lookedUp(speciesShelf(options.book)));
    },
    get yields() {
      const before = learning.times;
      const found = learning.knowledge(room.species.all, room.season());
      return learning.times === before ? found : lookedUp(found);
    },
    get fats() {
      const before = ofFat.times;
      const found = ofFat.knowledge(room.species);
      return ofFat.times === before ? found : lookedUp(found);
    },
    get shrink() {
      return ofHook.knowledge(room.species.all);
    },
    now: () => options.clock().toISOString(),
    today: () => localDate(options.clock(), room.settings.zone),
    dayOf: (moment) => localDate(new Date(moment), room.settings.zone),
    season: () => seasonOf(room.today(), room.settings.seasonStartsMonth),
    othersWrote() {
      const now = version();
      if (now === seen) return false;
      options.book.checkBuilt();
      seen = now;
      options.book.changes.forget();
      room.forget();
      room.reshelve();
      return true;
    },
    forget() {
      settings = undefined;
    },
    settle(kept) {
      settings = undefined;
      if (unsettled && !kept) room.reshelve();
      unsettled = false;
    },
    relearn(animalId) {
      if (animalId === undefined) learning.forget();
      else learning.changed(animalId);
    },
    reshelve() {
      species = undefined;
      room.relearn();
      ofFat.forget();
      ofHook.forget();
    },
  };
  return room;
}
