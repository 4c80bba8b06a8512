/** Matches rows to known hunters: by name, and by phone or address if several have the same name. */
import { nameKey, phoneKey } from '../../book/records/hunters.ts';
import type { Session } from '../session/session.ts';
import type { RowValues } from './cells.ts';

interface Known {
  /** Null during a check, while nothing is written. */
  id: number | null;
  phone: string;
  address: string;
}

interface People {
  /** The hunter of a row: known or new. */
  of(values: RowValues): { known: Known; isNew: boolean };
}

/**
 * All hunters of the book and, as rows are read, of the table. Equal names are the same person unless the phone
 * numbers differ; among several, the one with the same number or address. In doubt it is a new hunter: two entries
 * for one hunter are harmless, one entry for two is not.
 */
export function peopleOf(session: Session): People {
  const byName = new Map<string, Known[]>();
  for (const { id, name_key, phone_key, address } of session.book.imports.people())
    add(byName, name_key, { id, phone: phone_key, address: nameKey(address) });
  return {
    of({ texts }) {
      const key = nameKey(texts.name ?? '');
      const phone = phoneKey(texts.phone ?? '');
      const address = nameKey(texts.address ?? '');
      const namesakes = (byName.get(key) ?? []).filter((one) => isCompatible(one.phone, phone));
      const same =
        namesakes.find((one) => one.phone === phone && one.address === address) ??
        namesakes.find((one) => one.phone === phone && isCompatible(one.address, address)) ??
        (namesakes.length === 1 && isCompatible(namesakes[0]?.address ?? '', address)
          ? namesakes[0]
          : undefined);
      if (same) return { known: same, isNew: false };
      const known: Known = { id: null, phone, address };
      add(byName, key, known);
      return { known, isNew: true };
    },
  };
}

function isCompatible(a: string, b: string): boolean {
  return a === '' || b === '' || a === b;
}

function add(byName: Map<string, Known[]>, key: string, known: Known): void {
  const namesakes = byName.get(key);
  if (namesakes) namesakes.push(known);
  else byName.set(key, [known]);
}

/** Adds a hunter from a row. */
export function writeHunter(session: Session, { texts }: RowValues, at: string): number {
  return session.book.hunters.add(
    {
      name: texts.name ?? '',
      phone: texts.phone ?? '',
      email: texts.email ?? '',
      address: texts.address ?? '',
      licence: texts.licence ?? '',
      refusesPooling: texts.pooling === 'yes',
    },
    at,
  );
}
