import type { AnimalPage, CallInput, RecordField } from '../../bridge/contract.ts';
import { recordText as text } from '../texts/en-record.ts';

type Changes = CallInput<'animals.mend'>['changes'];
type Typed = Exclude<keyof Changes, 'species' | 'sex' | 'origin'>;

/** The fields that are typed, in the order in which they stand. */
export const TYPED: readonly { field: Typed; label: string; type: 'text' | 'date' | 'tel'; most: number }[] =
  [
    { field: 'licence', label: text.licence, type: 'text', most: 80 },
    { field: 'tag', label: text.tag, type: 'text', most: 80 },
    { field: 'killDate', label: text.killed, type: 'date', most: 10 },
    { field: 'killArea', label: text.killArea, type: 'text', most: 200 },
    { field: 'receivedOn', label: text.received, type: 'date', most: 10 },
    { field: 'delivererName', label: text.deliverer, type: 'text', most: 200 },
    { field: 'delivererAddress', label: text.delivererAddress, type: 'text', most: 500 },
    { field: 'address', label: text.ownerAddress, type: 'text', most: 500 },
    { field: 'phone', label: text.ownerPhone, type: 'tel', most: 60 },
  ];

export type MendForm = Record<Typed, string> & Pick<AnimalPage, 'sex' | 'origin'> & { species: string };

export function mendForm(page: AnimalPage): MendForm {
  return {
    licence: page.licence,
    tag: page.tag,
    killDate: page.killDate ?? '',
    killArea: page.killArea,
    receivedOn: page.receivedOn,
    delivererName: page.deliverer.name,
    delivererAddress: page.deliverer.address,
    address: page.hunter.address,
    phone: page.hunter.phone,
    species: page.species.code,
    sex: page.sex,
    origin: page.origin,
  };
}

/** What the form says otherwise than the record does. */
export function mendChanges(form: MendForm, page: AnimalPage): Changes {
  const before = mendForm(page);
  const changed = (Object.keys(form) as (keyof MendForm)[]).filter((field) => form[field] !== before[field]);
  const said = Object.fromEntries(changed.map((field) => [field, form[field]])) as Changes;
  return 'killDate' in said ? { ...said, killDate: form.killDate || null } : said;
}

/** Where to begin: the first field that is missing. */
export function firstMissing(lacks: readonly RecordField[]): Typed | undefined {
  return TYPED.find(({ field }) => lacks.some((lack) => lack === field))?.field;
}
