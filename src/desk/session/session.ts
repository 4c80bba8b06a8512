import { randomUUID } from 'node:crypto';
import type { Book } from '../../book/book.ts';
import type { ChangeLog } from '../../book/changes/change-log.ts';
import type { Topic } from '../../book/changes/topics.ts';
import { seasonOf } from '../../core/values/dates.ts';
import { backupState, type BackupState } from './make-backup.ts';
import type { FatKnowledge } from '../learning/fat-knowledge.ts';
import { fatLearning } from '../learning/fat-learning.ts';
import { lossLearning, type LossKnowledge } from '../learning/loss-learning.ts';
import { shrinkLearning, type HookShrink } from '../learning/hook-shrink.ts';
import { teachersOf, type Teachers } from '../learning/teachers.ts';
import { seasonCache, type SeasonCache } from './season-cache.ts';
import { localDate } from '../input/local-date.ts';
import type { SettingReplaced, ShopSettings } from '../contract/contract.ts';
import { readSettings } from './settings.ts';
import type { Vault } from './vault.ts';
import { speciesShelf, type SpeciesShelf } from '../supplied/species-shelf.ts';
import type { YieldKnowledge } from '../learning/yield-knowledge.ts';
import { yieldLearning } from '../learning/yield-learning.ts';

/** The context of procedures: one open book, its clock and the models learned from it. */
export interface Session {
  readonly book: Book;
  /**
   * Identity of this opening of a book: random, new for each opening, and stored nowhere. Ids refer to other
   * records in another book, so a call states the opening that it is meant for.
   */
  readonly opening: string;
  readonly demo: boolean;
  readonly settings: ShopSettings;
  /** Invalid settings of the book, with their replacements. */
  readonly settingsReplaced: readonly SettingReplaced[];
  /** The species known to the shop. */
  readonly species: SpeciesShelf;
  /** What other shops taught: where the models below start. */
  readonly teachers: Teachers;
  /** The current yield model, cached until its animals change. */
  readonly yields: YieldKnowledge;
  /** The current fat model. Only changed tests are processed again. */
  readonly fats: FatKnowledge;
  /** The current model of the loss on the hook. */
  readonly shrink: HookShrink;
  /** The current model of the loss from stuffing to packing. */
  readonly losses: LossKnowledge;
  /** A cache of values computed from a season, invalidated when one of its animals changes. */
  readonly cached: SeasonCache;
  /** UTC ISO moment. */
  now(): string;
  /** The shop's local date. */
  today(): string;
  /** The shop's local date at a moment. */
  dayOf(moment: string): string;
  season(): number;
  readonly backups: BackupState;
  /** Opens another book instead of this one; and the system's key store, where the shell has one. */
  readonly host: {
    openDemo(): Promise<Session>;
    leaveDemo(): Promise<Session>;
    readonly vault?: Vault | undefined;
  };
  /**
   * Whether another program wrote since the last call; everything read or learned is then outdated.
   * @throws BookError `altered` when it changed the schema
   */
  othersWrote(): boolean;
}

export function createSession(options: {
  book: Book;
  demo: boolean;
  clock: () => Date;
  host: Session['host'];
}): Session {
  const { book } = options;
  const settings = versioned(book.changes, 'settings', () => readSettings(book));
  const species = versioned(book.changes, 'species', () => speciesShelf(book));
  const teachers = teachersOf(book);
  const yields = yieldLearning(book);
  const fats = fatLearning(book);
  const shrink = shrinkLearning(book, (moment) => session.dayOf(moment));
  const losses = lossLearning(book);
  const dataVersion = book.db.prepare<[], number>('PRAGMA data_version').pluck();
  let seen = dataVersion.get();
  const session: Session = {
    book,
    opening: randomUUID(),
    backups: backupState(book),
    demo: options.demo,
    host: options.host,
    cached: seasonCache(book),
    get settings() {
      return settings().settings;
    },
    get settingsReplaced() {
      return settings().replaced;
    },
    get species() {
      return species();
    },
    get teachers() {
      return teachers();
    },
    get yields() {
      return yields.knowledge(session.species.all, session.season(), session.teachers.yields);
    },
    get fats() {
      return fats.knowledge(session.species, session.teachers.fat(session.species));
    },
    get shrink() {
      return shrink.knowledge(session.species.all, session.settings.zone);
    },
    get losses() {
      return losses(session.teachers.losses);
    },
    now: () => options.clock().toISOString(),
    today: () => localDate(options.clock(), session.settings.zone),
    dayOf: (moment) => localDate(new Date(moment), session.settings.zone),
    season: () => seasonOf(session.today(), session.settings.seasonStartsMonth),
    othersWrote() {
      const now = dataVersion.get();
      if (now === seen) return false;
      book.checkBuilt();
      seen = now;
      book.changes.invalidate();
      return true;
    },
  };
  return session;
}

/** Caches `read` until the topic changes. */
function versioned<T>(changes: ChangeLog, topic: Topic, read: () => T): () => T {
  let known: { version: number; value: T } | undefined;
  return () => {
    const version = changes.version(topic);
    if (known?.version !== version) known = { version, value: read() };
    return known.value;
  };
}
