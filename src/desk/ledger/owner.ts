/** The owner's view: what the ledger has of all shops. Only the shop's own window asks, and a save never waits for it. */
import * as v from 'valibot';
import { identityOf } from '../../book/file/book-identity.ts';
import { compareMeans } from '../../core/stats/welch.ts';
import { MEASURES, SPLITS } from '../../ledger/owner/asked.ts';
import { ownerGroups, type OwnerGroup as LedgerGroup } from '../../ledger/owner/groups.ts';
import { ledgerChoices, ledgerShops, type LedgerChoices } from '../../ledger/owner/ledger-shops.ts';
import { ANSWER_WITHIN, readAllShops } from '../../ledger/owner/reading.ts';
import { rowsBehind } from '../../ledger/owner/rows-behind.ts';
import { connect } from '../../ledger/server/connect.ts';
import { LedgerError } from '../../ledger/server/ledger-error.ts';
import type { Server } from '../../ledger/server/server.ts';
import type { OwnerAnswer, OwnerGroup, OwnerReport, OwnerRows, OwnerShop } from '../contract/owner.ts';
import { id, needed } from '../input/input.ts';
import { read } from '../session/procedure.ts';
import { seasonYear } from '../session/season-filter.ts';
import type { Session } from '../session/session.ts';
import { keptPassword } from './password.ts';
import { keepReader, keptReader, type ReaderLogin } from './reader-login.ts';
import { ledgerSettings, serverPassword } from './settings.ts';

/** 9 in 10, like all ranges beside a difference. */
const LEVEL = 0.9;

const asked = {
  measure: v.picklist(MEASURES, 'choice.measure'),
  season: v.optional(seasonYear),
  species: v.optional(needed(60)),
};

/** All shops by one measure, each compared with this one. */
export const getShops = read(
  v.object({ ...asked, split: v.picklist(SPLITS, 'choice.measure') }),
  (session, input) =>
    fromLedger(session, null, async (server): Promise<OwnerReport> => {
      const shops = await shopsOf(session, server);
      const choices = await ledgerChoices(server);
      const { groups, more } = await ownerGroups(server, input);
      const named = namesOf(session, choices);
      return {
        shops,
        seasons: choices.seasons,
        species: choices.species.map(({ code }) => ({ code, name: named(code) })),
        groups: compared(groups, shops.find(({ own }) => own)?.shop).map(({ species, ...group }) => ({
          ...group,
          code: species,
          speciesName: species === null ? null : named(species),
        })),
        more,
      };
    }),
);

/** What is behind one mark of the owner's view. */
export const getShopRows = read(
  v.object({ ...asked, shop: id, currency: v.optional(needed(3)) }),
  (session, input) =>
    fromLedger(session, null, async (server): Promise<OwnerRows> => {
      const shops = await shopsOf(session, server);
      const named = namesOf(session, await ledgerChoices(server));
      const { total, rows } = await rowsBehind(server, input);
      return {
        shop: shops.find(({ shop }) => shop === input.shop) ?? null,
        total,
        rows: rows.map((row) => ({ ...row, species: row.species.map(named) })),
      };
    }),
);

/** Keeps a login that reads all shops, once it does. The book stays as it is. */
export const readAs = read(
  v.object({ user: needed(63), password: serverPassword }),
  async (session, login) => {
    const { wrong } = await fromLedger(session, login, () => Promise.resolve(null));
    // Another book may have been opened meanwhile.
    if (wrong === null && session.book.db.open) keepReader(session.book.path, login);
    return { wrong };
  },
);

async function fromLedger<T>(
  session: Session,
  login: ReaderLogin | null,
  questions: (server: Server) => Promise<T>,
): Promise<OwnerAnswer<T>> {
  const settings = ledgerSettings(session.book);
  const at = session.now();
  if (!settings?.on) return { wrong: 'no-book', at, answer: null };
  const { host: name, port, database, tls, ca } = settings;
  const { user, password } = login ??
    keptReader(session.book.path) ?? {
      user: settings.user,
      password: (await keptPassword(session)) ?? '',
    };
  let server: Server | undefined;
  try {
    const line = await connect({ host: name, port, database, user, tls, ca }, password, ANSWER_WITHIN);
    server = line;
    return { wrong: null, at, answer: await readAllShops(line, () => questions(line)) };
  } catch (error) {
    if (error instanceof LedgerError) return { wrong: error.code, at, answer: null };
    throw error;
  } finally {
    await server?.end().catch(() => undefined); // the answer is known already
  }
}

/** Shops in the order of their names; of two with one name each has its number in the ledger. */
async function shopsOf(session: Session, server: Server): Promise<OwnerShop[]> {
  const own = identityOf(session.book.db);
  const found = await ledgerShops(server);
  return found
    .map(({ book, name, ...shop }) => ({
      ...shop,
      name: found.filter((other) => other.name === name).length > 1 ? `${name} (${shop.shop})` : name,
      own: book === own,
    }))
    .sort((a, b) => a.name.localeCompare(b.name));
}

/** Names of species: this shop's own, else the one that another shop gave. */
function namesOf(session: Session, { species }: LedgerChoices): (code: string) => string {
  const others = new Map(species.map(({ code, name }) => [code, name]));
  const own = new Map(session.species.all.map(({ code, name }) => [code, name]));
  return (code) => own.get(code) ?? others.get(code) ?? code;
}

type Compared = Omit<OwnerGroup, 'code' | 'speciesName'> & Pick<LedgerGroup, 'species'>;

/** Each group beside this shop's of the same season, species and currency. */
function compared(groups: readonly LedgerGroup[], own: number | undefined): Compared[] {
  const kindOf = ({ season, species, currency }: LedgerGroup): string =>
    JSON.stringify([season, species, currency]);
  const ours = new Map(groups.filter(({ shop }) => shop === own).map((group) => [kindOf(group), group]));
  return groups.map((group) => {
    const mine = group.shop === own ? undefined : ours.get(kindOf(group));
    const { spread } = group;
    return { ...group, spread, against: mine ? differenceOf(spread, mine.spread) : null };
  });
}

function differenceOf(a: LedgerGroup['spread'], b: LedgerGroup['spread']): OwnerGroup['against'] {
  if (!a || !b || a.sd === null || b.sd === null) return null;
  const { low, difference, high } = compareMeans({ ...a, sd: a.sd }, { ...b, sd: b.sd }, LEVEL);
  return { low, mean: difference, high, level: LEVEL };
}
